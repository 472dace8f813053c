"""The set of an address: read and changed, renewed but for the marked stories, at the board."""

import secrets
from collections.abc import Callable, Sequence
from functools import partial
from typing import Any, TypeVar

from markupsafe import Markup
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from storybank import documents
from storybank.documents import Layout
from storybank.errors import StorybankError
from storybank.revision import Revised
from storybank.web._cards import contents, is_large, within
from storybank.web._choosing import fault_from, form_page
from storybank.web._house import House, blocks_as_html
from storybank.web._open_page import OpenPage, made, opened
from storybank.web._wishes import KEPT, Wishes, readable
from storybank.web._working import worked_on

T = TypeVar("T")
_LARGE = Layout(large_print=True)
_PLACE = ("story", "step")
"""Which story stands on the board, and how far it is worked."""


def routes(house: House) -> list[Route]:
    """The addresses of sets."""

    async def show(request: Request) -> Response:
        """The set of an address."""
        found = await _worked(house, request, partial(contents, house))
        if isinstance(found, Response):
            return found
        return house.page(request, "set.html", **found)

    async def renew(request: Request) -> Response:
        """Goes on to the set with all stories made again but the checked ones."""
        found = await opened_set(house, request)
        if isinstance(found, Response):
            return found
        page, revised = found
        places = [
            str(at) for at in range(1, len(revised.stories) + 1) if str(at) not in page.checked
        ]
        wishes = page.wishes.changed("-".join(["renew", *places])) if places else page.wishes
        return RedirectResponse(f"/set?{wishes.query}", 307 if page.is_open else 303)

    async def board(request: Request) -> Response:
        """One story for the board, a step at a time."""
        asked = {key: one for key, one in request.query_params.items() if key in _PLACE}
        found = await _worked(house, request, partial(_on_the_board, asked), _PLACE)
        if isinstance(found, Response):
            return found
        return house.page(request, "board.html", **found)

    return [
        Route("/set", show, methods=["GET", "POST"]),
        Route("/set/renew", renew, methods=["POST"]),
        Route("/board", board, methods=["GET", "POST"]),
    ]


async def opened_set(house: House, request: Request) -> tuple[OpenPage, Revised] | Response:
    """The open page with its set; or the answer to give instead: the form, or a full address."""
    return await _worked(house, request, lambda page, revised: (page, revised))


async def _worked(
    house: House,
    request: Request,
    work: Callable[[OpenPage, Revised], T],
    without: Sequence[str] = (),
) -> T | Response:
    """What `work` makes of the open page and its set, or the answer to give instead."""
    page = OpenPage(Wishes())
    try:
        page = await opened(request, without)
        if not page.wishes.has("seed") and not page.wishes.has(KEPT):
            wishes = page.wishes.with_(seed=secrets.randbelow(1_000_000))
            return RedirectResponse(f"{request.url.path}?{wishes.query}", 307)
        page.wishes.layout(house.usual_layout)
        long = is_large(page.wishes)
        return await worked_on(lambda: work(page, made(page, house)), long=long)
    except StorybankError as error:
        if not page.wishes.values:
            page = OpenPage(readable(request.query_params.multi_items(), without))
        fault = await worked_on(partial(fault_from, error, page, house))
        return form_page(house, request, page, fault, 400)


def _on_the_board(asked: dict[str, str], page: OpenPage, revised: Revised) -> dict[str, Any]:
    """What stands on the board."""
    stories = revised.stories
    place = within(asked.get("story"), 1, len(stories))
    problem = stories[place - 1].problem
    steps = documents.at_the_board(problem, _LARGE)
    step = within(asked.get("step"), 0, len(steps))
    shown = steps[step - 1] if step else None
    return {
        "title": f"Story {place}",
        "page": page,
        "wishes": page.wishes,
        "problem": problem,
        "place": place,
        "count": len(stories),
        "step": step,
        "steps": len(steps),
        "name": shown.name if shown else "",
        "shown": blocks_as_html(shown.blocks) if shown else Markup(""),
    }
