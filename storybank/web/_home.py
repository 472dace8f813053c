"""Where a teacher's own things are kept, and her settings."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from storybank.settings import Settings


@dataclass(frozen=True, slots=True)
class Home:
    """The folder of a teacher: her bank, her themes, her settings; nothing need be there yet."""

    folder: Path
    bank: Path
    settings: Settings | None = None
    stop: Callable[[], None] | None = None

    @property
    def themes(self) -> Path:
        """The folder of her own themes."""
        return self.folder / "themes"
