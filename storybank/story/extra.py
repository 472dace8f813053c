"""A sentence more, with a number that is not needed: another thing of the same scene.

"There were also 7 pears in the crate." It tells of a thing that the question does not ask for and
that no word of the story covers, where the child or the place is as told.
"""

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache

from storybank.model.words import Holder, Range, Scene, Theme, Thing
from storybank.story.gaps import Gap, Sentence
from storybank.story.plans import Added, Plan
from storybank.story.skeleton import as_text, within_limits
from storybank.story.tell import EXTRA
from storybank.story.word_bank import bases_of, word_bank
from storybank.vocabulary import Vocabulary
from storybank.vocabulary.measures import words_of

_LEAST = 2  # So the noun stays plural.
_CHAIN = re.compile(r"(?:That|Of|The (?:rest|other|others)|So|Each|Some) ")
"""What a sentence begins with that speaks of the one before it: nothing may come between."""
_OPENINGS = (
    "There ",
    "At first, there ",
    "Then ",
    "Later, ",
    "Now ",
    "After that, ",
    "In the end, ",
)
_BUILT_IN = ("step",)
"""What is part of a building: nobody thinks of it beside other things."""
_STILL = ("There ", "In the end, there ", "Ada ", "Ben ", "That ", "The rest ")
"""What a sentence begins with in which nothing happens."""
_THERE = re.compile(r"^There (?:were|are|was|is)\b")
_COVERED = {
    "bird": ("chick", "duck", "flamingo", "goose", "gull", "hen", "parrot", "swan"),
    "flower": ("blossom", "daisy", "dandelion", "marigold", "rose", "sunflower", "tulip"),
    "plant": ("flower", "seedling", "sunflower", "tulip", "daisy", "weed"),
    "person": ("child", "runner", "swimmer"),
    "toy": ("ball", "block", "kite", "puppet", "puzzle"),
    "berry": ("blueberry", "strawberry"),
    "dog": ("puppy",),
    "fish": ("dolphin", "seal"),
    "frog": ("tadpole",),
    "seed": ("bean", "peanut"),
    "stone": ("pebble",),
    "boat": ("canoe", "sailboat"),
    "picture": ("painting", "photo", "postcard"),
}
"""What is one of the others, though its word does not say so; from memory."""


@lru_cache(maxsize=1 << 12)
def with_extra(plan: Plan, theme: Theme, scene: Scene, pack: Vocabulary) -> tuple[Plan, ...]:
    """The plan told with a sentence more, in every way there is; none where no way is good.

    `pack` has room for that sentence.
    """
    told = [as_text(one, "Ada", "Ben", "7") for one in plan.skeleton.sentences]
    questions = plan.skeleton.questions
    if _covers(plan, scene) or not all(
        text.startswith(("Ada ", "Ben ", *_OPENINGS)) or _CHAIN.match(text)
        for text in told[:-questions]
    ):
        return ()
    found = []
    for thing in (theme.things[name] for name in scene.things):
        if not _apart(thing, theme.things[plan.thing], " ".join(told), pack):
            continue
        for sentences, room in _sentences(plan, scene, thing, told, pack):
            if room[1] >= room[0]:
                made = _inserted(plan, theme, pack, sentences, Added(thing.noun.many, room))
                if made is not None:
                    found.append(made)
    return tuple(found)


def _covers(plan: Plan, scene: Scene) -> bool:
    """Whether the story counts things under a covering noun, such as pieces of fruit."""
    ids = plan.detail.rpartition(":")[0].split("+")
    return any(kinds.sorted and kinds.id in ids for kinds in scene.kinds)


def _apart(other: Thing, thing: Thing, text: str, pack: Vocabulary) -> bool:
    """Whether a thing cannot be taken for the one of the story."""
    if (
        other.id == thing.id
        or {other.id, thing.id} & set(_BUILT_IN)
        or (pack.things_need_picture and other.picture is None)
    ):
        return False
    low = set(words_of(text.lower()))
    if set(words_of(other.noun.many.lower())) & low or set(words_of(other.noun.bare.lower())) & low:
        return False
    for one, two in ((other, thing), (thing, other)):
        heads = {one.noun.bare.lower().split()[-1], one.noun.many.lower().split()[-1]}
        if heads & set(words_of(two.meaning.lower())):
            return False
        if two.id in _COVERED.get(one.id, ()) or _covered_by_word(one, two):
            return False
    return True


def _covered_by_word(one: Thing, two: Thing) -> bool:
    """Paper hearts and hearts, tomato plants and plants: one word of the name is the other."""
    return bool(set(words_of(one.noun.bare.lower())) & set(words_of(two.noun.bare.lower())))


