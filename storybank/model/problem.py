"""The finished problem and the set of problems: what documents, files and the bank read."""

import json
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from storybank.model.arithmetic import Equations, SecondWay, Solution, WatchFor
from storybank.model.changes import Extra, Missing, NumberSet

SET_FORMAT = "storybank-set/1"


@dataclass(frozen=True, slots=True)
class BankWord:
    """A word of the word bank: picture (an emoji or none), plain meaning, translations.

    `word` is the form that stands in the story; `one` the singular of a thing ("a leaf").
    """

    word: str
    picture: str | None
    meaning: str
    translations: Mapping[str, str] = field(default_factory=dict)
    one: str | None = None

    def to_json(self) -> dict[str, Any]:
        """The word with the keys of the set format."""
        return {
            "word": self.word,
            "one": self.one,
            "picture": self.picture,
            "meaning": self.meaning,
            "translations": dict(self.translations),
        }


@dataclass(frozen=True, slots=True)
class Reading:
    """How long and how hard the text is: words, and the revised Spache grade (1974)."""

    words: int
    spache: float

    def to_json(self) -> dict[str, Any]:
        """The figures with the keys of the set format."""
        return {"words": self.words, "spache": self.spache}


@dataclass(frozen=True, slots=True)
class Story:
    """What is told: sentences in order with the question last, and how to answer.

    `support` is what the vocabulary pack prints beside the story, such as `answer-frame`; `unit`
    is that of a measured story ("inches").
    """

    telling: str
    people: tuple[str, ...]
    sentences: tuple[str, ...]
    text: str
    given: tuple[int, ...]
    answer_sentence: str
    answer_frame: str
    word_bank: tuple[BankWord, ...]
    talk_frames: tuple[str, ...]
    support: tuple[str, ...] = ()
    without_numbers: tuple[str, ...] = ()
    unit: str | None = None

    @property
    def question(self) -> str:
        """The last sentence, which asks."""
        return self.sentences[-1]


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a problem of two steps, worked by itself; `numbers` are by role of its situation.

    The first step's `answer` is the number between the steps, a known number of the second.
    """

    situation: str
    strategy: str
    numbers: Mapping[str, int]
    unknown: str
    answer: int
    equations: Equations
    related_facts: tuple[str, ...]
    solution: Solution

    def to_json(self) -> dict[str, Any]:
        """The step with the keys of the set format."""
        return {
            "situation": self.situation,
            "strategy": self.strategy,
            "numbers": dict(self.numbers),
            "unknown": self.unknown,
            "answer": self.answer,
            "equations": self.equations.to_json(),
            "related_facts": list(self.related_facts),
            "solution": self.solution.to_json(),
        }


@dataclass(frozen=True, slots=True)
class Problem:
    """One finished, checked problem, with everything that is printed about it.

    `strategy` and `solution.operation` are None for both-parts-unknown, whose `answer` is the
    tuple of all ordered pairs. `numbers` are by role of the situation. `levels` is the same
    problem at each level of English where they stand side by side. `family` numbers the fact
    families of a set, whose four stories share their numbers, from 1 on. `number_sets` are several
    sets of numbers for the story, the first of them its own; `extra` are numbers of the text that
    are not needed, and `missing` is one that is needed and left out.

    A problem of two steps has both in `steps` and the number between them, which the story never
    tells, in `hidden`; the other fields then are those of the second step, with which the problem
    is answered.
    """

    code: str
    theme: str
    scene: str
    situation: str
    strategy: str | None
    vocabulary: str
    standards: tuple[str, ...]
    numbers: Mapping[str, int]
    unknown: str
    answer: int | tuple[tuple[int, int], ...]
    story: Story
    equations: Equations
    related_facts: tuple[str, ...]
    solution: Solution
    watch_for: tuple[WatchFor, ...]
    second_way: SecondWay | None
    reading: Reading
    levels: tuple["Problem", ...] = ()
    family: int | None = None
    number_sets: tuple[NumberSet, ...] = ()
    extra: tuple[Extra, ...] = ()
    missing: Missing | None = None
    steps: tuple[Step, ...] = ()
    hidden: int | None = None

    @property
    def text(self) -> str:
        """The whole story with its question."""
        return self.story.text

    def with_code(self, code: str) -> "Problem":
        """The problem called by another code, at each of its levels."""
        levels = tuple(replace(one, code=code) for one in self.levels)
        return replace(self, code=code, levels=levels)

    def to_json(self) -> dict[str, Any]:
        """The problem with the keys of the set format."""
        story = self.story
        answer: Any = self.answer
        if isinstance(answer, tuple):
            answer = [list(pair) for pair in answer]
        problem = {
            "code": self.code,
            "theme": self.theme,
            "scene": self.scene,
            "situation": self.situation,
            "telling": story.telling,
            "strategy": self.strategy,
            "vocabulary": self.vocabulary,
            "people": list(story.people),
            "standards": list(self.standards),
            "text": story.text,
            "sentences": list(story.sentences),
            "question": story.question,
            "numbers": dict(self.numbers),
            "unknown": self.unknown,
            "given": list(story.given),
            "answer": answer,
            "answer_sentence": story.answer_sentence,
            "answer_frame": story.answer_frame,
            "equations": self.equations.to_json(),
            "related_facts": list(self.related_facts),
            "solution": self.solution.to_json(),
            "watch_for": [entry.to_json() for entry in self.watch_for],
            "second_way": self.second_way.to_json() if self.second_way else None,
            "word_bank": [word.to_json() for word in story.word_bank],
            "talk_frames": list(story.talk_frames),
            "without_numbers": list(story.without_numbers),
            "support": list(story.support),
            "reading": self.reading.to_json(),
        }
        if self.family is not None:
            problem["family"] = self.family
        problem.update(self._changes_to_json())
        if self.steps:
            of_steps = ("situation", "numbers", "equations", "solution")
            problem.update(dict.fromkeys(of_steps), related_facts=[])
            problem["steps"] = [step.to_json() for step in self.steps]
            problem["hidden"] = self.hidden
        if story.unit is not None:
            problem["unit"] = story.unit
        if self.levels:
            problem["levels"] = [one.told_to_json() for one in self.levels]
        return problem

    def told_to_json(self) -> dict[str, Any]:
        """What differs between levels of English, with the keys of the set format."""
        story = self.story
        return {
            "vocabulary": self.vocabulary,
            "telling": story.telling,
            "text": story.text,
            "sentences": list(story.sentences),
            "question": story.question,
            "answer_sentence": story.answer_sentence,
            "answer_frame": story.answer_frame,
            "word_bank": [word.to_json() for word in story.word_bank],
            "talk_frames": list(story.talk_frames),
            "without_numbers": list(story.without_numbers),
            "support": list(story.support),
            "given": list(story.given),
            "watch_for": [entry.to_json() for entry in self.watch_for],
            "reading": self.reading.to_json(),
            **self._changes_to_json(),
        }

    def _changes_to_json(self) -> dict[str, Any]:
        """What was changed about the numbers; keys only where something was."""
        changes: dict[str, Any] = {}
        if self.number_sets:
            changes["number_sets"] = [one.to_json() for one in self.number_sets]
        if self.extra:
            changes["extra"] = [one.number for one in self.extra]
            changes["extra_things"] = [one.things for one in self.extra]
        if self.missing:
            changes["missing"] = self.missing.to_json()
        return changes


@dataclass(frozen=True, slots=True)
class ProblemSet:
    """A set of problems with the request that made it, every default filled in."""

    request: Mapping[str, Any]
    problems: tuple[Problem, ...]
    version: str
    notes: tuple[str, ...] = ()

    @property
    def levels(self) -> tuple[str, ...]:
        """The vocabularies at which every problem is told side by side; none otherwise."""
        return tuple(one.vocabulary for one in self.problems[0].levels) if self.problems else ()

    def at_level(self, vocabulary: str) -> "ProblemSet":
        """The set with every story told at that one of its levels."""
        problems = tuple(
            next(one for one in problem.levels if one.vocabulary == vocabulary)
            for problem in self.problems
        )
        return replace(self, problems=problems)

    def to_json(self) -> dict[str, Any]:
        """The set in the published format `storybank-set/1`."""
        return {
            "format": SET_FORMAT,
            "version": self.version,
            "request": dict(self.request),
            "problems": [problem.to_json() for problem in self.problems],
        }

    def to_text(self) -> str:
        """The set as indented JSON text, ending with a newline."""
        return json.dumps(self.to_json(), ensure_ascii=False, indent=1) + "\n"
