"""Which requests have a numbered space of problems."""

from storybank.errors import RequestError
from storybank.request._values import Request

_ONE_STEP = "numbers are given to stories of one step with one triple, told at one level"
_OF_A_SET = "it is a wish about a set as a whole, and each of these problems stands alone"


def check_numbered(request: Request) -> None:
    """Nothing, if the problems of the request can be numbered.

    Raises RequestError, with the reason, for another kind than stories of one step with one
    triple, and for wishes about a set as a whole.
    """
    then, pairs, sets = (
        " ".join(map(str, some)) for some in (request.then, request.pair, request.number_sets)
    )
    share = request.crossing.removesuffix("%").isdigit()
    asked = (
        (f"--steps {request.steps}", request.steps != 1, _ONE_STEP),
        (f"--then {then}", bool(then), _ONE_STEP),
        (f"--addends {request.addends}", request.addends != 2, _ONE_STEP),
        (f"--number-sets {sets}", bool(sets), _ONE_STEP),
        ("--extra-number", request.extra_number, _ONE_STEP),
        ("--missing", request.missing, _ONE_STEP),
        ("--levels-side-by-side", request.levels_side_by_side, _ONE_STEP),
        ("--fact-families", request.fact_families, _OF_A_SET),
        (f"--pair {pairs}", bool(pairs), "a pair leaves few different problems to be numbered"),
        (f"--crossing {request.crossing}", share, f"{_OF_A_SET}: say always, never or any"),
        (
            f"--names {request.names}",
            request.names is not None,
            "the children of a class list take turns, so each problem hangs on those before it",
        ),
    )
    for option, wished, why in asked:
        if wished:
            raise RequestError(
                f"{option} was asked for together with numbered problems: {why}. Leave it out, or "
                "make a set with it."
            )
