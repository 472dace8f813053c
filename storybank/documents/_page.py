"""The one page model: blocks in order, which every writer of pages puts down in its own way."""

from collections.abc import Iterator
from dataclasses import dataclass

from storybank.drawings import Drawing


@dataclass(frozen=True, slots=True)
class Title:
    """The name of the document, once."""

    text: str


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading of level 1 or 2. With `number` it names a problem: "Problem 3 - K7QX".

    A `counted` number counts itself in Word, so that it stays right when a problem is removed;
    where problems are left out or told twice it must not.
    """

    level: int
    text: str
    number: int | None = None
    new_page: bool = False
    counted: bool = True


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A paragraph in one of the named styles of `STYLES`, with an optional bold lead-in.

    A tab in its text goes to the place that its style has for it.
    """

    style: str
    text: str
    lead: str = ""


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing, standing in the line of text behind an optional bold lead-in."""

    drawing: Drawing
    lead: str = ""


@dataclass(frozen=True, slots=True)
class Table:
    """A table whose first row is a header; `widths` are shares of the page."""

    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    widths: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Cards:
    """Cards to cut out, `columns` beside each other, each with its paragraphs."""

    cards: tuple[tuple[Paragraph, ...], ...]
    columns: int


@dataclass(frozen=True, slots=True)
class Group:
    """Blocks that stay together on a page: one problem."""

    blocks: tuple["Piece", ...]


Piece = Heading | Paragraph | Picture | Table
Block = Title | Piece | Cards | Group

STYLES = (
    "story", "question", "work", "tall", "fill", "help", "fact", "note", "say", "sum",
    "launch",
    "cut", "card", "card-name",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Page:
    """A whole document: title, a line for the top of each page, and its blocks in order."""

    title: str
    top: str
    blocks: tuple[Block, ...]

    def flat(self) -> Iterator[Block]:
        """All blocks in order, groups opened."""
        for block in self.blocks:
            if isinstance(block, Group):
                yield from block.blocks
            else:
                yield block
