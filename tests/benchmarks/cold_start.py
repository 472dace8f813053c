"""Commands from a cold start against bare scripts, each in a process of its own.

Modules are compiled beforehand, as pip leaves them; the compiled files go to a temporary folder.
"""

import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from rounds import Row, alternate, middle_ratio

TITLE = "whole commands from a cold start, against bare scripts"
ROUNDS = 9
PEER_SCRIPT = Path(__file__).parent / "bare_document.py"
STORYBANK = Path(sys.executable).parent / "storybank"


def rows() -> Iterator[Row]:
    """The ratios of make and of list."""
    with TemporaryDirectory() as folder:
        process = partial(_process, Path(folder))
        bare = process(str(PEER_SCRIPT), str(Path(folder) / "bare.docx"))
        make = (str(STORYBANK), "make", "--out", folder, "--overwrite")
        pack = ("--theme", "autumn-harvest")
        yield _row("make: 12 problems, Word and JSON", process(*make), bare, 3)
        yield _row("make with one theme", process(*make, *pack), bare, 3)
        nothing = process("-c", "pass")
        yield _row("list", process(str(STORYBANK), "list"), nothing, 6)
        yield _row("list themes", process(str(STORYBANK), "list", "themes"), nothing, 6)


def _process(folder: Path, *arguments: str) -> Callable[[int], object]:
    command = [sys.executable, *arguments]
    environment = {**os.environ, "PYTHONPYCACHEPREFIX": str(folder / "compiled")}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    return lambda _: subprocess.run(command, check=True, capture_output=True, env=environment)


def _row(
    what: str, ours: Callable[[int], object], peer: Callable[[int], object], at_most: float
) -> Row:
    ours(0)
    peer(0)
    mine, theirs = alternate(ours, peer, ROUNDS)
    figures = f"{1000 * median(mine):,.0f} ms, peer {1000 * median(theirs):,.0f} ms"
    return Row(what, figures, middle_ratio(mine, theirs), at_most=at_most)
