"""Which requests have a numbered space of problems."""

from storybank.errors import RequestError
from storybank.request._values import Request

_OF_ITS_OWN = (
    "a story of that kind has more than one scene, thing, telling and triple to tell it by"
)
_SETS_ONLY = "it is a wish about the problems of a set as a whole"


def check_numbered(request: Request) -> None:
    """Nothing, if the problems of the request can be numbered.

    Those of one step are, each with three numbers and at one level. Raises RequestError, with the
    reason, for another kind, and for wishes about a set as a whole.
    """
    share = request.crossing.removesuffix("%").isdigit()
    asked = {
        f"--steps {request.steps}": (request.steps != 1 or bool(request.then), _OF_ITS_OWN),
        f"--addends {request.addends}": (request.addends != 2, _OF_ITS_OWN),
        "--number-sets": (bool(request.number_sets), _OF_ITS_OWN),
        "--extra-number": (request.extra_number, _OF_ITS_OWN),
        "--missing": (request.missing, _OF_ITS_OWN),
        "--fact-families": (request.fact_families, _OF_ITS_OWN),
        "--levels-side-by-side": (request.levels_side_by_side, _OF_ITS_OWN),
        f"--pair {', '.join(request.pair)}": (
            bool(request.pair),
            "with the numbers given there are few different problems",
        ),
        f"--crossing {request.crossing}": (share, f"{_SETS_ONLY}; say always, never or any"),
        "--names": (
            request.names is not None,
            "the children of a class list take turns, so each problem hangs on those before it",
        ),
    }
    for option, (wished, why) in asked.items():
        if wished:
            raise RequestError(
                f"{option} was asked for together with numbered problems: {why}. Leave it out, "
                "or make a set with it."
            )
