"""One count: its numbers, the gaps of its strip, what to say, and what comes next."""

from storybank import luck
from storybank.counting._bounds import (
    MOST_WITHIN,
    SIZES,
    STEPS,
    check_by,
    check_steps,
    check_within,
    leaves,
    or_within_more,
)
from storybank.counting._reasons import reason
from storybank.errors import RequestError
from storybank.model.counting import Count

_SHOWN = 2
_BESIDE = 6
_LEAD = 3
_TRIPS = 2


def count_from(
    start: int,
    by: int,
    *,
    back: bool = False,
    steps: int = STEPS,
    within: int = MOST_WITHIN,
    key: str = "",
) -> Count:
    """The count of `steps` numbers by `by` that begins with `start`, which is one of them.

    `by` is 1, 5, 10 or 100; with `back` the numbers go down. No number is below 0 or above
    `within`. `key` is the luck that chooses some of the gaps; about half of the numbers after the
    first two are left out, one of them just past a decade or hundred where the count passes one.
    Raises RequestError for a value that is none of the valid ones, and where the count would
    leave 0..`within`.
    """
    check_by(by)
    check_within(within)
    check_steps(steps)
    if not 0 <= start <= within:
        raise RequestError(
            f"The count begins at {start}, which is not among the numbers from 0 to {within} that "
            f"it is to stay in. Begin with a number from 0 to {within}{or_within_more(within)}."
        )
    sign = -by if back else by
    numbers = tuple(range(start, start + sign * steps, sign))
    if not 0 <= numbers[-1] <= within:
        raise RequestError(leaves(start, by, numbers, back=back, within=within))
    gaps = _gaps(numbers, by, key)
    before = _asked_after(numbers, gaps, sign, within)
    asked = _asked(before, numbers, gaps, sign)
    return Count(
        by=by,
        back=back,
        numbers=numbers,
        gaps=gaps,
        says=_says(numbers, by, back=back),
        next_asked=asked,
        next_answer=before + sign,
        next_says=reason(before, by, back=back),
        standards=_standards(numbers, by, before, back=back),
    )


def crosses(number: int, following: int, by: int) -> bool:
    """Whether voices trip on the way from `number` to `following`, in a count by `by`.

    By ones and fives they do where another ten begins, by tens where another hundred begins, by
    hundreds where numbers become longer or shorter.
    """
    if by == 100:
        return len(str(number)) != len(str(following))
    size = 100 if by == 10 else 10
    return number // size != following // size


