"""PNG files: writes a picture with a palette, reads the coverage of a drawn one."""

import struct
import zlib

_SIGNATURE = b"\x89PNG\r\n\x1a\n"
_METER_IN_INCHES = 39.3701


def write(width: int, height: int, rows: bytes | bytearray, palette: bytes, dpi: int) -> bytes:
    """A PNG of `rows`, each a filter byte 0 and `width` palette indexes (PNG 3rd ed., 2025)."""
    dots = round(dpi * _METER_IN_INCHES)
    # Long runs of white: looking for runs only takes a third of the time of the usual search.
    packer = zlib.compressobj(strategy=zlib.Z_RLE)
    packed = packer.compress(rows) + packer.flush()
    return b"".join(
        (
            _SIGNATURE,
            _chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 3, 0, 0, 0)),
            _chunk(b"PLTE", palette),
            _chunk(b"pHYs", struct.pack(">IIB", dots, dots, 1)),
            _chunk(b"IDAT", packed),
            _chunk(b"IEND", b""),
        )
    )


def read_alpha(data: bytes) -> tuple[int, int, list[bytearray]]:
    """Width, height and rows of opacity, 0 to 255, of a PNG with 8-bit RGBA."""
    position, packed, width, height = len(_SIGNATURE), b"", 0, 0
    while position < len(data):
        length, kind = struct.unpack(">I4s", data[position : position + 8])
        body = data[position + 8 : position + 8 + length]
        if kind == b"IHDR":
            width, height, depth, color = struct.unpack(">IIBB", body[:10])
            if (depth, color) != (8, 6):
                raise ValueError(f"A PNG with 8-bit RGBA is needed, not depth {depth}, {color}.")
        elif kind == b"IDAT":
            packed += body
        position += 12 + length
    raw, stride = zlib.decompress(packed), 4 * width + 1
    rows: list[bytearray] = []
    above = bytearray(width)
    for start in range(0, stride * height, stride):
        row = bytearray(raw[start + 4 : start + stride : 4])
        _unfilter(raw[start], row, above)
        rows.append(row)
        above = row
    return width, height, rows


def _unfilter(kind: int, row: bytearray, above: bytearray) -> None:
    left = corner = 0
    for index, value in enumerate(row):
        up = above[index]
        if kind == 1:
            value += left
        elif kind == 2:
            value += up
        elif kind == 3:
            value += (left + up) // 2
        elif kind == 4:
            value += _paeth(left, up, corner)
        left, corner = value & 255, up
        row[index] = left


def _paeth(left: int, up: int, corner: int) -> int:
    to_left, to_up, to_corner = abs(up - corner), abs(left - corner), abs(left + up - 2 * corner)
    if to_left <= to_up and to_left <= to_corner:
        return left
    return up if to_up <= to_corner else corner


def _chunk(kind: bytes, body: bytes) -> bytes:
    return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))
