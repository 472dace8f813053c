"""Why a number comes next, told by ones, tens and hundreds, as a child could say it."""

_UNITS = ("one", "ten", "hundred", "thousand")
_PLACES = {1: 0, 5: 0, 10: 1, 100: 2}


def reason(number: int, by: int, *, back: bool) -> str:
    """The number that is `by` more than `number`, or less with `back`, and why.

    A new ten is ten ones, a new hundred ten tens (CCSS-M 1.NBT.2, 2.NBT.1); fives go by way of
    the ten between.
    """
    following = number - by if back else number + by
    told = _less(number, by, following) if back else _more(number, by, following)
    return f"{by} {'less' if back else 'more'} than {number} is {following}: {told}"


def _more(number: int, by: int, following: int) -> str:
    place = _PLACES[by]
    unit, digit = _UNITS[place], _digit(number, place)
    if by == 5 and digit > 5:
        friendly = number + 10 - digit
        return f"{_makes(10 - digit)} {friendly}, and {_makes(digit - 5)} {following}."
    count = 5 if by == 5 else 1
    if digit + count == 10:
        join = "5 ones and 5 ones make" if by == 5 else f"one more {unit} makes"
        told = f"{join} ten {unit}s, a new {_UNITS[place + 1]}."
        for higher in range(place + 1, 3):
            if _digit(number, higher) != 9:
                break
            told += f" That makes ten {_UNITS[higher]}s, a new {_UNITS[higher + 1]}."
        return f"{told}{_unchanged(number, by)}"
    if number < 10:
        return f"{number} and {by} make {following}."
    if number < 10**place:
        return f"1 {unit} and {number} make {following}."
    if place == 0 and digit == 0:
        return f"{number} and {_some(count, 0)} make {following}."
    added = "5 ones" if by == 5 else f"one more {unit}"
    return (
        f"{_some(digit, place)} and {added} make {_some(digit + count, place)}."
        f"{_unchanged(number, by)}"
    )


def _less(number: int, by: int, following: int) -> str:
    place, count = _PLACES[by], 5 if by == 5 else 1
    digit = _digit(number, place)
    if by == 5 and 0 < digit < 5:
        return (
            f"take {digit} away to get to {number - digit}, and {5 - digit} more to get to "
            f"{following}."
        )
    if digit == count:
        return f"take away its {_some(digit, place)}, and {following} is left."
    if digit > count:
        verb = "is" if digit - count == 1 else "are"
        return (
            f"take {_some(count, place)} from {_some(digit, place)}, and "
            f"{_some(digit - count, place)} {verb} left.{_unchanged(number, by)}"
        )
    full = next(higher for higher in range(place + 1, 4) if _digit(number, higher))
    broken = "the thousand" if full == 3 else f"one {_UNITS[full]}"
    told = f"there are no loose {_UNITS[place]}s, so break {broken} into ten {_UNITS[full - 1]}s"
    for lower in range(full - 2, place - 1, -1):
        told += f", and one of these into ten {_UNITS[lower]}s"
    left = [_some(9, higher) for higher in range(full - 1, place, -1)]
    left.append(_some(10 - count, place))
    joined = left[0] if len(left) == 1 else f"{', '.join(left[:-1])} and {left[-1]}"
    told += f". Take {_some(count, place)} away: now there are {joined}."
    return f"{told}{_unchanged(number, by)}"


def _makes(more: int) -> str:
    return f"{more} more make{'s' if more == 1 else ''}"


def _unchanged(number: int, by: int) -> str:
    """What stays the same, after a blank; nothing where there is nothing else."""
    if by == 10:
        ones = number % 10
        return f" The ones stay {ones}." if ones else " There are still no ones."
    if by == 100 and number % 100:
        return " The tens and ones stay the same."
    return ""


def _digit(number: int, place: int) -> int:
    return int(number // 10**place % 10)


def _some(count: int, place: int) -> str:
    return f"{count} {_UNITS[place]}{'' if count == 1 else 's'}"
