"""Finished problems as stored: their JSON, with phrases that most problems share left out.

A problem's JSON of 2,700 bytes takes about 500 so. The phrases are samples of problems and stand
in each bank beside what was packed with them, so that a later version can always unpack it.
"""

import json
import sqlite3
import zlib
from functools import cache
from hashlib import blake2b
from pathlib import Path
from typing import Any

_SAMPLES = Path(__file__).with_name("_samples.jsonl")
_WINDOW = -15
_LEVEL = 4


@cache
def phrases() -> bytes:
    """The samples of problems whose phrases are left out."""
    return _SAMPLES.read_bytes()


@cache
def number() -> int:
    """The number of the phrases, which depends on them alone: other phrases have another one."""
    return int.from_bytes(blake2b(phrases(), digest_size=7).digest(), "big")


def store(connection: sqlite3.Connection) -> None:
    """Puts the phrases into a new bank."""
    connection.execute(
        "INSERT INTO packing VALUES (?, ?) ON CONFLICT DO NOTHING", (number(), phrases())
    )


@cache
def _packer() -> "zlib._Compress":
    return zlib.compressobj(
        _LEVEL, zlib.DEFLATED, _WINDOW, zlib.DEF_MEM_LEVEL, zlib.Z_DEFAULT_STRATEGY, phrases()
    )


def text_of(node: Any) -> str:
    """A JSON value as one line without blanks, the same for equal values in equal order."""
    return json.dumps(node, ensure_ascii=False, separators=(",", ":"))


def packed(node: Any) -> bytes:
    """The value, packed with `phrases`."""
    packer = _packer().copy()
    return packer.compress(text_of(node).encode()) + packer.flush()


def unpacked(data: bytes, with_phrases: bytes, most: int = 1 << 20) -> Any:
    """The value again. Raises ValueError for spoiled data, and beyond `most` bytes."""
    unpacker = zlib.decompressobj(_WINDOW, zdict=with_phrases)
    try:
        text = unpacker.decompress(data, most)
    except zlib.error as error:
        raise ValueError(str(error)) from error
    if not unpacker.eof:
        raise ValueError("it is cut off or too long")
    return json.loads(text)