def _gaps(numbers: tuple[int, ...], by: int, key: str) -> tuple[int, ...]:
    """The places left empty: past a crossing first, never three beside each other.

    The last number is left out only where the one crossing leads to it: it lets the child check.
    The number before the first crossing stays, and two near before it with which a line can begin.
    """
    last = len(numbers) - 1
    past = [at for at in _past(numbers, by) if _SHOWN <= at < last] or [
        at for at in _past(numbers, by) if at == last
    ]
    if by == 5:  # There another ten begins at every second number.
        over = [at for at in past if numbers[at - 1] // 100 != numbers[at] // 100]
        past = over or past[:1]
    kept: set[int] = set()
    if past:
        first = max(0, min(past[0] - 2, last + 1 - _BESIDE))
        kept = {first, first + 1, past[0] - 1}
    others = [at for at in range(_SHOWN, last) if at not in past and at not in kept]
    chosen: set[int] = set()
    named = f"{key}/{numbers[0]}/{numbers[-1]}/gaps"
    for at in (*past, *luck.ordered(others, named, str)):
        if len(chosen) == max(1, last // 2):
            break
        if not _three_beside(chosen, at):
            chosen.add(at)
    return tuple(sorted(chosen))


def _three_beside(chosen: set[int], at: int) -> bool:
    rows = ((at - 2, at - 1), (at - 1, at + 1), (at + 1, at + 2))
    return any(set(row) <= chosen for row in rows)


def _past(numbers: tuple[int, ...], by: int) -> list[int]:
    """The places of the numbers just past a crossing."""
    return [at for at in range(1, len(numbers)) if crosses(numbers[at - 1], numbers[at], by)]


def _asked_after(numbers: tuple[int, ...], gaps: tuple[int, ...], sign: int, within: int) -> int:
    """The number after which the child is asked what comes next.

    The one before the next crossing behind the strip's end; where there is none, the strip's last
    number, or the one behind it if that is a gap; where nothing may follow, the one before a gap.
    """
    beyond = range(numbers[-1] + sign, -1 if sign < 0 else within + 1, sign)
    for following in beyond:
        if crosses(following - sign, following, abs(sign)):
            return following - sign
    known: list[int] = [one for one in (numbers[-1], *beyond) if one != numbers[gaps[-1]]]
    if beyond and known[0] != beyond[-1]:
        return known[0]
    return next(numbers[at - 1] for at in reversed(gaps) if at - 1 not in gaps)


def _asked(before: int, numbers: tuple[int, ...], gaps: tuple[int, ...], sign: int) -> str:
    """The question, with up to three numbers that lead to it and fill no gap of the strip."""
    filled = {numbers[at] for at in gaps}
    lead = [before]
    while len(lead) < _LEAD:
        earlier = lead[0] - sign
        if earlier in filled or sign * earlier < sign * numbers[0]:
            break
        lead.insert(0, earlier)
    way = "back" if sign < 0 else "on"
    said = f": {', '.join(map(str, lead))}" if len(lead) > 1 else f" from {before}"
    return f"Count {way} by {SIZES[abs(sign)]}{said}. What comes next? How do you know?"


def _says(numbers: tuple[int, ...], by: int, *, back: bool) -> tuple[str, ...]:
    way = "back " if back else ""
    first = ", ".join(map(str, numbers[:3]))
    begin = (
        f"We count {way}by {SIZES[by]}, from {numbers[0]} to {numbers[-1]}. "
        f"Say it with me: {first} ..."
    )
    past = _past(numbers, by)
    if by == 5:
        past.sort(key=lambda at: numbers[at - 1] // 100 == numbers[at] // 100)
    lead = "Going back, after" if back else "After"
    trips = tuple(f"{lead} {numbers[at - 1]} comes {numbers[at]}." for at in sorted(past[:_TRIPS]))
    return (begin, *trips, *_pattern(numbers, by))


def _pattern(numbers: tuple[int, ...], by: int) -> tuple[str, ...]:
    """What stays the same, or comes again, at the ends of the numbers."""
    ends = [number % 10 for number in numbers]
    if by == 1:
        return ()
    if by == 5:
        return (f"Listen to the ones: {', '.join(map(str, ends[:4]))}, and so on.",)
    if by == 10:
        return (f"The tens change. The ones stay {ends[0]}.",)
    return ("The hundreds change. The tens and ones stay the same.",)


def _standards(numbers: tuple[int, ...], by: int, before: int, *, back: bool) -> tuple[str, ...]:
    """The standards of CCSS-M that the count and its question practise, by grade.

    K.CC.1 (to 100 by ones and by tens), K.CC.2 (forward from a given number), 1.NBT.1 (to 120 from
    any number), 1.NBT.5 (10 more or less than a two-digit number, explained), 2.NBT.2 (within
    1000, by 5s, 10s, 100s), 2.NBT.8 (10 or 100 more or less than a number from 100 to 900).
    """
    top, found = max(numbers), []
    if not back and top <= 100:
        if numbers[0] in (0, by) and by in (1, 10):
            found.append("K.CC.1")
        elif by == 1:
            found.append("K.CC.2")
    if by == 1 and not back and top <= 120:
        found.append("1.NBT.1")
    if by == 10 and 10 <= before <= 99:
        found.append("1.NBT.5")
    found.append("2.NBT.2")
    if by in (10, 100) and 100 <= before <= 900:
        found.append("2.NBT.8")
    return tuple(found)
