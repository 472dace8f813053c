"""The command `storybank`: reads the command line, calls the library, prints."""

import argparse
import sys
from collections.abc import Callable, Sequence

from storybank.cli import _make, _other
from storybank.cli._shown import shown
from storybank.errors import StorybankError
from storybank.version import VERSION

Command = Callable[[argparse.Namespace], int]


def main(arguments: Sequence[str] | None = None) -> int:
    """The exit code: 0 done, 2 a wish that cannot be met or is misspelt."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")
    parser = _parser()
    options = parser.parse_args(arguments)
    command: Command = options.command
    try:
        return command(options)
    except StorybankError as error:
        print(shown(f"storybank: {error}"), file=sys.stderr)
        return 2
    except BrokenPipeError:
        sys.stderr.close()
        return 0
    except KeyboardInterrupt:
        print("storybank: stopped; nothing was written.", file=sys.stderr)
        return 130


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="storybank",
        description="Story problems for addition and subtraction whose numbers fit the strategy "
        "being taught, with solutions, related facts, key and wrong answers to watch for.",
        epilog="Your school's own curriculum, language-support and accommodation plans come first.",
    )
    parser.add_argument("--version", action="version", version=f"storybank {VERSION}")
    # Without `prog` argparse would format the usage text here, and import much to do so.
    commands = parser.add_subparsers(required=True, metavar="COMMAND", prog="storybank")
    _make.add_to(commands)
    _other.add_to(commands)
    return parser
