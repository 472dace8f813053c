"""The themes: all of them with their seasons, and a teacher's own, written, checked and kept."""

from calendar import month_name
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from starlette.datastructures import FormData, UploadFile
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from storybank import themes
from storybank.errors import StorybankError
from storybank.model.words import Header
from storybank.theme_check import ThemeReport
from storybank.themes import seasons
from storybank.themes.starter import starter
from storybank.web import _numbered, _own_themes
from storybank.web._choosing import HIDDEN
from storybank.web._house import House
from storybank.web._limits import form_of
from storybank.web._working import worked_on

_NAME = "my-theme"
LIMITS = {"/themes": 3 << 20}
"""A theme may come as a text and as a file."""


@dataclass(frozen=True)
class Draft:
    """A theme of the page: its name, its text, and the bytes that are checked and kept."""

    name: str = _NAME
    text: str = ""
    data: bytes = field(default=b"", repr=False)


def routes(house: House) -> list[Route]:
    """The addresses of the themes."""

    async def listed(request: Request) -> Response:
        """All themes, those in season on a day first."""
        return themes_page(request)

    def themes_page(request: Request, fault: str = "") -> Response:
        text, day = request.query_params.get("day", "").strip(), house.today()
        if text and not fault:
            try:
                day = seasons.day_of(text[:40])
            except StorybankError as error:
                fault = str(error)
        hidden = request.cookies.get(HIDDEN) == "hidden"
        own = house.own_themes()
        said = request.query_params.get("kept", ""), request.query_params.get("deleted", "")
        return house.page(
            request,
            "themes.html",
            400 if fault else 200,
            title="Themes",
            fault=fault,
            day=day,
            groups=_groups(day, observances=not hidden),
            own=list(own),
            kept=said[0] if said[0] in own else "",
            deleted=bool(said[1]) and said[1] not in own,
            months=_months,
        )

    async def own(request: Request) -> Response:
        """The text of a theme of her own, or one to begin with."""
        name = request.query_params.get("name", "")
        if not name:
            return draft_page(request, Draft(text=starter(_NAME)))
        try:
            _own_themes.checked_name(name)
            known = name in house.own_themes()
            text = await worked_on(
                lambda: _own_themes.text_of(house, name) if known else starter(name)
            )
        except StorybankError as error:
            return draft_page(request, Draft(text=starter(_NAME)), str(error))
        return draft_page(request, Draft(name, text))

    async def check(request: Request) -> Response:
        """The page with what is found in the text; nothing is kept."""
        draft, _ = await _sent(request)
        try:
            report = await worked_on(lambda: _checked(draft), long=True)
        except StorybankError as error:
            return draft_page(request, draft, str(error))
        return draft_page(request, draft, report=report)

    async def keep(request: Request) -> Response:
        """Keeps a theme without faults on this machine."""
        draft, form = await _sent(request)
        try:
            report = await worked_on(lambda: _checked(draft), long=True)
            if report.faults:
                return draft_page(request, draft, report=report)
            await worked_on(
                lambda: _own_themes.keep(
                    house, draft.name, draft.data, overwrite=form.get("replace") == "yes"
                )
            )
        except StorybankError as error:
            return draft_page(request, draft, str(error))
        return RedirectResponse(f"/themes?kept={draft.name}", 303)

    async def delete(request: Request) -> Response:
        """Takes one of her themes away, once she has confirmed it."""
        form = await form_of(request)
        name = str(form.get("name") or "")
        if form.get("sure") != "yes":
            return themes_page(
                request, 'Nothing was deleted. Check "yes, delete it" beside the theme first.'
            )
        try:
            _own_themes.take_away(house, name)
        except StorybankError as error:
            return themes_page(request, str(error))
        return RedirectResponse(f"/themes?deleted={name}", 303)

    def draft_page(
        request: Request, draft: Draft, fault: str = "", report: ThemeReport | None = None
    ) -> Response:
        faults = report.faults if report is not None else ()
        values: dict[str, Any] = {
            "title": "A theme of your own",
            "draft": draft,
            "fault": fault,
            "report": report,
            "numbered": _numbered.numbered(draft.text) if faults else [],
            "by_line": _numbered.by_line(faults),
            "exists": draft.name in house.own_themes(),
        }
        return house.page(request, "theme.html", 400 if fault or faults else 200, **values)

    return [
        Route("/themes", listed),
        Route("/themes/own", own),
        Route("/themes/check", check, methods=["POST"]),
        Route("/themes/keep", keep, methods=["POST"]),
        Route("/themes/delete", delete, methods=["POST"]),
    ]


def _checked(draft: Draft) -> ThemeReport:
    return _own_themes.checked(_own_themes.checked_name(draft.name), draft.data)


async def _sent(request: Request) -> tuple[Draft, FormData]:
    """The theme that a form sends, pasted or as a file; a file goes before what was pasted."""
    form = await form_of(request)
    name, text, upload = form.get("name"), form.get("text"), form.get("file")
    told = text.replace("\r\n", "\n") if isinstance(text, str) else ""
    data = told.encode("utf-8", errors="replace")
    if isinstance(upload, UploadFile) and upload.size:
        data = await upload.read()
        told = data.decode("utf-8-sig", errors="replace").replace("\r\n", "\n")
    await form.close()
    shown = told[: len(data)].replace("\0", "\N{REPLACEMENT CHARACTER}")
    return Draft(name.strip()[:200] if isinstance(name, str) else "", shown, data), form


def _groups(day: Any, *, observances: bool) -> list[tuple[str, Sequence[Header]]]:
    """The themes that come with Storybank: in season on a day, the others, those of observances."""
    heads = themes.headers()
    best = seasons.best_first(heads, day)
    groups: list[tuple[str, Sequence[Header]]] = [
        ("In season, the best first", [one for one in best if one.observance is None]),
        ("Other seasons", [one for one in heads if one.observance is None and one not in best]),
    ]
    if observances:
        tied = [one for one in best if one.observance is not None]
        tied += [one for one in heads if one.observance is not None and one not in best]
        groups.append(("Holidays and observances, told only where you ask for them", tied))
    return [(name, found) for name, found in groups if found]


def _months(months: Sequence[int]) -> str:
    """The months of a theme in words: a run as from and to, in the order of its season."""
    if len(months) == 12:
        return "all year"
    known = sorted(months)
    first = next((one for one in known if (one - 2) % 12 + 1 not in known), known[0])
    run = [(first + step - 1) % 12 + 1 for step in range(len(known))]
    if set(run) == set(known) and len(run) > 2:
        return f"{month_name[run[0]]} to {month_name[run[-1]]}"
    return ", ".join(month_name[one] for one in (run if set(run) == set(known) else known))
