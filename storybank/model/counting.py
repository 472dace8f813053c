"""A counting warm-up: the numbers in the order said, gaps, what to say, what comes next."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Count:
    """A count by ones, fives, tens or hundreds, forward or back.

    `numbers` stand in the order in which they are said; `gaps` are the places in it, from 0, that
    the child's strip leaves empty, never one of the first two. `says` is what the teacher says:
    how to begin, where voices trip, what stays the same. `next_asked` asks what comes next and
    how the child knows, `next_answer` is the number and `next_says` the reason.
    """

    by: int
    back: bool
    numbers: tuple[int, ...]
    gaps: tuple[int, ...]
    says: tuple[str, ...]
    next_asked: str
    next_answer: int
    next_says: str
    standards: tuple[str, ...]
