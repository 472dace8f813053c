"""Dots that stand for things counted, with the marks that tell them apart."""

from storybank.drawings._display import Box, Cross, Dot, Item
from storybank.drawings._measures import Measures

_RADIUS, _CORE, _REACH = 6.5, 3.2, 7.5


def counter(
    x: float,
    y: float,
    measures: Measures,
    *,
    filled: bool = False,
    cored: bool = False,
    taken: bool = False,
) -> list[Item]:
    """A dot at (x, y): `filled` or open, `cored` with a dark middle, or `taken` and crossed out.

    `measures` says how large it is.
    """
    s = measures.scale
    core = _CORE * s if cored else 0.0
    dot = Dot(x, y, _RADIUS * s, filled=filled, width=measures.line, core=core)
    if not taken:
        return [dot]
    reach = _REACH * s
    return [dot, Cross(Box(x - reach, y - reach, x + reach, y + reach), measures.line)]
