"""How pages look, as options of every command that makes pages."""

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from storybank.documents import Layout


def add_to(command: Any) -> None:
    """Adds the options to a command that makes pages."""
    command.add_argument("--paper", metavar="letter|a4", help="(letter)")
    command.add_argument(
        "--large-print", action="store_true", default=None, help="18 points and more everywhere"
    )
    command.add_argument("--font", metavar="NAME", help="a font of your machine (Verdana)")
    command.add_argument(
        "--template", metavar="FILE", type=Path, help="a Word file of your school: its styles"
    )


def layout(wish: Mapping[str, Any]) -> "Layout":
    """The look that was asked for. Raises RequestError for a value that is not valid."""
    from storybank.documents import Layout

    said = {key: wish[key] for key in ("paper", "large_print", "font") if wish[key] is not None}
    if wish["template"] is not None:
        said["template"] = Path(wish["template"])
    return Layout(**said)
