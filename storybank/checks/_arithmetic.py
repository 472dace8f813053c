"""Works out sums written in text, without trusting how they were made."""

from functools import lru_cache


@lru_cache(maxsize=20_000)
def value(text: str) -> int | None:
    """The value of a sum such as `46 + 40 - 2`, or None where it is not written so."""
    parts = text.split(" ")
    if len(parts) % 2 == 0 or not all(_plain(part) for part in parts[::2]):
        return None
    total = int(parts[0])
    for sign, part in zip(parts[1::2], parts[2::2], strict=True):
        if sign == "+":
            total += int(part)
        elif sign == "-":
            total -= int(part)
        else:
            return None
    return total


@lru_cache(maxsize=20_000)
def line_value(line: str, limit: int) -> int | None:
    """The value of a true equation with an operation in it, none of whose numbers leaves
    0..limit on the way; None for any other text."""
    left, equals, right = line.partition(" = ")
    if not equals or " = " in right or not (" " in left or " " in right):
        return None
    one, other = value(left), value(right)
    if one is None or one != other:
        return None
    for side in (left, right):
        parts = side.split(" ")
        total = int(parts[0])
        steps = [total]
        for sign, part in zip(parts[1::2], parts[2::2], strict=True):
            total += int(part) if sign == "+" else -int(part)
            steps += [int(part), total]
        if not all(0 <= step <= limit for step in steps):
            return None
    return one


def _plain(part: str) -> bool:
    return part.isascii() and part.isdigit() and (part == "0" or part[0] != "0")
