"""The form: what a set is to be made of, with what cannot go together said beside the field."""

import secrets
from typing import Any

from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse, Response
from starlette.routing import Route

from storybank.errors import StorybankError
from storybank.settings import KEYS as SETTINGS
from storybank.web import _choices, _fields
from storybank.web._faults import Found, fault_of
from storybank.web._fields import as_on_the_page
from storybank.web._house import House
from storybank.web._limits import form_of
from storybank.web._open_page import OpenPage, opened
from storybank.web._wishes import CLASS, KEYS, FieldError, Wishes
from storybank.web._working import worked_on

HIDDEN = "observances"
"""The cookie that hides the themes tied to an observance, for good."""
_YEAR = 365 * 24 * 3600


def routes(house: House) -> list[Route]:
    """The addresses of the form."""

    async def choose(request: Request) -> Response:
        """The form, with the wishes of the address in it."""
        try:
            page = await opened(request)
        except FieldError as error:
            return form(request, OpenPage(Wishes()), Found(str(error), (error.field,)), 400)
        return form(request, page, None)

    def form(request: Request, page: OpenPage, fault: Found | None, status: int = 200) -> Response:
        return form_page(house, request, page, fault, status)

    async def wished(request: Request) -> Response:
        """Goes on to the set; class names go there in the body again, never in the address."""
        form_data = await form_of(request)
        pairs = [(key, one) for key, one in form_data.multi_items() if isinstance(one, str)]
        try:
            wishes = Wishes.of((key, one) for key, one in pairs if key in KEYS)
        except FieldError as error:
            return form(request, OpenPage(Wishes()), Found(str(error), (error.field,)), 400)
        if not wishes.has("seed"):
            wishes = wishes.with_(seed=secrets.randbelow(1_000_000))
        names = any(
            key in ("names", "names-file") and (one.strip() if isinstance(one, str) else one.size)
            for key, one in form_data.multi_items()
        )
        if names:
            wishes = wishes.with_(**{CLASS: "yes"})
        return RedirectResponse(f"/set?{wishes.query}", 307 if names else 303)

    async def check(request: Request) -> Response:
        """What cannot go together, for the form to say beside its fields."""
        try:
            wishes = Wishes.of(
                (key, one) for key, one in request.query_params.multi_items() if key in KEYS
            )
        except FieldError as error:
            return JSONResponse({"text": str(error), "fields": [error.field]})
        fault = await worked_on(lambda: fault_of(OpenPage(wishes), house))
        if fault is None:
            return JSONResponse({"text": "", "fields": []})
        return JSONResponse({"text": fault.text, "fields": list(fault.fields)})

    async def observances(request: Request) -> Response:
        """Hides the themes tied to an observance, or shows them again."""
        data = await form_of(request)
        answer = RedirectResponse("/", 303)
        if data.get("show") == "yes":
            answer.delete_cookie(HIDDEN, samesite="strict", httponly=True)
        else:
            answer.set_cookie(HIDDEN, "hidden", _YEAR, samesite="strict", httponly=True)
        return answer

    return [
        Route("/", choose, methods=["GET", "POST"]),
        Route("/choose", wished, methods=["POST"]),
        Route("/check", check),
        Route("/observances", observances, methods=["POST"]),
    ]


def form_page(
    house: House,
    request: Request,
    page: OpenPage,
    fault: Found | None,
    status: int = 200,
    handing: object = None,
) -> Response:
    """The form with the wishes of a page in it, and what is wrong with them.

    `handing` is the hand-out to a class as it was typed.
    """
    hidden = request.cookies.get(HIDDEN) == "hidden"
    values: dict[str, Any] = {
        "title": "Choose the stories",
        "wishes": page.wishes,
        "names": page.names,
        "fault": fault,
        "field_names": _fields.NAMES,
        "themes": _choices.theme_choices(house, observances=not hidden),
        "festivals": _choices.festival_choices(observances=not hidden),
        "observances_hidden": hidden,
        "strategies": _choices.strategy_choices(),
        "grid": _choices.situation_grid(),
        "levels": _choices.level_choices(),
        "own_level": _choices.own_level(house),
        "rules": _choices.rule_choices(),
        "subjects": _choices.subject_choices(),
        "units": _choices.UNITS,
        "name_lists": _choices.name_choices(),
        "handing": handing,
        "today": house.today().isoformat(),
        "settings": dict.fromkeys(SETTINGS) | dict(house.usual_request) | dict(house.usual_layout),
    }
    return house.page(request, "choose.html", status, **values)


def fault_from(error: StorybankError, page: OpenPage, house: House) -> Found:
    """The fault of an error that a set raised, with the fields that it is about."""
    if isinstance(error, FieldError):
        return Found(str(error), (error.field,))
    found = fault_of(page, house)
    return found if found is not None else Found(as_on_the_page(str(error)), ())
