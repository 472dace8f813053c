"""The open number line: a worked one from a solution's jumps, and a blank one to draw on."""

from dataclasses import dataclass

from storybank.drawings._display import (
    BACK,
    FORWARD,
    Arc,
    Box,
    Dot,
    Drawing,
    Item,
    Label,
    Line,
    Ring,
    text_width,
)
from storybank.model import Jump, Solution

TITLE = "Open number line"
WIDTH = 460.0
_EDGE = 8.0
# The largest size at which all labels fit is taken; only ten jumps of a hundred need a small one.
_SIZES = (13.0, 12.0, 11.0)
_GAP_BESIDE_LABEL = 6.0
_LOW, _HIGH = 16.0, 42.0
_MINUS = "\N{MINUS SIGN}"


@dataclass(frozen=True, slots=True)
class _Layout:
    """Where each number stands, by value; the type size; the jump that comes back, if any."""

    places: dict[int, float]
    size: float
    back: Jump | None


def worked(solution: Solution) -> Drawing:
    """The jumps of `solution` on an open number line, the answer ringed.

    A longer jump is drawn longer, but none so short that labels would touch. A jump that comes
    back runs on the other side of the line and is dashed. Where the answer is the sum of the
    jumps (counting up), the sum stands above with its value ringed. Raises ValueError when the
    solution has no jumps, or more than one line has room for. Form of the drawing: common
    teaching guidance; measures: our own design.
    """
    if not solution.jumps or solution.start is None:
        raise ValueError(f"A number line needs jumps; this solution has lines {solution.lines}.")
    jumps, start = solution.jumps, solution.start
    sought = solution.answer_is == "sum of jumps"
    layout = _layout(start, jumps)
    highest = max(_rise(layout, jump) for jump in jumps if jump is not layout.back)
    y = (30.0 if sought else 4.0) + layout.size + highest + 6
    items: list[Item] = [Line(_EDGE, y, WIDTH - _EDGE, y)]
    for jump in jumps:
        items.extend(_jump_items(layout, jump, y))
    answer = None if sought else jumps[-1].to
    given = (start, jumps[-1].to) if sought else (start,)
    for value, x in layout.places.items():
        label = _number(layout, value, x, y)
        if value == answer:
            items.append(_ring(label))
        items += [Dot(x, y, filled=value in given), label]
    if sought:
        items.extend(_sum_items(jumps, layout.size))
    height = y + (44.0 if layout.back else 27.0)
    return Drawing(WIDTH, height, tuple(items), TITLE, _alt(solution))


def blank(placed: int | None = None, *, empty_circle: bool = False) -> Drawing:
    """A line to draw on: bare, or with one number placed, or with an empty circle.

    It has no arrow and the mark stands in the middle, so that it gives no direction away.
    """
    y = 62.0
    items: list[Item] = [Line(_EDGE, y, WIDTH - _EDGE, y)]
    alt = f"{TITLE} with nothing on it, to draw jumps on."
    if placed is not None:
        items += [Dot(WIDTH / 2, y), Label(WIDTH / 2, y + 19, str(placed))]
        alt = f"{TITLE} with {placed} placed on it, to draw jumps on."
    elif empty_circle:
        items.append(Dot(WIDTH / 2, y, radius=8, filled=False))
        alt = f"{TITLE} with an empty circle for the start, to draw jumps on."
    return Drawing(WIDTH, y + 26, tuple(items), TITLE, alt)


def _layout(start: int, jumps: tuple[Jump, ...]) -> _Layout:
    back = next((jump for jump in jumps if (jump.by > 0) != (jumps[0].by > 0)), None)
    values = sorted({start} | {jump.to for jump in jumps})
    for size in _SIZES:
        widest = max(text_width(str(value), size) for value in values)
        arc_label = max(text_width(_signed(jump.by), size) for jump in jumps)
        least = max(widest, arc_label) + _GAP_BESIDE_LABEL
        room = WIDTH - 2 * _EDGE - widest - 2 * _GAP_BESIDE_LABEL
        # Numbers beside an arc below the line are moved outwards and need half a place more.
        if back is not None:
            least, room = 1.5 * least, room - widest
        spare = room - least * (len(values) - 1)
        if spare >= 0:
            left, whole = (WIDTH - room) / 2, values[-1] - values[0]
            places = {
                value: left + least * index + spare * (value - values[0]) / whole
                for index, value in enumerate(values)
            }
            return _Layout(places, size, back)
    raise ValueError(f"{len(jumps)} jumps are too many for one number line.")


def _rise(layout: _Layout, jump: Jump) -> float:
    length = abs(layout.places[jump.to] - layout.places[jump.start])
    return min(_HIGH, max(_LOW, 0.22 * length))


def _jump_items(layout: _Layout, jump: Jump, y: float) -> tuple[Arc, Label]:
    below = jump is layout.back
    rise = -_LOW if below else _rise(layout, jump)
    ink = BACK if below else FORWARD
    first, last = layout.places[jump.start], layout.places[jump.to]
    arc = Arc(first, last, y, rise, ink, dashed=below)
    baseline = y - rise + (layout.size + 1 if below else -5)
    label = Label((first + last) / 2, baseline, _signed(jump.by), layout.size, ink=ink)
    return arc, label


def _number(layout: _Layout, value: int, x: float, y: float) -> Label:
    back, anchor, shift = layout.back, "middle", 0.0
    if back is not None and value in (back.start, back.to):
        other = back.to if value == back.start else back.start
        anchor, shift = ("end", -2.0) if x < layout.places[other] else ("start", 2.0)
    return Label(x + shift, y + 19, str(value), layout.size, anchor)


def _sum_items(jumps: tuple[Jump, ...], size: float) -> list[Item]:
    total = str(sum(jump.by for jump in jumps))
    if len(jumps) == 1:
        answer = Label(WIDTH / 2, 18, total, size)
        return [_ring(answer), answer]
    terms = str(jumps[0].by) + "".join(
        f" {'+' if jump.by > 0 else _MINUS} {abs(jump.by)}" for jump in jumps[1:]
    )
    equals, gap = f"{terms} =", 10.0
    left = (WIDTH - text_width(equals, size) - gap - text_width(total, size)) / 2
    answer = Label(left + text_width(equals, size) + gap, 18, total, size, "start")
    return [_ring(answer), answer, Label(answer.x - gap, 18, equals, size, "end")]


def _ring(label: Label) -> Ring:
    box = label.box
    return Ring(Box(box.left - 4, box.top - 3, box.right + 4, box.bottom + 3))


def _signed(by: int) -> str:
    return f"+{by}" if by > 0 else f"{_MINUS}{-by}"


def _alt(solution: Solution) -> str:
    steps = [f"start at {solution.start}"]
    for jump in solution.jumps:
        way = "forward" if jump.by > 0 else "back"
        steps.append(f"jump {way} {abs(jump.by)} to {jump.to}")
    text = f"{TITLE}: {', '.join(steps)}."
    if solution.answer_is == "sum of jumps":
        total = sum(jump.by for jump in solution.jumps)
        return f"{text} The jumps make {total} in all, the answer."
    return f"{text} The answer is {solution.jumps[-1].to}."
