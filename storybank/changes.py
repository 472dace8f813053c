"""What a teacher asks to be changed about one-step stories, and what goes together.

Number sets give one story several sets of numbers, an extra number is one too many in the text, and
a missing one is one too few.
"""

from collections.abc import Mapping, Sequence

from storybank import situations
from storybank.errors import RequestError
from storybank.model import Situation

SETS = (2, 4)
_ALL_PAIRS = "it asks for all pairs of parts"
_TWO_UNTOLD = "its story has an untold number already, and two would make it a riddle"


def limits(asked: Sequence[int], bounds: tuple[int, int], within: int | None) -> tuple[int, ...]:
    """The limits of the number sets, the largest first; none where none are asked for.

    The largest is the grade's own: its numbers stand in the text, by the strategy asked for, and
    the smaller sets are ways in (our own design). Raises RequestError for fewer than 2 or more than
    4 limits, for one named twice or out of `bounds`, and for another `within`.
    """
    if not asked:
        return ()
    named = " ".join(str(one) for one in asked)
    if not SETS[0] <= len(set(asked)) == len(asked) <= SETS[1]:
        raise RequestError(
            f"--number-sets is {named}. Name {SETS[0]} to {SETS[1]} different limits, such as "
            "--number-sets 10 20 100."
        )
    for one in asked:
        if not bounds[0] <= one <= bounds[1]:
            raise RequestError(
                f"--number-sets names the limit {one}, which is out of range. Choose whole "
                f"numbers from {bounds[0]} to {bounds[1]}."
            )
    if within is not None and within != max(asked):
        raise RequestError(
            f"--within is {within}, and the largest of the number sets goes to {max(asked)}. "
            f"Leave --within out: the sets say how large the numbers are."
        )
    return tuple(sorted(asked, reverse=True))


def check_kinds(asked: Mapping[str, bool]) -> None:
    """Nothing, if at most one kind of problem is `asked` for, by the names of the options.

    Raises RequestError, with the reason, otherwise.
    """
    named = [f"--{name}" for name, wished in asked.items() if wished]
    if len(named) > 1:
        raise RequestError(
            f"{' and '.join(named)} were asked for together. Each makes a kind of story of "
            "its own, and a child should meet one change at a time. Keep one of them."
        )


def check(
    *,
    number_sets: bool,
    extra_number: bool,
    missing: bool,
    pair: bool,
    diagnose: bool,
    side_by_side: bool,
) -> None:
    """Nothing, if these wishes go together. Raises RequestError, with the reason, otherwise."""
    if number_sets and pair:
        raise RequestError(
            "--pair names the numbers of a story, and --number-sets asks for several sets of them. "
            "Leave one of the two out."
        )
    if number_sets and diagnose:
        raise RequestError(
            "--diagnose wants numbers that tell known mistakes apart, and small number sets have "
            "none. Leave --diagnose or --number-sets out."
        )
    if (extra_number or missing) and side_by_side:
        option = "--extra-number" if extra_number else "--missing"
        raise RequestError(
            f"{option} and --levels-side-by-side were asked for together. The sentence that is "
            "changed would not be the same at all levels. Make a set for each level with "
            "--vocabulary instead."
        )


def situations_for(
    chosen: Sequence[str], told: bool, *, number_sets: bool, extra_number: bool, missing: bool
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Those of the `chosen` situations that can be changed so, and a note about those left out.

    Raises RequestError for one that was `told` by name, with the reason, and where none is left.
    """
    option = "--missing" if missing else "--extra-number" if extra_number else "--number-sets"
    if not (number_sets or extra_number or missing):
        return tuple(chosen), ()
    refused = {
        name: reason for name in chosen if (reason := _refusal(situations.get(name), missing))
    }
    kept = tuple(name for name in chosen if name not in refused)
    if refused and (told or not kept):
        said = " ".join(f"{name}: {reason}." for name, reason in refused.items())
        other = [one.id for one in situations.in_grade_order() if _refusal(one, missing) is None]
        raise RequestError(
            f"{option} does not go with every situation asked for. {said} "
            f"Choose from: {', '.join(other)}."
        )
    if not missing or not refused:
        return kept, ()
    names = ", ".join(refused)
    return kept, (f"--missing leaves out {names}: {'; '.join(dict.fromkeys(refused.values()))}.",)


def _refusal(situation: Situation, missing: bool) -> str | None:
    """Why the stories of a situation cannot be changed so, or None."""
    if situation.both_parts:
        return _ALL_PAIRS
    if missing and situation.unknown in ("start", "change"):
        return _TWO_UNTOLD
    return None
