"""What may be written about a fault: its type and our place, never its words.

The message of an exception, the lines of a trace and what libraries log may hold what was sent:
a child's name, a story, the name of a file. None of it is written anywhere.
"""

import asyncio
import logging
import sys
import threading
import traceback
import warnings
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

_OURS = Path(__file__).resolve().parents[1]


def told(error: BaseException) -> str:
    """The type of an exception and where it came from, such as "KeyError at storybank/week.py:12".

    The place is the innermost line of our own code; where there is none, the file's bare name.
    """
    place = ""
    for frame in reversed(traceback.extract_tb(error.__traceback__)):
        path = Path(frame.filename)
        if path.is_relative_to(_OURS):
            place = f" at {path.relative_to(_OURS.parent).as_posix()}:{frame.lineno}"
            break
        place = place or f" at {path.name}:{frame.lineno}"
    return f"{type(error).__name__}{place}"


def write(error: BaseException) -> None:
    """Writes a fault to standard error, where there is one, without its words."""
    if sys.stderr is not None:
        with suppress(OSError, ValueError):  # Nobody reads on, or it is closed.
            sys.stderr.write(f"storybank: a fault of the page: {told(error)}\n")
            sys.stderr.flush()


class _Wordless(logging.Handler):
    """Writes of a log record only which fault it tells of; one without a fault is dropped."""

    def emit(self, record: logging.LogRecord) -> None:
        error = record.exc_info[1] if record.exc_info else None
        if error is not None and not isinstance(error, asyncio.CancelledError):
            write(error)


@contextmanager
def without_words() -> Iterator[None]:
    """While it holds, nothing that libraries log, warn of or raise in threads shows its words."""
    root = logging.getLogger()
    handlers, level = root.handlers[:], root.level
    hooks = threading.excepthook, sys.unraisablehook
    root.handlers[:] = [_Wordless(logging.ERROR)]
    root.setLevel(logging.ERROR)

    def in_thread(hook: threading.ExceptHookArgs) -> None:
        if hook.exc_value is not None:
            write(hook.exc_value)

    def cannot_be_raised(hook: "sys.UnraisableHookArgs") -> None:
        if hook.exc_value is not None:
            write(hook.exc_value)

    threading.excepthook, sys.unraisablehook = in_thread, cannot_be_raised
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            yield
    finally:
        threading.excepthook, sys.unraisablehook = hooks
        root.handlers[:] = handlers
        root.setLevel(level)
