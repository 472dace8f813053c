"""`storybank serve`: the teacher's page in the browser, and the same without a window."""

import argparse
import gc
import io
import sys
from contextlib import redirect_stderr
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from storybank.cli import _settings
from storybank.cli._shown import shown
from storybank.errors import RequestError

_PORT = 8420
_HARD_END_SECONDS = 8
_COLLECTED = (700, 10, 10)
"""The thresholds with which Python 3.11 begins (documentation of the module gc; from memory)."""
_NEEDED = ("starlette", "uvicorn", "jinja2", "python_multipart")


def add_to(commands: Any) -> None:
    """Adds the command to the parser."""
    serve = commands.add_parser("serve", help="the teacher's page, in the browser of this machine")
    serve.add_argument("--port", type=int, default=_PORT, metavar="N", help=f"({_PORT})")
    serve.add_argument(
        "--host",
        default="127.0.0.1",
        metavar="ADDRESS",
        help="serve other machines, too, at this address of yours; asks for a token",
    )
    serve.add_argument(
        "--also-called", nargs="+", default=[], metavar="NAME", help="names that lead here"
    )
    serve.add_argument(
        "--folder", type=Path, metavar="FOLDER", help="where your bank and themes are kept"
    )
    serve.add_argument("--bank", type=Path, metavar="FILE", help="your bank (our.bank there)")
    _settings.add_to(serve)
    serve.add_argument("--no-browser", action="store_true", help="open no browser")
    serve.set_defaults(command=run)


def run(options: argparse.Namespace) -> int:
    """Serves until it is ended."""
    missing = [name for name in _NEEDED if find_spec(name) is None]
    if missing:
        raise RequestError(
            f"The teacher's page needs {', '.join(missing)}, not installed here. Install it with: "
            "pip install 'storybank[web]'"
        )
    from storybank.web import _serve

    # What a short command need not collect (see __main__) would pile up here: Python's own values.
    gc.set_threshold(*_COLLECTED)
    return _serve.serve(
        _serve.Wishes(
            port=options.port,
            host=options.host,
            also_called=tuple(options.also_called),
            folder=options.folder,
            bank=options.bank,
            settings=_settings.found(options),
            browser=not options.no_browser,
        ),
        lambda text: print(shown(text), flush=True),
        lambda text: print(shown(text), file=sys.stderr, flush=True),
        hard_end=_HARD_END_SECONDS,
    )


def double_clicked() -> None:
    """Ends the process with the exit code of `storybank serve`, started without a window.

    There nobody sees standard error, so what it says is shown by the browser when it ends badly.
    """
    import os

    from storybank.cli import main

    if sys.stderr is not None:
        code = main(["serve"])
    else:
        said = io.StringIO()
        with redirect_stderr(said):
            code = main(["serve"])
        if code:
            from storybank.web import _browser

            _browser.show_message(said.getvalue())
    for stream in (sys.stdout, sys.stderr):
        if stream is not None:
            stream.flush()
    os._exit(code)
