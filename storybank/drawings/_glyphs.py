"""The number characters as small pictures, drawn once from the Roboto font."""

from dataclasses import dataclass
from functools import cache

from storybank.drawings._png_file import read_alpha

# Advance widths in 2048ths of the type size, from the font's own `hmtx` table.
_ADVANCES = {
    **dict.fromkeys("0123456789", 1151),
    "+": 1162,
    "\N{MINUS SIGN}": 1171,
    "=": 1124,
    " ": 508,
}
LEVELS = 10
_TO_LEVELS = bytes(round(value * LEVELS / 255) for value in range(256))


@dataclass(frozen=True, slots=True)
class Glyph:
    """A character's coverage in rows of levels 0 to 10, and how far the next one stands."""

    rows: tuple[bytes, ...]
    above: int
    before: int
    advance: float


@cache
def glyphs(size: float) -> dict[str, Glyph]:
    """All number characters at `size` dots; other characters are not in it."""
    import font_roboto
    import resvg_py

    characters = list(_ADVANCES)
    above, below, margin = round(0.8 * size) + 1, round(0.25 * size) + 1, 2
    cell = round(0.65 * size) + 2 * margin
    width, height = cell * len(characters), above + below
    letters = "".join(
        f'<text x="{index * cell + margin}" y="{above}">{character}</text>'
        for index, character in enumerate(characters)
    )
    drawn = resvg_py.svg_to_bytes(
        svg_string=f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}" '
        f'viewBox="0 0 {width} {height}" font-family="Roboto" font-size="{size:.3f}">'
        f"{letters}</svg>",
        font_files=[font_roboto.Roboto],
        skip_system_fonts=True,
    )
    _, _, rows = read_alpha(bytes(drawn))
    return {
        character: Glyph(
            tuple(
                bytes(row[index * cell : (index + 1) * cell]).translate(_TO_LEVELS) for row in rows
            ),
            above,
            margin,
            _ADVANCES[character] * size / 2048,
        )
        for index, character in enumerate(characters)
    }
