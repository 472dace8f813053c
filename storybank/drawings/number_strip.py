"""A strip of boxes in a row, each with a number of a count or empty, to be written in.

A box has room for a number in a seven-year-old's hand: 14 mm wide for two digits, 18 for three, 20
for four, and 14 mm high; in large print more by as much as the type is larger. Where the boxes do
not fit beside each other the strip goes on in further rows. Measures: our own design.
"""

from collections.abc import Collection, Sequence

from storybank.drawings._display import Box, Drawing, Frame, Item, Label, text_width
from storybank.drawings._measures import NORMAL, Measures
from storybank.drawings._numbers import ring

TITLE = "Number strip"
_MM = 72 / 25.4
_WIDE = {1: 14.0 * _MM, 2: 14.0 * _MM, 3: 18.0 * _MM, 4: 20.0 * _MM}
_HIGH = 14.0 * _MM
_EDGE, _BETWEEN_ROWS = 2.0, 6.0
_EMPTY = "an empty box"


def strip(
    numbers: Sequence[int],
    gaps: Collection[int] = (),
    *,
    filled: bool = False,
    measures: Measures = NORMAL,
) -> Drawing:
    """The `numbers` in boxes in their order, the boxes at the places `gaps`, from 0, left empty.

    With `filled` the numbers of the gaps stand in them, ringed. `measures` sets the width in points
    and the type; boxes are as wide as the longest number needs, in rows of nearly the same
    number of boxes. Raises ValueError for no numbers, for one that is below 0 or has more than
    four digits, and for a gap where no box is.
    """
    if not numbers:
        raise ValueError("A strip of no numbers was asked for; give one or more.")
    odd = [one for one in numbers if not 0 <= one <= 9999]
    if odd:
        raise ValueError(f"{odd} cannot stand in a box; choose numbers from 0 to 9999.")
    strays = sorted(set(gaps) - set(range(len(numbers))))
    if strays:
        raise ValueError(f"No box stands at {strays}; choose gaps from 0 to {len(numbers) - 1}.")
    s, size = measures.scale, measures.sizes[0]
    least = max(_WIDE[len(str(max(numbers)))] * s, text_width(str(max(numbers)), size) + 10 * s)
    room = measures.width - 2 * _EDGE
    rows = -(-len(numbers) // int(room // least))
    beside = -(-len(numbers) // rows)
    # Boxes of a short strip do not grow over the whole page.
    wide, high = min(room / beside, 1.5 * least), _HIGH * s
    items: list[Item] = []
    for at, number in enumerate(numbers):
        row, column = divmod(at, beside)
        left, top = _EDGE + column * wide, _EDGE + row * (high + _BETWEEN_ROWS * s)
        items.append(Frame(Box(left, top, left + wide, top + high), measures.line))
        if at in gaps and not filled:
            continue
        label = Label(left + wide / 2, top + high / 2 + 0.36 * size, str(number), size)
        items += [ring(label, measures), label] if at in gaps else [label]
    height = 2 * _EDGE + rows * high + (rows - 1) * _BETWEEN_ROWS * s
    return Drawing(measures.width, height, tuple(items), TITLE, _alt(numbers, gaps, rows, filled))


def _alt(numbers: Sequence[int], gaps: Collection[int], rows: int, filled: bool) -> str:
    boxes = f"{len(numbers)} box{'es' if len(numbers) > 1 else ''}"
    where = f" in {rows} rows" if rows > 1 else ""
    said = [_said(one, gap=at in gaps, filled=filled) for at, one in enumerate(numbers)]
    return f"{TITLE} of {boxes}{where}. In order: {', '.join(said)}."


def _said(number: int, *, gap: bool, filled: bool) -> str:
    if not gap:
        return str(number)
    return f"{number}, ringed" if filled else _EMPTY
