"""What can be counted: sizes of steps, how many numbers, how far; and what is said of the rest."""

from storybank.errors import RequestError

SIZES = {1: "ones", 5: "fives", 10: "tens", 100: "hundreds"}
"""What is counted by, and its name (2.NBT.2 skip-counts by 5s, 10s and 100s)."""
STEPS = 11
"""How many numbers a count says where nothing else is asked for: ten steps from the first."""
LEAST_STEPS, MOST_STEPS = 4, 20
LEAST_WITHIN, MOST_WITHIN = 10, 1000
_FEW = 6


def fitting(start: int, by: int, *, back: bool, within: int) -> int:
    """How many numbers a count from `start` says before it would leave 0..`within`."""
    return (start if back else within - start) // by + 1


def usual_steps(start: int, by: int, *, back: bool, within: int) -> int:
    """How many numbers a count says where it is not told: as many as fit, to 11, and 4 at least.

    A number is left to be asked for where there is one to spare. Raises RequestError for a `by`
    that is not counted by.
    """
    check_by(by)
    fit = fitting(start, by, back=back, within=within)
    return max(LEAST_STEPS, min(STEPS, fit - 1 if fit > _FEW else fit))


def or_within_more(within: int) -> str:
    """A further choice for a message, where there are larger numbers to count to."""
    return ", or count within more" if within < MOST_WITHIN else ""


def check_by(by: int) -> None:
    """Nothing, if there are counts by `by`. Raises RequestError otherwise."""
    if by not in SIZES:
        raise RequestError(
            f"Counting by {by} was asked for, and warm-ups count by ones, fives, tens and "
            f"hundreds only (CCSS-M 2.NBT.2). Choose from: {', '.join(map(str, SIZES))}."
        )


def check_within(within: int) -> None:
    """Nothing, if numbers up to `within` are counted. Raises RequestError otherwise."""
    if not LEAST_WITHIN <= within <= MOST_WITHIN:
        raise RequestError(
            f"Counting within {within} was asked for, and warm-ups are made for the numbers of "
            f"grades K to 2. Choose a whole number from {LEAST_WITHIN} to {MOST_WITHIN}."
        )


def check_steps(steps: int) -> None:
    """Nothing, if a strip can hold `steps` numbers. Raises RequestError otherwise."""
    if not LEAST_STEPS <= steps <= MOST_STEPS:
        raise RequestError(
            f"A count of {steps} numbers was asked for: the first two show the rule, and a strip "
            f"has room for {MOST_STEPS}. Choose a number of steps from {LEAST_STEPS} to "
            f"{MOST_STEPS}."
        )


def leaves(start: int, by: int, numbers: tuple[int, ...], *, back: bool, within: int) -> str:
    """The message for a count whose `numbers` leave 0..`within`, with what can be had."""
    steps, reach = len(numbers), by * (len(numbers) - 1)
    end = "below 0" if back else f"above {within}"
    way = "back " if back else ""
    choices = []
    fit = fitting(start, by, back=back, within=within)
    if fit >= LEAST_STEPS:
        choices.append(f"say {fit} numbers or fewer")
    if reach <= within:
        choices.append(
            f"begin at {reach} or more" if back else f"begin at {within - reach} or less"
        )
    other = fitting(start, by, back=not back, within=within)
    if other >= steps:
        choices.append("count forward" if back else "count back")
    if not choices:
        choices.append(f"count by less than {by}, or say fewer numbers{or_within_more(within)}")
    *others, last = choices
    told = f"{', '.join(others)}, or {last}" if others else last
    return (
        f"A count of {steps} numbers {way}by {SIZES[by]} from {start} would end at "
        f"{numbers[-1]}, {end}. To stay within 0 to {within}, {told}."
    )
