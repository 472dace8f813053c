"""One unit a story: every number, the question and the answer carry it, and comparing words fit."""

import re
from collections.abc import Iterator
from dataclasses import replace

from storybank.checks import _spoiling
from storybank.checks._context import Context
from storybank.model import Problem, Story
from storybank.model.measures import (
    ADJECTIVES,
    COMPARING_LESS,
    COMPARING_MORE,
    LENGTHS,
    MINUTES,
    MONEY,
    POINTS,
    UNITS,
    Unit,
)
from storybank.vocabulary.names import replacing

TITLE = "Units"
_FORMS = {form: unit for unit in UNITS.values() for form in (unit.noun.bare, unit.id)}
_NUMBER = re.compile(r"(\d+|___)((?: (?:more|fewer))?)(?: ([^\W\d_]+))?")
_IN_UNITS = re.compile(rf"(?:\d|___)(?: (?:more|fewer))? (?:{'|'.join(_FORMS)})(?![^\W\d_])")
_WORD = re.compile(r"[^\W\d_]+")
_SOMEBODY = "Somebody"
"""What stands for a name, since a child may be called by a word that is looked for here."""
_OF_LENGTHS = frozenset(word for pair in ADJECTIVES.values() for word in pair) | {"farther"}
_FITTING = {
    LENGTHS: _OF_LENGTHS,
    MONEY: frozenset({"more", "less"}),
    MINUTES: frozenset({"longer", "shorter", "fewer"}),
    POINTS: frozenset({"more", "fewer"}),
}
"""The comparing words of each kind: inches are no things of which there are more."""


def judge(problem: Problem, context: Context) -> list[str]:
    """What is wrong with the unit of a problem; of one without a unit, that it measures."""
    story = problem.story
    texts = (*story.sentences, story.answer_sentence, story.answer_frame)
    if story.unit is None:
        if _IN_UNITS.search("\n".join(texts)) is None:
            return []
        return [
            f'In "{text}" a number is told in {found[3]}, and the problem names no unit.'
            for text in texts
            for found in _NUMBER.finditer(text)
            if found[3] in _FORMS
        ]
    if story.unit not in UNITS:
        return [f'The unit is "{story.unit}". There are: {", ".join(UNITS)}.']
    unit = UNITS[story.unit]
    say = replacing(dict.fromkeys(story.people, _SOMEBODY))
    sentences = tuple(map(say, story.sentences))
    story = replace(story, sentences=sentences, answer_sentence=say(story.answer_sentence))
    texts = (*sentences, story.answer_sentence, say(story.answer_frame))
    found = [fault for text in texts for fault in _told(text, unit)]
    if unit.id not in _WORD.findall(story.question) and not _asks_by_adjective(story.question):
        found.append(f'The question "{story.question}" does not ask in {unit.id}.')
    return [*found, *_compared(problem, story, unit), *_bank(story, unit, context)]


def _told(text: str, unit: Unit) -> Iterator[str]:
    """A fault for each number without the unit, or with its wrong form, and for other units."""
    for number, _, word in _NUMBER.findall(text):
        wanted = unit.noun.bare if number == "1" else unit.id
        if word != wanted:
            yield f'In "{text}" behind {number} stands "{word}"; write {number} {wanted}.'
    for word in _WORD.findall(text):
        other = _FORMS.get(word.lower())
        if other is not None and other is not unit:
            yield f'"{word}" in "{text}" is another unit than {unit.id}. Use one unit a story.'


def _asks_by_adjective(question: str) -> bool:
    words = [word.lower() for word in _WORD.findall(question)]
    return len(words) > 1 and words[0] == "how" and words[1] in ADJECTIVES


def _compared(problem: Problem, story: Story, unit: Unit) -> Iterator[str]:
    """A fault for each comparing word of the story, names masked, that does not fit the unit."""
    words = set(_WORD.findall(" ".join((*story.sentences, story.answer_sentence)).lower()))
    odd = (words & (COMPARING_MORE | COMPARING_LESS)) - _FITTING[unit.kind]
    if odd:
        fitting = ", ".join(sorted(_FITTING[unit.kind]))
        yield f'{unit.id} do not go with "{", ".join(sorted(odd))}". Words that do: {fitting}.'
    for adjective, pair in ADJECTIVES.items():
        others = {one for other in ADJECTIVES.values() for one in other} - set(pair)
        if adjective in words and words & others:
            yield f'"{adjective}" and "{", ".join(sorted(words & others))}" do not go together.'
    told = set(_WORD.findall(" ".join(story.sentences)))
    if problem.situation.startswith("compare") and "than" not in told:
        yield f'In "{story.text}" nothing is compared with "than".'


def _bank(story: Story, unit: Unit, context: Context) -> Iterator[str]:
    if "word-bank" not in context.vocabulary.support:
        return
    entries = [word for word in story.word_bank if word.word == unit.id]
    if [(one.meaning, one.picture) for one in entries] != [(unit.meaning, unit.picture)]:
        yield f'The word bank must explain "{unit.id}" once: {unit.meaning}.'


def spoil(problem: Problem) -> list[Problem]:
    """Samples without a unit, in two units, in a wrong form, and with a word that does not fit."""
    story = problem.story
    if story.unit is None:
        return [_spoiling.with_story(problem, replace(story, unit="inches"))]
    unit = UNITS[story.unit]
    other = "cents" if unit.id != "cents" else "inches"
    behind = rf"(\d+(?: more| fewer)?) {unit.id}"
    samples = [
        _spoiling.with_story(problem, replace(story, unit=other)),
        _spoiling.with_story(problem, replace(story, unit="apples")),
        *_spoiling.retold(problem, behind, rf"\1 {other}"),
        *_spoiling.retold(problem, behind, rf"\1 {unit.noun.bare}"),
        *_spoiling.retold(problem, behind, r"\1"),
        *_spoiling.with_answer(problem, behind, rf"\1 {other}"),
        *_spoiling.with_frame(problem, rf"\b{unit.id}\b", other),
        *_spoiling.reasked(problem, rf"\b{unit.id}\b", other),
    ]
    if unit.kind == LENGTHS:
        compared = rf"{unit.id} (?:longer|farther|taller)"
        samples += _spoiling.retold(problem, compared, f"more {unit.id}")
        if re.search(r"\blong\b", story.text):
            samples += _spoiling.retold(problem, r"\blonger\b", "taller")
    if problem.situation.startswith("compare"):
        samples += _spoiling.retold(problem, r"\bthan\b", "as")
    return samples
