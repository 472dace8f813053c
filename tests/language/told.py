"""Every sentence that the tellings and packs can tell, and the patterns they have in common."""

import re
from collections.abc import Callable, Iterable, Iterator
from functools import cache

from storybank import situations, themes, vocabulary
from storybank.model import Situation
from storybank.people import Person
from storybank.story import Plan, plans_for, tell

NUMBER = 46
ADA, BEN = Person("Ada", "she"), Person("Ben", "he")
NAMED_AGAIN = Person("Ada", None)

Masked = tuple[str, tuple[str, ...]]


@cache
def sentences(theme_id: str) -> tuple[str, ...]:
    """The different sentences of a theme, questions and answers among them, sorted.

    Each plan is told with 46 everywhere, and once more for each number that may be 1; with names
    only and, where the vocabulary has pronouns, with a pronoun.
    """
    found: set[str] = set()
    for situation, plan in _plans(theme_id):
        fills = list(_fills(situation, plan))
        for person in (NAMED_AGAIN, ADA) if plan.skeleton.pronouns else (NAMED_AGAIN,):
            for numbers in fills:
                story = tell(plan, (person, BEN), numbers)
                found.update((*story.sentences, story.answer_sentence))
    return tuple(sorted(found))


def _plans(theme_id: str) -> Iterator[tuple[Situation, Plan]]:
    theme = themes.get(theme_id)
    for scene in theme.scenes.values():
        for vocabulary_id in vocabulary.ids():
            pack = vocabulary.get(vocabulary_id)
            for situation_id in situations.ids():
                for thing in scene.things:
                    grouped = plans_for(theme, scene, thing, situation_id, pack)
                    for plans in grouped.values():
                        for plan in plans:
                            yield situations.get(situation_id), plan


def _fills(situation: Situation, plan: Plan) -> Iterator[dict[str, int]]:
    roles = ("part1", "part2", "whole") if situation.both_parts else situation.roles
    lowest = {role: room[0] for role, room in zip(roles, plan.room, strict=True)}
    for single in (None, *(role for role in roles if lowest[role] == 1)):
        numbers = {role: 1 if role == single else NUMBER for role in roles}
        if not situation.both_parts:
            numbers["answer"] = numbers[situation.unknown]
        yield numbers


@cache
def siblings(theme_id: str) -> dict[str, tuple[Masked, ...]]:
    """The sentences of a theme by pattern, each with the words masked in it.

    Two sentences have one pattern when they differ only in nouns of the same grammatical type
    (one word, a compound, or a phrase with "of"; one or many) or in the adjective of a kind.
    """
    mask = masker(theme_id)
    grouped: dict[str, list[Masked]] = {}
    for sentence in sentences(theme_id):
        pattern, masked = mask(sentence)
        grouped.setdefault(pattern, []).append((sentence, masked))
    return {pattern: tuple(group) for pattern, group in grouped.items()}


@cache
def patterns(theme_id: str) -> dict[str, str]:
    """One sentence for each different pattern of a theme.

    The one is taken whose nouns have been taken least so far, so that all nouns and adjectives
    have their turn.
    """
    taken: dict[str, int] = {}
    chosen = {}
    for pattern, group in siblings(theme_id).items():
        sentence, masked = min(group, key=lambda one: (_turns(one, taken), one[0]))
        for word in masked:
            taken[word] = taken.get(word, 0) + 1
        chosen[pattern] = sentence
    return chosen


def _turns(one: Masked, taken: dict[str, int]) -> int:
    return sum(taken.get(word, 0) for word in one[1])


def nouns(theme_id: str) -> dict[str, str]:
    """Both forms of every counted noun of a theme, with its grammatical type."""
    theme = themes.get(theme_id)
    counted = [thing.noun for thing in theme.things.values()]
    counted += [kinds.whole for scene in theme.scenes.values() for kinds in scene.kinds]
    types = {}
    for noun in counted:
        shape = "OF" if " of " in noun.bare else "COMPOUND" if " " in noun.bare else "NOUN"
        types[noun.bare] = shape
        types[noun.many] = f"{shape}S"
    return types


def masker(theme_id: str) -> Callable[[str], Masked]:
    """A function from a sentence to its pattern and the words masked in it."""
    types = nouns(theme_id)
    adjectives = {
        side.before
        for scene in themes.get(theme_id).scenes.values()
        for kinds in scene.kinds
        for side in (kinds.first, kinds.second)
        if side.before
    }
    noun = re.compile(rf"\b(?:{_any_of(types)})\b")
    kind = re.compile(rf"\b(?:{_any_of(adjectives)}) (?=(?:{_any_of(set(types.values()))})\b)")

    def mask(sentence: str) -> Masked:
        masked: list[str] = []

        def note(match: re.Match[str], instead: str) -> str:
            masked.append(match[0].strip())
            return instead

        pattern = noun.sub(lambda match: note(match, types[match[0]]), sentence)
        pattern = kind.sub(lambda match: note(match, "ADJECTIVE "), pattern)
        return pattern, tuple(masked)

    return mask


def _any_of(words: Iterable[str]) -> str:
    longest_first = sorted(words, key=lambda word: (-len(word), word))
    return "|".join(map(re.escape, longest_first)) or "(?!)"