def _sentences(
    plan: Plan, scene: Scene, thing: Thing, told: list[str], pack: Vocabulary
) -> Iterator[tuple[tuple[Sentence, ...], Range]]:
    """The sentences of the story with one more, in every way, with the room for its number."""
    number = Gap("number", EXTRA, thing.noun.bare, thing.noun.many)
    sentences = plan.skeleton.sentences
    statements = len(told) - plan.skeleton.questions
    again = any(" also " in one for one in told)
    beside = list(_told_of_somebody(plan, scene, thing, statements))
    if beside and again:
        return
    for at, gap, verb, room in beside:
        for place in _places(told, at + 1, statements):
            who = gap if place == at + 1 else Gap("b" if gap.kind == "b" else "a")
            yield _with(sentences, place, (who, f" also {verb} ", number, ".")), room
        if at == 0 and _goes_on(told, 1):
            own = (gap, f" also {verb} ", *sentences[0][2:])
            yield ((sentences[0][0], f" {verb} ", number, "."), own, *sentences[1:]), room
    if beside or not told[0].startswith(("There ", "At first, there ")):
        return
    be = "were" if plan.detail.endswith(":past") else "are"
    for holder, phrase, same in _holders(plan, scene, thing, told, pack):
        room = _room(holder, thing)
        if not again:
            for place in _places(told, 1, statements):
                added = (f"There {be} also ", number, f" {phrase}.")
                yield _with(sentences, place, added), room
        if told[0].startswith("There ") and not same:
            opening = sentences if again else (_also(sentences[0]), *sentences[1:])
            yield _with(opening, 0, (f"There {be} ", number, f" {phrase}.")), room


def _with(sentences: tuple[Sentence, ...], at: int, added: Sentence) -> tuple[Sentence, ...]:
    return (*sentences[:at], added, *sentences[at:])


def _also(opening: Sentence) -> Sentence:
    """There were also 46 apples; There were also some apples."""
    first, *rest = opening
    if isinstance(first, str) and first != "There ":
        return (_THERE.sub(r"\g<0> also", first), *rest)
    be, space, *rest = rest
    return (first, be, f" also{space}", *rest)


def _places(told: list[str], first: int, last: int) -> Iterator[int]:
    """Behind the sentence it goes with, and before the question unless something happens there."""
    if _goes_on(told, first):
        yield first
    if last > first and told[last - 1].startswith(_STILL):
        yield last


def _goes_on(told: list[str], at: int) -> bool:
    """Whether the sentence there does not speak of the one before it."""
    return not _CHAIN.match(told[at])


def _room(holder: Holder, thing: Thing) -> Range:
    low, high = holder.room[thing.id]
    return max(low, _LEAST), high


def _told_of_somebody(
    plan: Plan, scene: Scene, thing: Thing, statements: int
) -> Iterator[tuple[int, Gap, str, Range]]:
    """The sentences that tell what a child has or finds, with that child, verb and room."""
    named = False
    for at, sentence in enumerate(plan.skeleton.sentences[:statements]):
        named = named or any(isinstance(one, Gap) and one.kind == "b" for one in sentence)
        who, verb = sentence[0], sentence[1] if len(sentence) > 3 else ""
        counted = sentence[2] if len(sentence) > 3 else ""
        if not (isinstance(who, Gap) and isinstance(verb, str) and isinstance(counted, Gap)):
            continue
        if who.kind not in ("a", "b", "he") or counted.kind != "number" or sentence[3] != ".":
            continue
        if counted.many.startswith(("more ", "fewer ", "of ")):
            continue
        again = Gap("b") if who.kind == "b" else Gap("a" if named else "he")
        word = verb.strip()
        if word in ("has", "had"):
            for holder in scene.holders.values():
                if holder.kind == "person" and holder.one is None and thing.id in holder.room:
                    yield at, again, word, _room(holder, thing)
                    break
            continue
        for compare in scene.compare:
            forms = (compare.verb.s, compare.verb.past) if compare.verb else ()
            if word in forms and thing.id in compare.things:
                yield at, again, word, (max(_LEAST, compare.range[0]), compare.range[1])
                break


def _holders(
    plan: Plan, scene: Scene, thing: Thing, told: list[str], pack: Vocabulary
) -> Iterator[tuple[Holder, str, bool]]:
    """The places that can have the thing, with their phrase, and whether the story has them too.

    Another place is told of only where both things might be in one: nobody looks at marbles in a
    bowl and at parrots on a roof.
    """
    used = set(plan.detail.rpartition(":")[0].split("+"))
    text = {form for word in words_of(" ".join(told).lower()) for form in (word, f"{word}s")}
    text |= {word.removesuffix("s") for word in text}
    opening = set(words_of(told[0].lower()))
    together = any(
        {thing.id, plan.thing} <= set(one.room)
        for one in scene.holders.values()
        if one.kind == "place" or one.one is None
    )
    for holder in scene.holders.values():
        if holder.kind != "place" or thing.id not in holder.room:
            continue
        first = holder.first(pack.plain_words, beside=False)
        head = first.split()[-1].lower()
        if holder.id in used and head in opening:
            beside = sum(one in scene.holders for one in used) > 1
            yield holder, f"{holder.prep} {holder.later(pack.plain_words, beside=beside)}", True
        elif together and head not in text:
            yield holder, f"{holder.prep} {first}", False


def _inserted(
    plan: Plan, theme: Theme, pack: Vocabulary, sentences: tuple[Sentence, ...], added: Added
) -> Plan | None:
    skeleton = plan.skeleton
    probe = [as_text(one, "Ada", "Ben", "7") for one in sentences]
    bank = word_bank(theme, probe, pack)
    changed = replace(skeleton, sentences=sentences, word_bank=bank)
    if not within_limits(changed, probe, bases_of(theme), pack):
        return None
    detail = f"{plan.detail}/{' '.join(probe)}"
    return replace(plan, detail=detail, skeleton=changed, added=added)
