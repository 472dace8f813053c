"""Which drawing shows a worked solution."""

from collections.abc import Callable

from storybank.drawings import double_rows, open_number_line, shifted_line, ten_frame, tens_and_ones
from storybank.drawings._display import Drawing
from storybank.drawings._measures import NORMAL, Measures
from storybank.model import Solution

_BY_STRATEGY: dict[str, Callable[..., Drawing | None]] = {
    "doubles": double_rows.worked,
    "give-and-take": ten_frame.worked,
    "make-a-ten": ten_frame.worked,
    "near-doubles": double_rows.worked,
    "same-difference": shifted_line.worked,
    "split-tens-and-ones": tens_and_ones.worked,
}


def worked(
    strategy: str | None, solution: Solution, *, measures: Measures = NORMAL
) -> Drawing | None:
    """The drawing that shows `solution`, worked by the strategy of that id, or None.

    Jumps stand on an open number line. Lines have a drawing by their strategy: ten frames for
    make-a-ten and give-and-take within 20, rows of dots for doubles and near-doubles within 20,
    bars and squares for split-tens-and-ones within 100, two lines for same-difference. All others
    have none. `measures` sets the width in points and the type. Raises ValueError for more jumps
    than a number line has room for.
    """
    if solution.jumps:
        return open_number_line.worked(solution, measures=measures)
    draw = _BY_STRATEGY.get(strategy or "")
    return draw(solution, measures=measures) if draw and solution.lines else None
