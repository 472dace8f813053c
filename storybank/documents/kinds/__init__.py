"""Kinds of page, one file each: `TITLE`, `FOR_CHILDREN` and `page(problem_set, layout)`.

All are made of the same finished set, as blocks of the one page model. With levels side by side
there is a sheet of each level of every kind that is for children.
"""

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
def kinds() -> Mapping[str, ModuleType]:
    """All kinds of page by id: student pages and key first, the others by name."""
    found = catalog.module_entries(__name__, Path(__file__).parent)
    return {name: found[name] for name in (*_FIRST, *sorted(set(found) - set(_FIRST)))}


def get(kind: str) -> ModuleType:
    """The module of a kind of page. Raises RequestError, naming the kinds, for any other."""
    if kind not in kinds():
        raise RequestError(unknown_value("kind of page", kind, kinds()))
    return kinds()[kind]


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
