"""The week: its plan as a form, the week that is made of it, and its files."""

import secrets
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from starlette.datastructures import FormData, UploadFile
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from storybank import documents, themes
from storybank.catalog import MAX_BYTES
from storybank.cleaning import clean_text
from storybank.documents import Layout
from storybank.documents import week as week_pages
from storybank.errors import RequestError, StorybankError, unknown_value
from storybank.model.week import PARTS, Week
from storybank.themes import seasons
from storybank.web import _choices, _looks, _numbered
from storybank.web._choosing import HIDDEN
from storybank.web._house import House
from storybank.web._limits import form_of
from storybank.web._open_page import OpenPage, opened
from storybank.web._taking import file_answer, zipped
from storybank.web._week_fields import KEYS, MOST_DAYS, FieldFaults, WeekFields, fields_of
from storybank.web._week_shown import day_cards
from storybank.web._wishes import FieldError, Wishes
from storybank.web._working import worked_on
from storybank.week import Plan, make_week, read_plan_text, starter, with_settings
from storybank.week._plan import DAYS, MOST_OF_A_PART, WARM_UPS

_NAME = "plan"
_FORMATS = ("docx", "html", "json")


def routes(house: House) -> list[Route]:
    """The addresses of the week."""

    async def choose(request: Request) -> Response:
        """The form, with the plan of the address in it, or one to begin with."""
        page, fields, error = await _asked(request)
        if error is not None:
            return _form(house, request, page, fields, error)
        if not fields.values:
            fields = await worked_on(lambda: _to_begin_with(house))
        return _form(house, request, page, fields)

    async def wished(request: Request) -> Response:
        """Goes on to the week; class names go there in the body again, never in the address."""
        form = await form_of(request)
        pairs = [(key, one) for key, one in form.multi_items() if isinstance(one, str)]
        page, fields, text = OpenPage(Wishes()), WeekFields(), ""
        try:
            text = await _pasted(form)
            page = await opened(request)
            if text.strip():
                fields = await worked_on(lambda: _fields_in(text, house))
            else:
                fields = WeekFields.of((key, one) for key, one in pairs if key in KEYS)
                await worked_on(lambda: fields.plan(house))
        except StorybankError as error:
            return _form(house, request, page, fields, error, text)
        finally:
            await form.close()
        if not fields.has("seed"):
            fields = fields.with_(seed=secrets.randbelow(1_000_000))
        return RedirectResponse(f"/week/made?{fields.query}", 307 if page.is_open else 303)

    async def made(request: Request) -> Response:
        """The days of the week with their stories."""
        page, fields, fault = await _asked(request)
        if fault is not None:
            return _form(house, request, page, fields, fault)
        if not fields.has("seed"):
            fields = fields.with_(seed=secrets.randbelow(1_000_000))
            return RedirectResponse(f"/week/made?{fields.query}", 307)
        layout = Layout(**house.usual_layout)
        try:
            week = await worked_on(lambda: make_week(_plan(fields, page, house)), long=True)
        except StorybankError as error:
            return _form(house, request, page, fields, error)
        days = await worked_on(lambda: day_cards(week, fields, layout))
        another = fields.with_(seed=secrets.randbelow(1_000_000))
        return house.page(
            request,
            "week_made.html",
            title=week.title,
            page=page,
            fields=fields,
            week=week,
            days=days,
            another=another,
            layout=layout,
            files=_names(week),
        )

    async def take(request: Request) -> Response:
        """The files of the week that the page shows."""
        page, fields, fault = await _asked(request)
        if fault is not None:
            return _form(house, request, page, fields, fault)
        form = await form_of(request)
        template = await _looks.template_of(form)
        await form.close()
        what = str(form.get("what") or "docx")

        def work(layout: Layout) -> tuple[str, bytes]:
            if what == _NAME:
                return "plan.yaml", fields.as_yaml().encode("utf-8")
            documents.check_template(["docx"], layout)
            return _taken(make_week(_plan(fields, page, house)), layout, what)

        try:
            found = await worked_on(
                lambda: _looks.with_layout(form, house.usual_layout, template, work)
            )
        except StorybankError as error:
            return _form(house, request, page, fields, error)
        return file_answer(*found)

    return [
        Route("/week", choose, methods=["GET", "POST"]),
        Route("/week/choose", wished, methods=["POST"]),
        Route("/week/made", made, methods=["GET", "POST"]),
        Route("/week/take", take, methods=["POST"]),
    ]


async def _asked(request: Request) -> tuple[OpenPage, WeekFields, FieldError | None]:
    """The open page, its fields, and what cannot be read of them."""
    pairs = request.query_params.multi_items()
    page, fields = OpenPage(Wishes()), WeekFields()
    try:
        page = await opened(request, without=[key for key, _ in pairs])
        fields = WeekFields.of(pairs)
    except FieldError as error:
        return page, fields, error
    return page, fields, None


