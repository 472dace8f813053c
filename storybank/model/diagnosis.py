"""What the wrong answers of a class agree with: what the page and the text about them read."""

from dataclasses import dataclass, field
from typing import Any


@dataclass(frozen=True, slots=True)
class Candidate:
    """Mistakes that predict the same wrong answers on all that a child answered, named together.

    `chances` are the problems answered for which a wrong answer is predicted, `problems` the
    numbers of those whose answer is just that one.
    """

    mistakes: tuple[str, ...]
    titles: tuple[str, ...]
    chances: int
    problems: tuple[int, ...]

    @property
    def hits(self) -> int:
        """How many answers are the one predicted."""
        return len(self.problems)

    @property
    def title(self) -> str:
        """The titles, the most specific first."""
        return " or ".join(self.titles)

    def to_json(self) -> dict[str, Any]:
        """The candidate as plain values."""
        return {
            "mistakes": list(self.mistakes),
            "titles": list(self.titles),
            "chances": self.chances,
            "hits": self.hits,
            "problems": list(self.problems),
        }


@dataclass(frozen=True, slots=True)
class Finding:
    """What wrong answers agree with: one candidate, or several that these problems leave open.

    `weight` is what the rule gives to it, from 0 to 1; `clear` says that there is much evidence.
    """

    candidates: tuple[Candidate, ...]
    weight: float
    clear: bool

    @property
    def open(self) -> bool:
        """Whether these problems do not tell its candidates apart."""
        return len(self.candidates) > 1

    def to_json(self) -> dict[str, Any]:
        """The finding as plain values."""
        return {
            "candidates": [one.to_json() for one in self.candidates],
            "weight": round(self.weight, 3),
            "clear": self.clear,
        }


@dataclass(frozen=True, slots=True)
class WrongAnswer:
    """An answer that is not right, and the titles of the mistakes that lead to it, if any.

    Those found with this child stand first; `found` says how many they are.
    """

    number: int
    code: str
    told: str
    answer: int
    given: int
    titles: tuple[str, ...]
    found: int

    def to_json(self) -> dict[str, Any]:
        """The answer as plain values."""
        return {
            "number": self.number,
            "code": self.code,
            "told": self.told,
            "answer": self.answer,
            "given": self.given,
            "titles": list(self.titles),
            "found": self.found,
        }


@dataclass(frozen=True, slots=True)
class Next:
    """What to talk about and, as a command, which problems to give; no command where none fits."""

    title: str
    talk: str
    command: str | None

    def to_json(self) -> dict[str, Any]:
        """The advice as plain values."""
        return {"title": self.title, "talk": self.talk, "command": self.command}


@dataclass(frozen=True, slots=True)
class ChildAnswers:
    """One child: how much was answered and right, what the wrong answers agree with, what next."""

    name: str
    answered: int
    right: int
    findings: tuple[Finding, ...]
    wrong: tuple[WrongAnswer, ...]
    next: tuple[Next, ...]

    def to_json(self) -> dict[str, Any]:
        """The child as plain values."""
        return {
            "name": self.name,
            "answered": self.answered,
            "right": self.right,
            "findings": [one.to_json() for one in self.findings],
            "wrong": [one.to_json() for one in self.wrong],
            "next": [one.to_json() for one in self.next],
        }


@dataclass(frozen=True, slots=True)
class ClassRow:
    """Mistakes that coincide in the whole set: for whom they were found, and how often made.

    `perhaps` are the children with whom another mistake explains the answers as well.
    """

    mistakes: tuple[str, ...]
    titles: tuple[str, ...]
    children: tuple[str, ...]
    perhaps: tuple[str, ...]
    chances: int
    hits: int

    def to_json(self) -> dict[str, Any]:
        """The row as plain values."""
        return {
            "mistakes": list(self.mistakes),
            "titles": list(self.titles),
            "children": list(self.children),
            "perhaps": list(self.perhaps),
            "chances": self.chances,
            "hits": self.hits,
        }


@dataclass(frozen=True, slots=True)
class Diagnosis:
    """What the answers of a class to one set agree with: a hint for a conversation, no result.

    `seldom` are the mistakes for which the set has too few chances, with their number.
    """

    hint: str
    problems: int
    rows: tuple[ClassRow, ...]
    children: tuple[ChildAnswers, ...]
    next: tuple[Next, ...] = ()
    seldom: tuple[tuple[str, int], ...] = ()
    notes: tuple[str, ...] = field(default=())

    def to_json(self) -> dict[str, Any]:
        """All of it as plain values."""
        return {
            "format": "storybank-diagnosis/1",
            "hint": self.hint,
            "problems": self.problems,
            "class": [one.to_json() for one in self.rows],
            "children": [one.to_json() for one in self.children],
            "next": [one.to_json() for one in self.next],
            "seldom": [{"title": title, "chances": chances} for title, chances in self.seldom],
            "notes": list(self.notes),
        }
