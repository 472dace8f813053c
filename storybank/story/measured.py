"""Plans of measured stories: a telling with a measured thing of a scene, in one of its units."""

from collections.abc import Collection, Iterator, Mapping
from functools import cache, partial

from storybank import situations, tellings
from storybank.model import BankWord, Situation
from storybank.model.measures import UNITS, Measured
from storybank.model.words import Range, Scene, Theme
from storybank.story.measured_writer import MeasuredWriter, Told
from storybank.story.plans import Draft
from storybank.story.skeleton import Skeleton, as_text, within_limits
from storybank.story.word_bank import bases_of, word_bank
from storybank.tellings import Telling, keywords_in
from storybank.vocabulary import Vocabulary

_LEAST_DIFFERENCE = 2


def measured_things(scene: Scene, kinds: Collection[str]) -> tuple[str, ...]:
    """The ids of the measured things of a scene whose quantity is of one of the kinds."""
    return tuple(name for name, one in scene.measured.items() if one.kind in kinds)


@cache
def measured_drafts(
    theme: Theme, scene: Scene, thing: str, situation_id: str, vocabulary: Vocabulary
) -> Mapping[str, tuple[Draft, ...]]:
    """All drafts that tell a situation of a measured thing, by telling; kept for next time."""
    return fresh_measured_drafts(theme, scene, thing, situation_id, vocabulary)


def fresh_measured_drafts(
    theme: Theme, scene: Scene, thing: str, situation_id: str, vocabulary: Vocabulary
) -> Mapping[str, tuple[Draft, ...]]:
    """The same, found anew and not kept: for whoever looks through all of them once."""
    situation = situations.get(situation_id)
    grouped: dict[str, list[Draft]] = {}
    for telling in tellings.measured_of(situation_id):
        if not telling.levels[0] <= vocabulary.level <= telling.levels[1]:
            continue
        for told in _told(scene.measured[thing], telling):
            room = _room(situation, told)
            tenses = tuple(one for one in vocabulary.tenses if one in telling.tenses)
            for tense in tenses or telling.tenses:
                writing = partial(_build, telling, told, theme, tense, vocabulary)
                detail = f"{told.detail}:{tense}"
                draft = Draft(telling, detail, room, scene.key, f"measured/{thing}", writing)
                grouped.setdefault(telling.id, []).append(draft)
    return {telling: tuple(drafts) for telling, drafts in grouped.items()}


def _told(thing: Measured, telling: Telling) -> Iterator[Told]:
    """What a telling can tell of a thing, in every unit."""
    needs = telling.needs
    if needs.get("form") == "adjective" and thing.adjective is None:
        return
    for unit in thing.units:
        if "act" in needs:
            if needs.get("some", "yes" if thing.some else "no") != ("yes" if thing.some else "no"):
                continue
            for act in thing.acts:
                if act.effect == needs["act"] and unit in act.range:
                    yield Told(thing, unit, thing.one, act=act)
        elif "compare" in needs:
            if thing.compared[needs["compare"] == "less"] is None:
                continue
            if thing.pair is not None:
                first, second = thing.pair
                yield Told(thing, unit, first, second)
                yield Told(thing, unit, second, first)
            elif thing.rivals:
                yield Told(thing, unit, None)
        elif thing.whole is not None and unit in thing.whole.range:
            way = "clause" if thing.whole.clause else "named" if thing.one else "times"
            if needs.get("whole") == way and ("opening" not in needs or thing.whole.opening):
                yield Told(thing, unit, thing.one)


def _room(situation: Situation, told: Told) -> tuple[Range, Range, Range]:
    """The lowest and highest A, B and C of a story: what is plausible for thing, act and unit."""
    thing, unit = told.thing, told.unit
    held = thing.units[unit]
    if situation.family == "compare":
        return held, (_LEAST_DIFFERENCE, max(_LEAST_DIFFERENCE, held[1] // 2)), held
    if situation.family == "parts":
        assert thing.whole is not None
        part = thing.whole.range[unit]
        named = thing.whole.clause is None and thing.one is not None
        return part, part, held if named else (part[0], 2 * part[1])
    assert told.act is not None
    return held, told.act.range[unit], held


def _build(
    telling: Telling, told: Told, theme: Theme, tense: str, vocabulary: Vocabulary
) -> Skeleton | None:
    writer = MeasuredWriter(told, tense, vocabulary.plain_words)
    sentences = [writer.sentence(one) for one in (*telling.sentences, *telling.questions)]
    answer = writer.sentence(telling.answer)
    probe = [as_text(sentence, "Ada", "Ben", "7") for sentence in sentences]
    skeleton = Skeleton(
        sentences=tuple(sentences),
        questions=1,
        answer=answer,
        people=2 if writer.said["b"] else int(writer.said["a"]),
        pronouns=vocabulary.pronouns != "none",
        own_line=vocabulary.question_line == "own",
        talk_frames=vocabulary.talk_frames,
        support=vocabulary.support,
        word_bank=_bank(told, theme, probe, vocabulary),
        keywords=keywords_in(" ".join(probe)),
        unit=told.unit,
    )
    if vocabulary.things_need_picture and any(
        word.one and not word.picture for word in skeleton.word_bank
    ):
        return None
    kept = within_limits(skeleton, probe, bases_of(theme, measured=True), vocabulary)
    return skeleton if kept else None


def _bank(
    told: Told, theme: Theme, probe: list[str], vocabulary: Vocabulary
) -> tuple[BankWord, ...]:
    """The word bank: what stands in the pack, the measured thing and the unit."""
    bank = word_bank(theme, probe, vocabulary)
    thing, unit = told.thing, UNITS[told.unit]
    text = f" {' '.join(probe).lower().replace('.', '').replace('?', '')} "
    known = {name for word in bank for name in (word.word, (word.one or " ").split(" ", 1)[-1])}
    own = []
    if thing.word and thing.meaning and thing.word not in known and f" {thing.word} " in text:
        own.append(BankWord(thing.word, thing.picture, thing.meaning, thing.translations))
    own.append(
        BankWord(unit.id, unit.picture, unit.meaning, dict(unit.translations), unit.noun.one)
    )
    things = [word for word in bank if word.one is not None]
    others = [word for word in bank if word.one is None]
    return (*things, *own, *others)
