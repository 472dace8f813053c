"""The open number line: a worked one from a solution's jumps, and a blank one to draw on."""

from storybank.drawings._display import BACK, FORWARD, Arc, Dot, Drawing, Item, Label, Line
from storybank.drawings._jump_rows import Row, rows
from storybank.drawings._measures import EDGE, NORMAL, Measures
from storybank.drawings._numbers import equation_width, middle_equation, ring, signed, terms
from storybank.model import Jump, Solution

TITLE = "Open number line"
_LOW, _HIGH = 16.0, 42.0
_SUM_LINE = 20.0
_ORDINALS = ("first", "second", "third")


def worked(solution: Solution, *, measures: Measures = NORMAL, shown: int | None = None) -> Drawing:
    """The jumps of `solution` on an open number line, the answer ringed.

    A longer jump is drawn longer, but none so short that labels would touch. A jump that comes
    back runs on the other side of the line and is dashed. Where the answer is the sum of the
    jumps (counting up), the sum stands above with its value ringed. `measures` sets the width in
    points and the type; where the jumps do not fit beside each other, the line goes on in a second
    and a third row. Of `shown` jumps only the first are drawn, each where it stands in the whole,
    without the answer; None draws all. Raises ValueError when the solution has no jumps, or more
    than three rows have room for. Form of the drawing: common teaching guidance; measures and
    rows: our own design.
    """
    if not solution.jumps or solution.start is None:
        raise ValueError(f"A number line needs jumps; this solution has lines {solution.lines}.")
    s, jumps = measures.scale, solution.jumps
    sought = solution.answer_is == "sum of jumps"
    made, size = rows(jumps, measures)
    drawn = jumps if shown is None else jumps[:shown]
    whole = len(drawn) == len(jumps)
    reached = {solution.start, *(jump.to for jump in drawn)}
    if sought:
        reached.add(jumps[-1].to)
    sums = _sum_lines(jumps, size, measures) if sought else []
    top = (10 + _SUM_LINE * len(sums) if sought else 4) * s
    given = (solution.start, jumps[-1].to) if sought else (solution.start,)
    items: list[Item] = []
    for row in made:
        y = top + size + max(_rise(row, jump, s) for jump in row.jumps) + 6 * s
        items.append(Line(EDGE, y, measures.width - EDGE, y, measures.line))
        for jump in row.jumps:
            if jump in drawn:
                items.extend(_jump_items(row, jump, y, size, measures))
        answer = None if sought or row is not made[-1] or not whole else jumps[-1].to
        for value, x in row.places.items():
            if value not in reached:
                continue
            label = _number(row, value, x, y + 19 * s, size, s)
            if value == answer:
                items.append(ring(label, measures))
            filled = value in given
            items += [Dot(x, y, 3.5 * s, filled=filled, width=measures.line), label]
        top = y + (44 if row.back else 27) * s
    if whole:
        items += [item for line in sums for item in line]
    alt = _alt(solution, drawn, [row.jumps[0].start for row in made])
    return Drawing(measures.width, top, tuple(items), TITLE, alt)


def blank(
    placed: int | None = None, *, empty_circle: bool = False, measures: Measures = NORMAL
) -> Drawing:
    """A line to draw on: bare, or with the number `placed` on it, or with an `empty_circle`.

    It has no arrow and the mark stands in the middle, so that it gives no direction away.
    `measures` sets its width in points and how large everything on it is.
    """
    s, width = measures.scale, measures.width
    y = 62 * s
    items: list[Item] = [Line(EDGE, y, width - EDGE, y, measures.line)]
    alt = f"{TITLE} with nothing on it, to draw jumps on."
    if placed is not None:
        dot = Dot(width / 2, y, 3.5 * s, width=measures.line)
        items += [dot, Label(width / 2, y + 19 * s, str(placed), measures.sizes[0])]
        alt = f"{TITLE} with {placed} placed on it, to draw jumps on."
    elif empty_circle:
        items.append(Dot(width / 2, y, 8 * s, filled=False, width=measures.line))
        alt = f"{TITLE} with an empty circle for the start, to draw jumps on."
    return Drawing(width, y + 26 * s, tuple(items), TITLE, alt)


def _rise(row: Row, jump: Jump, scale: float) -> float:
    """The height of a jump above the line; none for one that runs below it."""
    if jump is row.back:
        return 0.0
    return min(_HIGH * scale, max(_LOW * scale, 0.22 * row.length(jump)))


def _jump_items(
    row: Row, jump: Jump, y: float, size: float, measures: Measures
) -> tuple[Arc, Label]:
    s, below = measures.scale, jump is row.back
    rise = -_LOW * s if below else _rise(row, jump, s)
    ink = BACK if below else FORWARD
    first, last = row.places[jump.start], row.places[jump.to]
    arc = Arc(first, last, y, rise, ink, dashed=below, width=measures.line, head_length=8 * s)
    baseline = y - rise + (size + 1 * s if below else -5 * s)
    return arc, Label((first + last) / 2, baseline, signed(jump.by), size, ink=ink)


def _number(row: Row, value: int, x: float, y: float, size: float, scale: float) -> Label:
    back, anchor, shift = row.back, "middle", 0.0
    if back is not None and value in (back.start, back.to):
        other = back.to if value == back.start else back.start
        aside = 2 * scale
        anchor, shift = ("end", -aside) if x < row.places[other] else ("start", aside)
    return Label(x + shift, y, str(value), size, anchor)


def _sum_lines(jumps: tuple[Jump, ...], size: float, measures: Measures) -> list[list[Item]]:
    """The sum of the jumps, its answer ringed, on as few lines as it fits on."""
    s, middle = measures.scale, measures.width / 2
    total, parts = sum(jump.by for jump in jumps), terms([jump.by for jump in jumps])
    if len(jumps) == 1:
        answer = Label(middle, 18 * s, str(total), size)
        return [[ring(answer, measures), answer]]
    room = measures.width - 2 * EDGE - 8 * s
    lines = parts
    for count in range(1, len(parts)):
        divided = _divided(parts, count)
        if max(equation_width(line, total, size, measures) for line in divided) <= room:
            lines = divided
            break
    ys = [(18 + _SUM_LINE * place) * s for place in range(len(lines))]
    plain: list[list[Item]] = [
        [Label(middle, y, line, size)] for y, line in zip(ys, lines[:-1], strict=False)
    ]
    return [*plain, middle_equation(lines[-1], total, ys[-1], size, measures)]


def _divided(parts: list[str], count: int) -> list[str]:
    most = -(-len(parts) // count)
    return [" ".join(parts[at : at + most]) for at in range(0, len(parts), most)]


def _alt(solution: Solution, drawn: tuple[Jump, ...], starts: list[int]) -> str:
    steps = [f"start at {solution.start}"]
    for jump in drawn:
        way = "forward" if jump.by > 0 else "back"
        steps.append(f"jump {way} {abs(jump.by)} to {jump.to}")
    text = f"{TITLE}: {', '.join(steps)}."
    for name, start in zip(_ORDINALS[1:], starts[1:], strict=False):
        text += f" The line goes on in a {name} row at {start}."
    if len(drawn) < len(solution.jumps):
        return f"{text} There is more to come."
    if solution.answer_is == "sum of jumps":
        total = sum(jump.by for jump in solution.jumps)
        return f"{text} The jumps make {total} in all, the answer."
    return f"{text} The answer is {solution.jumps[-1].to}."
