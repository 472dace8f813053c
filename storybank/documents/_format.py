"""What an output format says about itself."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Format:
    """An output format: the id it is asked for by, its title, and the files it writes.

    `sheet` is that of its files which children read: with levels side by side there is one of
    each level too.
    """

    id: str
    title: str
    files: tuple[str, ...]
    sheet: str | None = None
