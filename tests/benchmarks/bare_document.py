"""The peer of the Word benchmarks: a bare python-docx script that knows its problems already.

Run as a script it writes 24 problems with one shared picture to the file named.
"""

import struct
import sys
import zlib
from io import BytesIO

from docx import Document
from docx.shared import Inches

_STORY = (
    "There are 84 red apples in the crate at the orchard. In the morning the baker takes 38 of "
    "the apples to make pies. How many apples are in the crate now?"
)
_FACTS = "46 + 38 = 84, 38 + 46 = 84, 84 - 38 = 46, 84 - 46 = 38"
_STEPS = ("I start at 84.", "I jump back 40 to 44.", "That is 2 too far.", "I go up 2 to 46.")


def picture(width: int = 900, height: int = 150) -> bytes:
    """A PNG file with a line from left to right."""
    rows = [b"\0" + b"\xff" * width] * height
    rows[height // 2] = b"\0" + b"\0" * width
    head = struct.pack(">2I5B", width, height, 8, 0, 0, 0, 0)
    parts = ((b"IHDR", head), (b"IDAT", zlib.compress(b"".join(rows))), (b"IEND", b""))
    chunks = (
        struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))
        for name, data in parts
    )
    return b"\x89PNG\r\n\x1a\n" + b"".join(chunks)


def write(count: int) -> bytes:
    """A document with `count` problems, the same picture below each, and a key."""
    document = Document()
    image = picture()
    document.add_heading("Story Problems", 1)
    for number in range(1, count + 1):
        document.add_paragraph(f"{number}. {_STORY}")
        document.add_picture(BytesIO(image), width=Inches(6))
        document.add_paragraph("Answer: ____________")
    document.add_page_break()
    document.add_heading("Key", 1)
    for number in range(1, count + 1):
        document.add_paragraph(f"{number}. 46 apples")
        document.add_paragraph(_FACTS)
        for step in _STEPS:
            document.add_paragraph(step)
    out = BytesIO()
    document.save(out)
    return out.getvalue()


if __name__ == "__main__":
    with open(sys.argv[1], "wb") as file:  # noqa: PTH123 - pathlib would be one import more
        file.write(write(24))
