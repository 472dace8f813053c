"""Draws problems for a class from the shelves of a bank: by luck, mixed, none that it had."""

import sqlite3
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from storybank.bank._finding import Kept, Phrases, with_number
from storybank.luck import digest

_LUCK = 1 << 32
_TRIES = 4

_NEXT = """
SELECT id, meaning, numbers FROM problem INDEXED BY problem_on_shelf
WHERE shelf = ? AND luck {side} ? AND NOT retired AND reach <= ?
    AND NOT EXISTS (SELECT 1 FROM handed WHERE class = ? AND handed.meaning = problem.meaning)
ORDER BY luck
"""


@dataclass(frozen=True, slots=True)
class ShelfOf:
    """A shelf that may be drawn from, with the scene, which a set mixes."""

    number: int
    scene: str


Grouped = Mapping[str, tuple[ShelfOf, ...]]
"""Shelves by situation."""


@dataclass
class Drawn:
    """What is drawn so far: no meaning, no three numbers and no code come twice."""

    problems: list[Kept] = field(default_factory=list)
    meanings: dict[int, int] = field(default_factory=dict)
    """The meaning of each problem, by its number."""
    taken: set[int] = field(default_factory=set)
    """All meanings."""
    numbers: set[int] = field(default_factory=set)
    codes: set[str] = field(default_factory=set)
    scenes: Counter[str] = field(default_factory=Counter)


def draw(
    connection: sqlite3.Connection,
    shelves: Grouped,
    count: int,
    *,
    key: str,
    class_number: int | None,
    within: int,
    suits: Callable[[Kept], bool],
    drawn: Drawn,
) -> None:
    """Draws up to `count` more problems; fewer where no more are left that the class had not.

    Situations take turns, and scenes that were drawn less come first. `key` is the luck; `suits`
    may refuse a problem by what it tells; what was `drawn` before is not drawn again.
    """
    draws = _Draws(connection, key, class_number, within, suits, drawn)
    left: dict[str, Sequence[ShelfOf]] = dict(shelves)
    turns = sorted(left, key=lambda one: digest(f"{key}/{one}"))
    at = 0
    count += len(drawn.problems)
    while turns and len(drawn.problems) < count:
        situation = turns[at % len(turns)]
        left[situation] = draws.one_of(left[situation])
        if left[situation]:
            at += 1
        else:
            turns.remove(situation)


@dataclass
class _Draws:
    """One problem after the other, each from a shelf that luck and what was drawn decide."""

    connection: sqlite3.Connection
    key: str
    class_number: int | None
    within: int
    suits: Callable[[Kept], bool]
    drawn: Drawn
    calls: int = 0

    def __post_init__(self) -> None:
        self._phrases = Phrases(self.connection)

    def one_of(self, shelves: Sequence[ShelfOf]) -> Sequence[ShelfOf]:
        """Draws a problem of these shelves, and gives those left to draw from; none if none had."""
        while shelves:
            shelf = self._shelf(shelves)
            if self._from(shelf):
                return shelves
            shelves = [one for one in shelves if one is not shelf]
        return shelves

    def _number(self) -> int:
        self.calls += 1
        return digest(f"{self.key}/{self.calls}")

    def _shelf(self, shelves: Sequence[ShelfOf]) -> ShelfOf:
        """Of a few shelves taken by luck the one whose scene was drawn least."""
        some = [shelves[self._number() % len(shelves)] for _ in range(min(_TRIES, len(shelves)))]
        return min(some, key=lambda one: self.drawn.scenes[one.scene])

    def _from(self, shelf: ShelfOf) -> bool:
        start = self._number() % _LUCK
        for number, meaning, numbers in self._candidates(shelf.number, start):
            drawn = self.drawn
            if meaning in drawn.taken or numbers in drawn.numbers:
                continue
            one = with_number(self.connection, number, self._phrases)
            if one.code in drawn.codes or not self.suits(one):
                continue
            drawn.problems.append(one)
            drawn.meanings[number] = meaning
            drawn.taken.add(meaning)
            drawn.numbers.add(numbers)
            drawn.codes.add(one.code)
            drawn.scenes[shelf.scene] += 1
            return True
        return False

    def _candidates(self, shelf: int, start: int) -> Iterator[tuple[int, int, int]]:
        """The problems of a shelf that the class has not had, from a place on and round again."""
        for side in (">=", "<"):
            yield from self.connection.execute(
                _NEXT.format(side=side), (shelf, start, self.within, self.class_number)
            )
