"""What classes have had, what was done to the bank, and the last thing taken back."""

from collections.abc import Sequence
from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from storybank.bank import Bank, HandOut
from storybank.bank._actions import Action
from storybank.errors import StorybankError
from storybank.web._bank_open import is_there, our_bank
from storybank.web._house import House
from storybank.web._limits import form_of
from storybank.web._wishes import KEPT, MOST_PROBLEMS, FieldError, Wishes
from storybank.web._working import worked_on

_IN_THE_LOG = 50
_DID = {
    "add": "kept a set",
    "make": "handed out",
    "used": "recorded for a class",
    "star": "gave a star",
    "unstar": "took a star away",
    "retire": "retired",
    "bring back": "brought back",
    "note": "wrote a note",
    "import": "took in a file",
    "merge": "took in a bank",
    "grow": "grew",
}
"""What was done, in the words of the page, by what the bank calls it."""


@dataclass(frozen=True, slots=True)
class Had:
    """A hand-out as the page shows it; `address` is that of its set, if one page can show it."""

    day: str
    count: int
    codes: Sequence[str]
    address: str


@dataclass(frozen=True, slots=True)
class Done:
    """Something done to the bank; `last` is what would be undone."""

    action: Action
    what: str
    last: bool


def routes(house: House) -> list[Route]:
    """The addresses of the classes and of undoing."""

    async def show(request: Request) -> Response:
        """The classes, what one has had by day, and the log."""
        return await _page(house, request, None)

    async def undo(request: Request) -> Response:
        """Takes back the last thing done, if it is still the one that the page showed."""
        form = await form_of(request)
        number = form.get("action")
        try:
            if not (isinstance(number, str) and number.isascii() and number.isdigit()):
                raise FieldError("", "Nothing was undone: the page did not say what.")
            asked = int(number[:18])
            undone = await worked_on(lambda: _undone(house, asked), long=True)
        except StorybankError as error:
            return await _page(house, request, error)
        return RedirectResponse(f"/bank/classes?undone={undone}", 303)

    return [
        Route("/bank/classes", show),
        Route("/bank/undo", undo, methods=["POST"]),
    ]


async def _page(house: House, request: Request, fault: StorybankError | None) -> Response:
    asked = request.query_params.get("class", "").strip()
    classes: list[str] = []
    history: list[Had] = []
    log: list[Done] = []

    def look() -> None:
        if not is_there(house):
            return
        with our_bank(house) as bank:
            log.extend(_log(bank))
            classes.extend(bank.classes())
            if asked:
                history.extend(map(_had, reversed(bank.history(asked))))

    try:
        await worked_on(look)
    except StorybankError as error:
        fault = fault or error
    undone = request.query_params.get("undone", "")
    return house.page(
        request,
        "bank_classes.html",
        400 if fault else 200,
        title="Classes",
        classes=classes,
        asked=asked if history else "",
        history=history,
        log=log,
        last=next((one for one in log if one.last), None),
        undone=next(
            (one for one in log if str(one.action.number) == undone and one.action.undone), None
        ),
        fault=fault,
    )


def _undone(house: House, number: int) -> int:
    with our_bank(house) as bank:
        return bank.undo(number).number


def _log(bank: Bank) -> list[Done]:
    found = []
    last = True
    for one in bank.actions(_IN_THE_LOG):
        found.append(Done(one, _DID.get(one.what, one.what), last and not one.undone))
        last = last and one.undone
    return found


def _had(one: HandOut) -> Had:
    numbers = [str(number) for number, *_ in one.problems]
    address = ""
    if len(numbers) <= MOST_PROBLEMS:
        address = "/set?" + Wishes.of((KEPT, number) for number in numbers).query
    return Had(one.day, len(numbers), [code for _, code, _ in one.problems], address)
