"""The finished problem and the set of problems: what documents, files and the bank read."""

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from storybank.model.arithmetic import Equations, SecondWay, Solution, WatchFor

SET_FORMAT = "storybank-set/1"


@dataclass(frozen=True, slots=True)
class BankWord:
    """A word of the word bank: picture (an emoji or none), plain meaning, translations."""

    word: str
    picture: str | None
    meaning: str
    translations: Mapping[str, str] = field(default_factory=dict)

    def to_json(self) -> dict[str, Any]:
        """The word with the keys of the set format."""
        return {
            "word": self.word,
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
    """What is told: sentences in order with the question last, and how to answer."""

    telling: str
    people: tuple[str, ...]
    sentences: tuple[str, ...]
    text: str
    given: tuple[int, ...]
    answer_sentence: str
    answer_frame: str
    word_bank: tuple[BankWord, ...]
    talk_frames: tuple[str, ...]

    @property
    def question(self) -> str:
        """The last sentence, which asks."""
        return self.sentences[-1]


@dataclass(frozen=True, slots=True)
class Problem:
    """One finished, checked problem, with everything that is printed about it.

    `strategy` and `solution.operation` are None for both-parts-unknown, whose `answer` is the
    tuple of all ordered pairs. `numbers` are by role of the situation.
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

    @property
    def text(self) -> str:
        """The whole story with its question."""
        return self.story.text

    def to_json(self) -> dict[str, Any]:
        """The problem with the keys of the set format."""
        story = self.story
        answer: Any = self.answer
        if isinstance(answer, tuple):
            answer = [list(pair) for pair in answer]
        return {
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
            "reading": self.reading.to_json(),
        }


@dataclass(frozen=True, slots=True)
class ProblemSet:
    """A set of problems with the request that made it, every default filled in."""

    request: Mapping[str, Any]
    problems: tuple[Problem, ...]
    version: str
    notes: tuple[str, ...] = ()

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
