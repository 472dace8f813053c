"""What there is to choose from, as a plain list: names, what each is, and the word a plan has."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from storybank import mistakes, situations, standards, strategies
from storybank.web import _choices
from storybank.web._house import House
from storybank.web._working import worked_on


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing there is: its id, as a plan or the command line has it, and what it is."""

    id: str
    title: str
    more: str = ""


def routes(house: House) -> list[Route]:
    """The address of the list."""

    async def show(request: Request) -> Response:
        """All of it, kind by kind."""
        kinds = await worked_on(_kinds)
        return house.page(request, "words.html", title="All choices", kinds=kinds)

    return [Route("/words", show)]


@cache
def _kinds() -> tuple[tuple[str, str, tuple[Entry, ...]], ...]:
    """Each kind with its id, its heading and what there is of it."""
    return (
        (
            "strategies",
            "Strategies",
            tuple(Entry(one.id, one.title, one.teacher) for one in strategies.by_rank()),
        ),
        (
            "situations",
            "Kinds of story",
            tuple(
                Entry(one.id, one.title, f"grade {one.grade}")
                for one in situations.in_grade_order()
            ),
        ),
        ("vocabulary", "Levels of English", _titled(_choices.level_choices())),
        ("rules", "Rules of a level that can be switched", _titled(_choices.rule_choices())),
        (
            "mistakes",
            "Mistakes that are watched for",
            tuple(Entry(name, mistakes.get(name).TITLE) for name in mistakes.ids()),
        ),
        ("pages", "Kinds of page", _titled(_choices.page_choices())),
        (
            "standards",
            "Standards (Common Core, 2010, in our own words)",
            tuple(
                Entry(one.code, one.text, f"grade {one.grade}") for one in standards.common_core()
            ),
        ),
        ("names", "Lists of names", _titled(_choices.name_choices())),
    )


def _titled(found: Sequence[tuple[str, str]]) -> tuple[Entry, ...]:
    return tuple(Entry(name, title) for name, title in found)
