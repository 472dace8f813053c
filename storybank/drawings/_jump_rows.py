"""Where the numbers of an open number line stand: on one row, or on several where it is long."""

from dataclasses import dataclass
from itertools import islice

from storybank.drawings._display import text_width
from storybank.drawings._measures import EDGE, Measures
from storybank.drawings._numbers import signed
from storybank.model import Jump

ROWS = 3
_GAP_BESIDE_LABEL = 6.0


@dataclass(frozen=True, slots=True)
class Row:
    """The jumps of one row and where each of its numbers stands, by value.

    `back` is the jump that goes against the first one of the solution, if this row has one.
    """

    jumps: tuple[Jump, ...]
    places: dict[int, float]
    back: Jump | None

    def length(self, jump: Jump) -> float:
        """How long `jump` is drawn."""
        return abs(self.places[jump.to] - self.places[jump.start])


@dataclass(frozen=True, slots=True)
class _Room:
    """What a row has: its values in order, the least length of a jump, all room for jumps."""

    jumps: tuple[Jump, ...]
    values: list[int]
    back: Jump | None
    least: float
    room: float

    @property
    def whole(self) -> int:
        return self.values[-1] - self.values[0]

    @property
    def spare(self) -> float:
        return self.room - self.least * (len(self.values) - 1)


def rows(jumps: tuple[Jump, ...], measures: Measures) -> tuple[list[Row], float]:
    """The rows on which `jumps` fit, and the type size: the fewest rows, then the largest size.

    A row begins with the number where the row above ended. The same length means the same size of
    jump on all rows. Raises ValueError when three rows do not do. Rows: our own design.
    """
    for count in range(1, min(ROWS, len(jumps)) + 1):
        for size in measures.sizes:
            rooms = [_room(jumps, part, size, measures) for part in _parts(jumps, count)]
            if min(room.spare for room in rooms) >= 0:
                return [_row(room, rooms, measures) for room in rooms], size
    raise ValueError(
        f"{len(jumps)} jumps are too many for {ROWS} rows of a number line {measures.width:g} "
        "points wide; draw fewer and longer jumps."
    )


def _parts(jumps: tuple[Jump, ...], count: int) -> list[tuple[Jump, ...]]:
    """`jumps` in `count` parts nearly alike, the longer ones first."""
    size, longer = divmod(len(jumps), count)
    source = iter(jumps)
    return [tuple(islice(source, size + (place < longer))) for place in range(count)]


def _room(
    all_jumps: tuple[Jump, ...], jumps: tuple[Jump, ...], size: float, measures: Measures
) -> _Room:
    gap = _GAP_BESIDE_LABEL * measures.scale
    backs = [jump for jump in all_jumps if (jump.by > 0) != (all_jumps[0].by > 0)]
    values = sorted({jumps[0].start} | {jump.to for jump in jumps})
    numbers = [all_jumps[0].start, *(jump.to for jump in all_jumps)]
    widest = max(text_width(str(number), size) for number in numbers)
    arc_label = max(text_width(signed(jump.by), size) for jump in all_jumps)
    least = max(widest, arc_label) + gap
    room = measures.width - 2 * EDGE - widest - 2 * gap
    # Numbers beside an arc below the line are moved outwards and need half a place more.
    if backs:
        least, room = 1.5 * least, room - widest
    back = next((jump for jump in jumps if jump in backs), None)
    return _Room(jumps, values, back, least, room)


def _row(room: _Room, rooms: list[_Room], measures: Measures) -> Row:
    left, spare = (measures.width - room.room) / 2, room.spare
    if len(rooms) > 1:
        spare = min(other.spare / other.whole for other in rooms) * room.whole
        if rooms[0].jumps[0].by < 0:  # A way back begins at the right.
            left += room.spare - spare
    places = {
        value: left + room.least * index + spare * (value - room.values[0]) / room.whole
        for index, value in enumerate(room.values)
    }
    return Row(room.jumps, places, room.back)
