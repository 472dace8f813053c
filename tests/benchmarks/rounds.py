"""Alternating rounds of two jobs, and the row that is printed about them."""

import gc
import time
from collections.abc import Callable
from dataclasses import dataclass
from statistics import median

Job = Callable[[int], object]


@dataclass(frozen=True)
class Row:
    """One printed line: a figure, and the target it is held against, if there is one."""

    what: str
    figures: str
    ratio: float | None = None
    at_least: float | None = None
    at_most: float | None = None

    @property
    def met(self) -> bool:
        """Whether the ratio keeps its target; a row without a target is always met."""
        if self.ratio is None:
            return True
        above = self.at_least is None or self.ratio >= self.at_least
        return above and (self.at_most is None or self.ratio <= self.at_most)

    def __str__(self) -> str:
        line = f"{self.what:<52} {self.figures:<46}"
        if self.ratio is None:
            return line.rstrip()
        target = ""
        if self.at_least is not None:
            target = f"target >= {self.at_least:g} x"
        elif self.at_most is not None:
            target = f"target <= {self.at_most:g} x"
        verdict = "" if not target else "met" if self.met else "MISSED"
        return f"{line} {self.ratio:9.3g} x  {target}  {verdict}".rstrip()


def alternate(ours: Job, peer: Job, rounds: int) -> tuple[list[float], list[float]]:
    """The seconds of each round of both jobs, which take turns in going first.

    A job is called with the number of its round. Garbage left by one is not charged to the other.
    """
    times: tuple[list[float], list[float]] = ([], [])
    for number in range(rounds):
        for which in (0, 1) if number % 2 == 0 else (1, 0):
            times[which].append(seconds((ours, peer)[which], number))
    return times


def seconds(job: Job, number: int) -> float:
    """How long one call of a job takes."""
    gc.collect()
    started = time.perf_counter()
    job(number)
    return time.perf_counter() - started


def middle_ratio(over: list[float], under: list[float]) -> float:
    """The median over the rounds of one job's time by the other's."""
    return median(one / other for one, other in zip(over, under, strict=True))