async def _pasted(form: FormData) -> str:
    """The text of a plan of one's own, pasted or in a file."""
    upload = form.get("plan-file")
    if isinstance(upload, UploadFile) and upload.size:
        data = await upload.read()
        return data.decode("utf-8-sig", errors="replace")
    text = form.get("plan")
    return text.replace("\r\n", "\n") if isinstance(text, str) else ""


def _fields_in(text: str, house: House) -> WeekFields:
    if len(text.encode("utf-8", "replace")) > MAX_BYTES:
        raise RequestError(
            f"The plan has more than {MAX_BYTES:,} bytes, the most that is read. Paste one plan."
        )
    return fields_of(
        read_plan_text(text, name=_NAME, group=house.group, own_themes=house.own_themes())
    )


def _to_begin_with(house: House) -> WeekFields:
    """The plan to begin with, with the themes of this season and luck that is drawn."""
    plan = read_plan_text(starter("plan.yaml"))
    free = [
        one.id
        for one in seasons.best_first(themes.headers(), house.today())
        if one.observance is None
    ]
    return fields_of(replace(plan, theme=tuple(free[:2]) or plan.theme, seed=None))


def _plan(fields: WeekFields, page: OpenPage, house: House) -> Plan:
    """The plan with the names of the open page, and what the settings say."""
    plan = fields.plan(house)
    roster = page.roster()
    if roster is not None:
        said = {key: one for key, one in plan.request.items() if key != "names_from"}
        plan = replace(plan, request={**said, "names": roster})
    return with_settings(plan, house.home.settings)


def _names(week: Week) -> list[str]:
    """The names of the pages of a week, without suffix."""
    days = {day.id: day.pages for day in week.days}
    return list(week_pages.names(days, week.groups, whole=True))


def _taken(week: Week, layout: Layout, what: str) -> tuple[str, bytes]:
    """The name and the bytes of what was asked for: a zip of a format, all of them, or a page."""
    if what == "all":
        return "storybank-week.zip", zipped(week_pages.files(week, layout, ("docx", "json")))
    if what in _FORMATS:
        return f"storybank-week-{what}.zip", zipped(week_pages.files(week, layout, (what,)))
    if what not in _names(week):
        raise RequestError(
            unknown_value("file to take", clean_text(what, 60)[0], ("all", _NAME, *_FORMATS))
        )
    page = week_pages.pages(week, layout)[what]
    return next(iter(documents.render_pages({what: page}, ("docx",), layout).items()))


def _form(
    house: House,
    request: Request,
    page: OpenPage,
    fields: WeekFields,
    error: StorybankError | None = None,
    text: str = "",
) -> Response:
    """The form with the fields in it, and what is wrong with them beside the field."""
    hidden = request.cookies.get(HIDDEN) == "hidden"
    observed = {one.id for one in themes.headers() if one.observance is not None}
    tied = not observed.isdisjoint(fields.all("theme"))
    faults = dict(_by_field(error, bool(text.strip())))
    said = str(error).split("\n") if error is not None and text.strip() else []
    by_line = _numbered.by_line(said)
    values: dict[str, Any] = {
        "title": "A week",
        "page": page,
        "fields": fields,
        "faults": faults,
        "text": text,
        "by_line": by_line,
        "numbered": _numbered.numbered(text) if by_line else [],
        "most_days": MOST_DAYS,
        "weekdays": DAYS,
        "parts": PARTS,
        "part_names": _PART_NAMES,
        "most_of_a_part": MOST_OF_A_PART,
        "warm_ups": WARM_UPS,
        "themes": _choices.theme_choices(house, observances=not hidden or tied),
        "strategies": _choices.strategy_choices(),
        "grid": _choices.situation_grid(),
        "levels": _choices.level_choices(),
        "subjects": _choices.subject_choices(),
        "units": _choices.UNITS,
        "page_kinds": _choices.page_choices(),
        "name_lists": _choices.name_choices(),
    }
    return house.page(request, "week.html", 400 if error is not None else 200, **values)


_PART_NAMES: Mapping[str, str] = {
    "review": "Look back",
    "model": "Worked aloud",
    "together": "Together",
    "alone": "On their own",
    "exit": "Exit ticket",
    "home": "At home",
}


def _by_field(error: StorybankError | None, pasted: bool) -> list[tuple[str, str]]:
    if error is None or pasted:
        return []
    if isinstance(error, FieldFaults):
        return list(error.found)
    if isinstance(error, FieldError):
        return [(error.field, str(error))]
    return [("", str(error))]
