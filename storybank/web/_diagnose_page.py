"""What wrong answers agree with: a set and a table of answers, of which nothing is stored."""

import shlex
import tempfile
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TypeVar

from markupsafe import Markup
from starlette.datastructures import FormData, UploadFile
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from storybank import diagnosis, documents
from storybank.documents import Layout, _diagnosis
from storybank.documents._page import Block, Page, Paragraph, Title
from storybank.errors import AnswersError, StorybankError
from storybank.people.tables import decode
from storybank.web import _looks
from storybank.web._cards import summary
from storybank.web._coverage_page import Part, parts
from storybank.web._house import House
from storybank.web._limits import form_of
from storybank.web._open_page import OpenPage
from storybank.web._sets import opened_set
from storybank.web._taking import file_answer
from storybank.web._wishes import FieldError, Wishes
from storybank.web._working import worked_on

T = TypeVar("T")
LIMITS = {"/diagnose": 16 << 20}
"""A set and a table of answers come along here."""
_SET, _ANSWERS, _PAGE = "set.json", "answers.csv", "diagnosis"


@dataclass(frozen=True)
class Given:
    """What came to be looked at: a set as JSON and a table, as bytes.

    Where the set is that of the address, `page` is its open page and `told` says what it is.
    """

    page: OpenPage = field(default_factory=lambda: OpenPage(Wishes()))
    told: str = ""
    problems: bytes = b""
    answers: bytes = b""

    @property
    def of_address(self) -> bool:
        """Whether the set need not be sent along."""
        return bool(self.told)

    def read(self, work: Callable[[Path, Path], T]) -> T:
        """What `work` gives of the two files, which lie under names of ours for so long."""
        if not self.problems:
            raise AnswersError(
                "No set was given. Choose the set.json that was taken along with the stories."
            )
        with tempfile.TemporaryDirectory() as folder:
            files = Path(folder) / _SET, Path(folder) / _ANSWERS
            files[0].write_bytes(self.problems)
            files[1].write_bytes(self.answers)
            return work(*files)

    def diagnosed(self) -> Page:
        """The page of what the answers agree with. Raises AnswersError."""
        if self.problems and not self.answers.strip():
            raise AnswersError(
                "No answers were given. Choose the table that was filled in, or paste it: a row a "
                "child, the name or number first, then the answer to each problem."
            )
        return self.read(lambda one, two: _diagnosis.page(diagnosis.diagnose(one, two)))

    def form(self) -> bytes:
        """The table to fill in. Raises AnswersError."""
        text = self.read(lambda one, _: diagnosis.text_of_form(diagnosis.read_set(one)))
        return text.encode("utf-8-sig")


def routes(house: House) -> list[Route]:
    """The addresses of the diagnosis."""

    async def show(request: Request) -> Response:
        """The form, and what the answers agree with once they were sent."""
        given, form = await _given(house, request)
        if isinstance(given, Response):
            return given
        if form is None or form.get("do") != "look":
            return page(request, given)
        try:
            found = await worked_on(given.diagnosed)
        except StorybankError as error:
            return page(request, given, str(error))
        return page(request, given, found=_shown(found))

    async def to_fill(request: Request) -> Response:
        """The table to fill in, with the codes of the set."""
        given, _ = await _given(house, request)
        if isinstance(given, Response):
            return given
        try:
            return file_answer(_ANSWERS, await worked_on(given.form))
        except StorybankError as error:
            return page(request, given, str(error))

    async def take(request: Request) -> Response:
        """What the answers agree with, as a document."""
        given, form = await _given(house, request)
        if isinstance(given, Response) or form is None:
            return given if isinstance(given, Response) else page(request, given)
        suffix = "html" if form.get("what") == "html" else "docx"

        def work(layout: Layout) -> tuple[str, bytes]:
            pages = {_PAGE: given.diagnosed()}
            return next(iter(documents.render_pages(pages, (suffix,), layout).items()))

        try:
            found = await worked_on(
                lambda: _looks.with_layout(form, house.usual_layout, None, work)
            )
        except StorybankError as error:
            return page(request, given, str(error))
        return file_answer(*found)

    def page(
        request: Request, given: Given, fault: str = "", found: list[Part] | None = None
    ) -> Response:
        values: dict[str, Any] = {
            "title": "What wrong answers tell",
            "page": given.page,
            "given": given,
            "query": given.page.wishes.query if given.of_address else "",
            "fault": fault,
            "found": found or [],
            "problems": "" if given.of_address else _as_text(given.problems),
            "answers": _as_text(given.answers),
            "layout": Layout(**house.usual_layout),
        }
        return house.page(request, "diagnose.html", 400 if fault else 200, **values)

    return [
        Route("/diagnose", show, methods=["GET", "POST"]),
        Route("/diagnose/form", to_fill, methods=["POST"]),
        Route("/diagnose/take", take, methods=["POST"]),
    ]


async def _given(
    house: House, request: Request
) -> tuple[Given, FormData | None] | tuple[Response, None]:
    """What came: the set of the address or the one that was sent, and the answers."""
    form = None if request.method == "GET" else await form_of(request, files=2)
    page, told, problems = OpenPage(Wishes()), "", b""
    if request.query_params:
        opened = await opened_set(house, request)
        if isinstance(opened, Response):
            return opened, None
        page, revised = opened
        told, problems = summary(revised), revised.problem_set.to_text().encode("utf-8")
    answers = b""
    if form is not None:
        problems = problems or await _sent(form, "set")
        answers = await _sent(form, "answers")
        await form.close()
    return Given(page, told, problems, answers), form


async def _sent(form: FormData, name: str) -> bytes:
    """The bytes of a file of the form, else of what was pasted for it."""
    upload, text = form.get(f"{name}-file"), form.get(f"{name}-text")
    if isinstance(upload, UploadFile) and upload.size:
        return await upload.read()
    return text.encode("utf-8", errors="replace") if isinstance(text, str) and text.strip() else b""


def _as_text(data: bytes) -> str:
    """Bytes as the text of a field, in whatever encoding they came; nothing of what is no text."""
    try:
        return decode(data, "the file")[0].replace("\0", "") if data else ""
    except StorybankError:
        return ""


def _shown(page: Page) -> list[Part]:
    """The page without its title; where it names a command, the address that asks for the same."""
    found: list[Part] = []
    before: list[Block] = []
    for block in page.flat():
        if isinstance(block, Paragraph) and block.lead == _diagnosis.GIVE_NEXT:
            found += [*parts(before), Part(_link(block.text))]
            before = []
        elif not isinstance(block, Title):
            before.append(block)
    return [*found, *parts(before)]


def _link(command: str) -> Markup:
    """A link to the form with the wishes of a command filled in."""
    said: dict[str, list[str]] = {}
    key = ""
    for one in shlex.split(command)[2:]:
        if one.startswith("--"):
            key = one.removeprefix("--")
            said[key] = []
        else:
            said[key].append(one)
    try:
        wishes = Wishes.of((name, one) for name, told in said.items() for one in told or ["yes"])
    except FieldError:
        return Markup("<p><code>{}</code></p>").format(command)
    return Markup('<p><a class="action" href="/?{}">Choose stories to give next</a></p>').format(
        wishes.query
    )
