"""What an output format says about itself."""

from collections.abc import Sequence
from dataclasses import dataclass

from storybank.documents import kinds


@dataclass(frozen=True, slots=True)
class Format:
    """An output format: the id it is asked for by, its title, and the ending of its files.

    With `by_page` it writes a file for each kind of page, named after it; else one file.
    """

    id: str
    title: str
    suffix: str
    by_page: bool = False

    def files(self, pages: Sequence[str], levels: Sequence[str] = ()) -> tuple[str, ...]:
        """The names of the files for those kinds of page of a set told at `levels`."""
        if not self.by_page:
            return (f"set{self.suffix}",)
        return tuple(f"{sheet.name}{self.suffix}" for sheet in kinds.sheets(pages, levels))
