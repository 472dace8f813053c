"""The page of the bank: a search with its results, and the marks that a teacher gives them."""

import re
from collections.abc import Mapping
from typing import Any
from urllib.parse import urlencode

from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from storybank.bank import Bank
from storybank.bank._lines import NOTE_LIMIT
from storybank.errors import BankError, StorybankError
from storybank.web._bank_looking import Looked, look, titled
from storybank.web._bank_open import our_bank, problems_said
from storybank.web._bank_search import Search
from storybank.web._house import House
from storybank.web._limits import form_of
from storybank.web._wishes import FieldError, Wishes
from storybank.web._working import worked_on

DONE = "done"
FIGURES = "figures"
_APART = (DONE, FIGURES)
_HANDED_ON = ("theme", "situation", "strategy", "within", "vocabulary")
"""What a search and a new set can both be asked for."""
_DID = {
    "star": "#{} has a star.",
    "unstar": "#{} has no star any more.",
    "retire": "#{} is retired: it is neither found nor handed out any more.",
    "bring-back": "#{} is found and handed out again.",
    "note": "The note of #{} is kept.",
    "no-note": "#{} has no note any more.",
}
_NUMBER = re.compile(r"[0-9]{1,12}", re.ASCII)


def routes(house: House) -> list[Route]:
    """The addresses of the search and of the marks."""

    async def find(request: Request) -> Response:
        """What the search of the address finds."""
        return await bank_page(house, request, figures=FIGURES in request.query_params)

    async def mark(request: Request) -> Response:
        """Gives one problem a star, a note, or a class that has had it, or takes it away."""
        form = await form_of(request)
        try:
            done = await worked_on(lambda: _marked(house, form), long=True)
        except StorybankError as error:
            return await bank_page(house, request, error, typed=_typed(form))
        return _back(request, done, f"#problem-{_text(form, 'number')}")

    async def chosen(request: Request) -> Response:
        """Makes a set of the chosen problems, or records that a class has had them."""
        form = await form_of(request)
        try:
            numbers = [one for one in form.getlist("kept") if isinstance(one, str)]
            if not numbers:
                raise BankError("No story is chosen. Tick the ones you mean, then press again.")
            wishes = Wishes.of(("kept", _checked(one)) for one in numbers)
            if _text(form, "do") != "used":
                return RedirectResponse(f"/set?{wishes.query}", 303)
            done = await worked_on(lambda: _used(house, form, numbers), long=True)
        except StorybankError as error:
            return await bank_page(house, request, error, typed=_typed(form))
        return _back(request, done, "")

    return [
        Route("/bank", find),
        Route("/bank/mark", mark, methods=["POST"]),
        Route("/bank/chosen", chosen, methods=["POST"]),
    ]


async def bank_page(
    house: House,
    request: Request,
    fault: StorybankError | None = None,
    *,
    figures: bool = False,
    typed: Mapping[str, Any] | None = None,
) -> Response:
    """The page with what the search of the address finds; with a `fault` nothing was done."""
    pairs = request.query_params.multi_items()
    search = Search()
    try:
        search = Search.of(one for one in pairs if one[0] not in _APART)
        looked = await worked_on(lambda: look(house, search, figures=figures))
    except FieldError as error:
        looked, fault = await worked_on(lambda: look(house, Search())), fault or error
    fault = fault or looked.fault
    status = 400 if fault else 200
    done = "" if fault else request.query_params.get(DONE, "")
    return house.page(
        request,
        "bank.html",
        status,
        title="Bank",
        search=search,
        looked=looked,
        fault=fault,
        said=_said(done),
        said_at=_said_at(done, looked),
        typed=typed or {"number": "", "note": "", "class": "", "day": "", "kept": ()},
        today=house.today().isoformat(),
        note_limit=NOTE_LIMIT,
        handed_on=[(key, one) for key in _HANDED_ON for one in search.all(key)],
        figures=_figures(looked),
        figures_address="/bank?" + urlencode([*_pairs(search), (FIGURES, "yes")]),
    )


def _pairs(search: Search) -> list[tuple[str, str]]:
    return [(key, one) for key, some in search.values.items() for one in some]


def _figures(looked: Looked) -> list[tuple[str, list[tuple[str, str]]]]:
    """The figures of the bank in tables: the whole, then one for each kind of thing."""
    found = looked.figures or {}
    whole = [(name, f"{one:,}") for name, one in found.items() if isinstance(one, int)]
    parts = [
        (name, [(titled(name, key), f"{one:,}") for key, one in some.items()])
        for name, some in found.items()
        if isinstance(some, Mapping)
    ]
    return [("In all", whole), *parts] if found else []


def _marked(house: House, form: FormData) -> str:
    """What was done to one problem, as the address says it."""
    number, do = _checked(_text(form, "number")), _text(form, "do")
    if do == "used":
        return _used(house, form, [number])
    with our_bank(house) as bank:
        _mark(bank, f"#{number}", do, _text(form, "note"))
    if do == "note" and not _text(form, "note").strip():
        do = "no-note"
    return f"{do}-{number}"


def _mark(bank: Bank, name: str, do: str, note: str) -> None:
    if do in ("star", "unstar"):
        bank.star([name], on=do == "star")
    elif do in ("retire", "bring-back"):
        bank.retire([name], on=do == "retire")
    elif do == "note":
        bank.note(name, note)
    else:
        raise BankError("Nothing was done: the page did not say what. Press one of its buttons.")


def _used(house: House, form: FormData, numbers: list[str]) -> str:
    label = _text(form, "class")
    if not label.strip():
        raise FieldError("class", "Which class? Write a short label, such as 2B.")
    day = _text(form, "day") or house.today().isoformat()
    with our_bank(house) as bank:
        return f"used-{bank.used(label, [f'#{one}' for one in numbers], day)}"


def _back(request: Request, done: str, place: str) -> Response:
    """Back to the search of the address, where what was done is said."""
    pairs = request.query_params.multi_items()
    try:
        search = Search.of(one for one in pairs if one[0] not in _APART)
    except FieldError:
        search = Search()
    return RedirectResponse(f"/bank?{urlencode([*_pairs(search), (DONE, done)])}{place}", 303)


def _said(done: str) -> str:
    do, _, number = done.rpartition("-")
    if not _NUMBER.fullmatch(number):
        return ""
    if do == "used":
        return (
            f"{problems_said(int(number))} recorded."
            if int(number)
            else "The class has had all of these before, so nothing was recorded anew."
        )
    return _DID[do].format(number) if do in _DID else ""


def _said_at(done: str, looked: Looked) -> int | None:
    """The number of the shown problem that something was done to, where it is said then."""
    do, _, number = done.rpartition("-")
    shown = [one.kept.number for one in looked.cards if do in _DID]
    return next((one for one in shown if str(one) == number), None)


def _typed(form: FormData) -> dict[str, Any]:
    kept = tuple(one for one in form.getlist("kept") if isinstance(one, str))
    return {"kept": kept, **{key: _text(form, key) for key in ("number", "note", "class", "day")}}


def _checked(number: str) -> str:
    if not _NUMBER.fullmatch(number):
        raise FieldError("kept", "A kept story is named by its number in the bank.")
    return number


def _text(form: FormData, key: str) -> str:
    found = form.get(key)
    return found if isinstance(found, str) else ""
