"""Taking the set along: Word files of every kind of page, a page to print, a table, JSON."""

import io
import zipfile
from collections.abc import Mapping
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any

from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from storybank import documents
from storybank.documents import Layout, kinds
from storybank.errors import RequestError, StorybankError, unknown_value
from storybank.model import ProblemSet
from storybank.web._cards import is_large
from storybank.web._choosing import fault_from, form_page
from storybank.web._headers import PRINT_POLICY
from storybank.web._house import House
from storybank.web._limits import form_of
from storybank.web._looks import lying_somewhere, template_of
from storybank.web._open_page import OpenPage, made, opened
from storybank.web._wishes import Wishes
from storybank.web._working import worked_on

TYPES = {
    ".docx": "application/vnd.openxmlformats-officedocument.wordprocessingml.document",
    ".html": "text/html; charset=utf-8",
    ".csv": "text/csv; charset=utf-8",
    ".json": "application/json",
    ".yaml": "application/yaml",
    ".zip": "application/zip",
}
"""The media types of what can be taken (IANA registry; from memory)."""
_LOOKS = ("paper", "font", "lines", "unknown", "drawings", "large-print", "pages")
_ALL = "all"
LIMITS = {"/take": 12 << 20}
"""A school's Word file comes along here."""
_EPOCH = (1980, 1, 1, 0, 0, 0)


def routes(house: House) -> list[Route]:
    """The address of what is taken."""

    async def take(request: Request) -> Response:
        """The file that was asked for, made of exactly what the page shows."""
        page = OpenPage(Wishes())
        try:
            page = await opened(request)
            form = await form_of(request, files=2)
            wishes = _with_looks(page.wishes, form)
            template = await template_of(form)
            what = str(form.get("what") or _ALL)

            def work() -> tuple[str, bytes]:
                revised = made(page, house)
                return _taken(revised.problem_set, wishes, house.usual_layout, what, template)

            name, data = await worked_on(work, long=what == _ALL or is_large(wishes))
        except StorybankError as error:
            fault = await worked_on(partial(fault_from, error, page, house))
            return form_page(house, request, page, fault, 400)
        return file_answer(name, data)

    return [Route("/take", take, methods=["POST"])]


def file_answer(name: str, data: bytes) -> Response:
    """A file to be saved, or the page to print, to be shown. `name` is ours, never a user's."""
    suffix = Path(name).suffix
    answer = Response(data, media_type=TYPES[suffix])
    if suffix == ".html":
        answer.headers["Content-Security-Policy"] = PRINT_POLICY
    else:
        answer.headers["Content-Disposition"] = f'attachment; filename="{name}"'
    return answer


def zipped(files: Mapping[str, bytes]) -> bytes:
    """The files in one archive, the same bytes for the same files."""
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in files.items():
            archive.writestr(zipfile.ZipInfo(name, _EPOCH), data)
    return buffer.getvalue()


def _with_looks(wishes: Wishes, form: FormData) -> Wishes:
    """The wishes with the looks chosen where the set is taken, which win over the address's."""
    if not any(key in form for key in _LOOKS):
        return wishes
    chosen: dict[str, Any] = {key.replace("-", "_"): None for key in _LOOKS}
    for key in _LOOKS:
        values = [one for one in form.getlist(key) if isinstance(one, str) and one]
        if values:
            chosen[key.replace("-", "_")] = values
    return wishes.with_(**chosen)


def _taken(
    made_set: ProblemSet,
    wishes: Wishes,
    usual: Mapping[str, Any],
    what: str,
    template: bytes | None,
) -> tuple[str, bytes]:
    """The name and the bytes of what was asked for."""
    with lying_somewhere(template) as school:
        return _rendered(made_set, wishes.layout(usual, **school), what)


def _rendered(made_set: ProblemSet, layout: Layout, what: str) -> tuple[str, bytes]:
    if what in kinds.ids():
        one = replace(layout, pages=(what,))
        documents.check_template(["docx"], one)
        files = documents.render(made_set, "docx", one)
        if len(files) == 1:
            return next(iter(files.items()))
        return f"{what}.zip", zipped(files)
    if what in ("html", "csv", "json"):
        return next(iter(documents.render(made_set, what, layout).items()))
    if what != _ALL:
        raise RequestError(
            unknown_value("file to take", what, (_ALL, *kinds.ids(), "html", "csv", "json"))
        )
    documents.check_template(["docx"], layout)
    contents: dict[str, bytes] = {}
    for name in ("docx", "html", "csv", "json"):
        contents.update(documents.render(made_set, name, layout))
    return "storybank-set.zip", zipped(contents)
