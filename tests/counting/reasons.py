"""Checks the claims of a reason by arithmetic; knows nothing of how reasons are made."""

import re
from collections.abc import Callable

UNITS = {"one": 1, "ten": 10, "hundred": 100, "thousand": 1000}
_AMOUNT = r"\d+(?: (?:one|ten|hundred)s?)?"
_UNCHANGED = re.compile(
    r" (?:The ones stay (\d)\.|(There are still no ones)\.|(The tens and ones stay the same)\.)$"
)


def amount(text: str) -> int:
    """The value of "3 tens", "one more ten", "47"."""
    count, _, unit = text.replace("one more ", "1 ").partition(" ")
    return int(count) * UNITS[unit.removesuffix("s") or "one"] if unit else int(count)


def digit(number: int, unit: str) -> int:
    return number // UNITS[unit] % 10


def faults(number: int, by: int, following: int, told: str) -> list[str]:
    """What is wrong in `told`, the reason behind its colon, in words; nothing where all is true."""
    found = []
    unchanged = _UNCHANGED.search(told)
    if unchanged:
        told = told[: unchanged.start()]
        ones, none, both = unchanged.groups()
        if ones and not int(ones) == number % 10 == following % 10:
            found.append("the ones do not stay")
        if none and (number % 10 or following % 10):
            found.append("there are ones")
        if both and number % 100 != following % 100:
            found.append("tens and ones change")
    matching = [
        (match, holds) for form, holds in FORMS.items() if (match := re.fullmatch(form, told))
    ]
    if len(matching) != 1:
        return [*found, f"{len(matching)} forms match"]
    match, holds = matching[0]
    return found if holds(match, number, by, following) else [*found, "a claim is false"]


def _joined(match: re.Match[str], number: int, by: int, following: int) -> bool:
    first, second, total = match.groups()
    if amount(first) + amount(second) != amount(total):
        return False
    count, _, unit = total.partition(" ")
    if not unit:  # The whole numbers: 1 hundred and 37 make 137.
        return int(count) == following and {amount(first), amount(second)} == {number, by}
    unit = unit.removesuffix("s")
    return (
        amount(second) == by and digit(following, unit) == int(count)
        and first.partition(" ")[2].removesuffix("s") == unit
        and digit(number, unit) == int(first.partition(" ")[0])
    )  # fmt: skip


def _carried(match: re.Match[str], number: int, by: int, following: int) -> bool:
    chain = re.findall(r"ten (\w+)s, a new (\w+)", match[0])
    named = [unit for unit, _ in chain] + [chain[-1][1]]
    first = named[0]
    added = digit(number, first) + (5 if by == 5 else 1)
    return (
        UNITS[first] == (1 if by == 5 else by)
        and added == 10
        and all(UNITS[new] == 10 * UNITS[unit] for unit, new in chain)
        and all(digit(number, unit) == 9 for unit in named[1:-1])
        and all(digit(following, unit) == 0 for unit in named[:-1])
        and digit(following, named[-1]) == digit(number, named[-1]) + 1
    )


def _by_way_of_ten(match: re.Match[str], number: int, by: int, following: int) -> bool:
    first, friendly, second, end = map(int, match.groups())
    return (
        friendly % 10 == 0 and end == following and first + second == by == 5
        and abs(friendly - number) == first and abs(following - friendly) == second
    )  # fmt: skip


def _all_of_it(match: re.Match[str], number: int, by: int, following: int) -> bool:
    taken, left = match.groups()
    unit = taken.partition(" ")[2].removesuffix("s")
    return (
        amount(taken) == by and number - amount(taken) == int(left) == following
        and digit(following, unit) == 0
    )  # fmt: skip


def _taken(match: re.Match[str], number: int, by: int, following: int) -> bool:
    taken, there, left = match.groups()
    unit = there.partition(" ")[2].removesuffix("s")
    return (
        amount(taken) == by and amount(there) - amount(taken) == amount(left)
        and digit(number, unit) == int(there.split()[0])
        and digit(following, unit) == int(left.split()[0])
    )  # fmt: skip


def _opened(match: re.Match[str], number: int, by: int, following: int) -> bool:
    least, opened, chain, taken, left = match.groups()
    units = list(UNITS)
    low, high = units.index(least), units.index(opened)
    parts = re.findall(r"ten (\w+)s", chain)
    now = {unit: int(count) for count, unit in re.findall(r"(\d+) (\w+?)s?\b", left)}
    return (
        all(digit(number, unit) == 0 for unit in units[low:high]) and digit(number, opened) > 0
        and parts == units[low:high][::-1] and list(now) == parts
        and amount(taken) == by
        and all(digit(following, unit) == count for unit, count in now.items())
        and digit(following, opened) == digit(number, opened) - 1
    )  # fmt: skip


FORMS: dict[str, Callable[[re.Match[str], int, int, int], bool]] = {
    rf"({_AMOUNT}) and (one more \w+|{_AMOUNT}) make ({_AMOUNT})\.": _joined,
    r"(?:one more \w+ makes|5 ones and 5 ones make) ten \w+s, a new \w+\."
    r"(?: That makes ten \w+s, a new \w+\.)*": _carried,
    r"(1(?= more makes)|[2-9](?= more make )) more makes? (\d+), and "
    r"(1(?= more makes)|[2-9](?= more make )) more makes? (\d+)\.": _by_way_of_ten,
    r"take (\d) away to get to (\d+), and (\d) more to get to (\d+)\.": _by_way_of_ten,
    r"take away its (\d \w+), and (\d+) is left\.": _all_of_it,
    r"take (\d \w+) from (\d \w+), and (\d \w+) (?:is|are) left\.": _taken,
    r"there are no loose (\w+)s, so break (?:one|the) (\w+) into (ten .+)\. Take (\d \w+) away: "
    r"now there are (.+)\.": _opened,
}
"""Each form in which a reason may be told, with what must hold of it."""
