"""One problem as the known mistakes see it, and what several of them ask about it."""

import re
from dataclasses import dataclass
from functools import cached_property

from storybank.model import Form, Jump, Situation, Solution, Triple

_LAST = re.compile(r"(\d+) [+-] (\d+) = \d+$")


@dataclass(frozen=True)
class Case:
    """A problem whose wrong answers are wanted.

    `given` are the numbers told, in the order of the text; `keywords` are those of more, fewer,
    left, altogether, in all, total that stand in the text. `strategy` is None where no named
    strategy is taught. `hidden` is the number between two steps, of which this case is the second:
    `given` and `keywords` then are those that the second step tells. `parts` are the three or four
    addends of a longer sum; only mistakes that say `MANY_PARTS` know of them.
    """

    situation: Situation
    triple: Triple
    strategy: str | None
    form: Form
    solution: Solution
    answer: int
    given: tuple[int, ...]
    keywords: tuple[str, ...] = ()
    hidden: int | None = None
    parts: tuple[int, ...] = ()

    @cached_property
    def adding(self) -> bool:
        """Whether the two given numbers are added."""
        return self.form is Form.ADD

    @cached_property
    def pair(self) -> tuple[int, int]:
        """The pair as solved: a + b, or a - b with the whole first."""
        a, b = self.solution.a, self.solution.b
        if a is None or b is None:
            raise ValueError("a solution without a and b has no pair")
        return a, b

    @cached_property
    def regroups(self) -> bool:
        """Whether the ones make a new ten, or are too few to take away from."""
        a, b = self.pair
        return a % 10 + b % 10 >= 10 if self.adding else a % 10 < b % 10

    @cached_property
    def fix(self) -> Jump | None:
        """The jump that gives back the overshoot: the last one, against all others; or None."""
        jumps = self.solution.jumps
        if len(jumps) < 2:
            return None
        last = jumps[-1]
        return last if all(jump.by * last.by < 0 for jump in jumps[:-1]) else None

    @cached_property
    def moved(self) -> tuple[int, int]:
        """The pair that the last line works with, once numbers were made friendly."""
        found = _LAST.search(self.solution.lines[-1]) if self.solution.lines else None
        if found is None:
            raise ValueError(f"no pair in the last of the lines {self.solution.lines}")
        return int(found[1]), int(found[2])

    @cached_property
    def taken(self) -> tuple[int, int, int]:
        """For give-and-take: the addend made friendly, what it becomes, and the other addend."""
        (a, b), (new_a, new_b) = self.pair, self.moved
        first = new_a % 10 == 0 and (new_b % 10 != 0 or new_a > a)
        return (a, new_a, b) if first else (b, new_b, a)
