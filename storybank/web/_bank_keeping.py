"""What comes into the bank from the pages: a set that is kept, a set handed out to a class."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from storybank.bank import Added, check_class
from storybank.errors import BankError, StorybankError
from storybank.request import settle
from storybank.web._bank_open import our_bank, problems_said
from storybank.web._cards import is_spoiled
from storybank.web._choosing import fault_from, form_page
from storybank.web._faults import Found
from storybank.web._house import House
from storybank.web._limits import form_of
from storybank.web._once import Once
from storybank.web._open_page import OpenPage, made, opened
from storybank.web._wishes import CHANGE, KEPT, KEYS, MOST_PROBLEMS, FieldError, Wishes
from storybank.web._working import worked_on

_SHOWN = ("pages", "paper", "font", "lines", "unknown", "drawings", "large-print", "beside")
"""How pages look, which goes on to the set that was handed out."""


@dataclass(frozen=True, slots=True)
class Handing:
    """A hand-out as it was typed: to which class, on which day, whether from the bank first."""

    label: str = ""
    day: str = ""
    source: str = "bank"

    @classmethod
    def of(cls, form: FormData) -> "Handing":
        """The hand-out that a form asks for."""
        found = {key: one for key, one in form.multi_items() if isinstance(one, str)}
        source = "new" if found.get("from") == "new" else "bank"
        return cls(found.get("class", ""), found.get("day", "").strip(), source)


def routes(house: House) -> list[Route]:
    """The addresses of keeping and of handing out."""
    once = Once()

    async def keep(request: Request) -> Response:
        """Keeps exactly the set that the page shows, and says what is new."""
        page = OpenPage(Wishes())
        try:
            page = await opened(request)
            added = await worked_on(lambda: _kept(page, house), long=True)
        except BankError as error:
            return _not_kept(house, request, page, error)
        except StorybankError as error:
            fault = await worked_on(_fault(error, page, house))
            return form_page(house, request, page, fault, 400)
        return house.page(
            request,
            "bank_kept.html",
            title="Kept in the bank",
            page=page,
            wishes=page.wishes,
            added=added,
            fault=None,
            new=problems_said(added.new),
            there=problems_said(added.there),
            kept=_kept_address(added.numbers),
        )

    async def hand_out(request: Request) -> Response:
        """Goes on to a set that the class has not had, which is recorded for it."""
        form = await form_of(request)
        handing = Handing.of(form)
        page = OpenPage(Wishes())
        try:
            page = await _asked(request, form)
            mark = (handing, page.wishes.query, hash(page.names))
            numbers = await once(mark, lambda: _handed_out(page, handing, house))
        except StorybankError as error:
            fault = await worked_on(_fault(error, page, house))
            return form_page(house, request, page, fault, 400, handing)
        looks = {key: page.wishes.all(key) for key in _SHOWN}
        wishes = Wishes.of(
            [(KEPT, str(one)) for one in numbers]
            + [(key, one) for key, some in looks.items() for one in some]
        )
        return RedirectResponse(f"/set?{wishes.query}", 307 if page.names.strip() else 303)

    return [
        Route("/bank/keep", keep, methods=["POST"]),
        Route("/bank/hand-out", hand_out, methods=["POST"]),
    ]


def _kept(page: OpenPage, house: House) -> Added:
    revised = made(page, house)
    spoiled = [str(at) for at, one in enumerate(revised.stories, start=1) if is_spoiled(one)]
    if spoiled:
        raise BankError(
            f"Nothing was kept: in story {', '.join(spoiled)} your words no longer go with the "
            "key. Mend the words, or take ours back, and keep the set then."
        )
    problem_set = revised.problem_set
    with our_bank(house, create=True) as bank:
        return bank.add(problem_set)


def _kept_address(numbers: tuple[int, ...]) -> str:
    """The address of the kept problems as a set; nothing where they are too many for one page."""
    if not 0 < len(numbers) <= MOST_PROBLEMS:
        return ""
    return "/set?" + Wishes.of((KEPT, str(one)) for one in dict.fromkeys(numbers)).query


def _not_kept(house: House, request: Request, page: OpenPage, error: BankError) -> Response:
    return house.page(
        request,
        "bank_kept.html",
        400,
        title="Not kept",
        page=page,
        wishes=page.wishes,
        fault=error,
        added=None,
        new="",
        there="",
        kept="",
    )


async def _asked(request: Request, form: FormData) -> OpenPage:
    """The wishes of the form, with the names that came with it."""
    page = await opened(request)
    pairs = [(key, one) for key, one in form.multi_items() if isinstance(one, str)]
    wishes = Wishes.of(one for one in pairs if one[0] in KEYS and one[0] not in (CHANGE, KEPT))
    return replace(page, wishes=wishes)


def _handed_out(page: OpenPage, handing: Handing, house: House) -> tuple[int, ...]:
    """The numbers of what the class was given, in the order of the set."""
    if not handing.label.strip():
        raise FieldError("class", "Which class? Write a short label, such as 2B.")
    day = handing.day or house.today().isoformat()
    check_class(handing.label, day)
    request = page.wishes.request(house.usual_request, house.own_themes(), page.roster())
    if request.count > MOST_PROBLEMS:
        raise FieldError(
            "count",
            f"A page shows at most {MOST_PROBLEMS} stories of the bank, and {request.count:,} were "
            "asked for. Hand out fewer at once.",
        )
    # All that may be wrong with the wish is said before a new bank is made.
    page.wishes.layout(house.usual_layout)
    settle(request, 0)
    with our_bank(house, create=True) as bank:
        bank.hand_out(request, handing.label, day=day, from_bank=handing.source == "bank")
        return bank.handed


def _fault(error: StorybankError, page: OpenPage, house: House) -> Callable[[], Found]:
    if isinstance(error, BankError):
        return lambda: Found(str(error), ())
    return lambda: fault_from(error, page, house)
