"""Kinds of page, one file each: `TITLE`, `FOR_CHILDREN` and `page(problem_set, layout)`.

All are made of the same finished set, as blocks of the one page model. With levels side by side
there is a sheet of each level of every kind that is for children.
"""

import importlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import ModuleType

from storybank import catalog
from storybank.documents._layout import Layout
from storybank.documents._page import Page
from storybank.errors import RequestError, unknown_value
from storybank.model import ProblemSet

_FIRST = ("student", "key")


@dataclass(frozen=True, slots=True)
class Sheet:
    """What one file holds: its name without suffix, the kind of page, the level if it is of one."""

    name: str
    kind: str
    level: str | None = None


@cache
def ids() -> tuple[str, ...]:
    """The ids of all kinds of page: student pages and key first, the others by name."""
    found = catalog.entry_names(Path(__file__).parent, ".py")
    return (*_FIRST, *(name for name in found if name not in _FIRST))


def kinds() -> Mapping[str, ModuleType]:
    """All kinds of page by id, in the order of `ids`."""
    return {name: get(name) for name in ids()}


def get(kind: str) -> ModuleType:
    """The module of a kind of page, read when it is asked for.

    Raises RequestError, naming the kinds, for any other.
    """
    if kind not in ids():
        raise RequestError(unknown_value("kind of page", kind, ids()))
    return importlib.import_module(f"{__name__}.{kind.replace('-', '_')}")


def sheets(pages: Sequence[str], levels: Sequence[str] = ()) -> tuple[Sheet, ...]:
    """The sheets of those kinds of page, in order; those for children at each of `levels` too."""
    asked = tuple(dict.fromkeys(pages))
    return (
        *(Sheet(kind, kind) for kind in asked),
        *(
            Sheet(f"{kind}-{level}", kind, level)
            for kind in asked
            if get(kind).FOR_CHILDREN
            for level in levels
        ),
    )


def page(kind: str, problem_set: ProblemSet, layout: Layout) -> Page:
    """The pages of a kind as blocks."""
    made: Page = get(kind).page(problem_set, layout)
    return made
