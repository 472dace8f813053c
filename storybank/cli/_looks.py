"""How pages look, as options of every command that makes pages."""

import argparse
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from storybank.documents import Layout


def add_to(command: Any) -> None:
    """Adds the options to a command that makes pages."""
    command.add_argument("--paper", metavar="letter|a4", default="letter", help="(letter)")
    command.add_argument("--large-print", action="store_true", help="18 points and more everywhere")
    command.add_argument("--font", metavar="NAME", help="a font of your machine (Verdana)")
    command.add_argument(
        "--template", metavar="FILE", type=Path, help="a Word file of your school: its styles"
    )


def layout(options: argparse.Namespace) -> "Layout":
    """The look that was asked for. Raises RequestError for a value that is not valid."""
    from storybank.documents import Layout

    said = {} if options.font is None else {"font": options.font}
    return Layout(
        paper=options.paper,
        large_print=options.large_print,
        template=options.template,
        **said,
    )
