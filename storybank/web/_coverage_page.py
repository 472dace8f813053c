"""What a set covers: the counts of its situations, operations, strategies, standards, words."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from markupsafe import Markup
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from storybank import coverage, documents, standards
from storybank.documents import Layout, _coverage
from storybank.documents._page import Block, Heading, Table
from storybank.errors import StorybankError
from storybank.model import Problem
from storybank.model.coverage import Coverage
from storybank.web import _looks
from storybank.web._cards import summary
from storybank.web._choosing import fault_from, form_page
from storybank.web._house import House, blocks_as_html
from storybank.web._limits import form_of
from storybank.web._sets import opened_set
from storybank.web._taking import file_answer
from storybank.web._working import worked_on

_NAME = "coverage"


@dataclass(frozen=True, slots=True)
class Part:
    """A stretch of the page; a table has the heading above it as its label."""

    html: Markup
    label: str = ""


def routes(house: House) -> list[Route]:
    """The addresses of the coverage of a set."""

    async def show(request: Request) -> Response:
        """The counts, as tables."""
        found = await opened_set(house, request)
        if isinstance(found, Response):
            return found
        page, revised = found
        try:
            layout = Layout(**house.usual_layout)
            counted = await worked_on(lambda: _counted(house, revised.problem_set.problems))
        except StorybankError as error:
            return form_page(house, request, page, fault_from(error, page, house), 400)
        values: dict[str, Any] = {
            "page": page,
            "wishes": page.wishes,
            "summary": summary(revised),
            "parts": parts(_coverage.blocks(counted, layout)),
            "layout": layout,
        }
        return house.page(request, "coverage.html", title=_coverage.TITLE, **values)

    async def take(request: Request) -> Response:
        """The counts as a document."""
        found = await opened_set(house, request)
        if isinstance(found, Response):
            return found
        page, revised = found
        form = await form_of(request)
        template = await _looks.template_of(form)
        await form.close()
        suffix = "html" if form.get("what") == "html" else "docx"

        def work(layout: Layout) -> tuple[str, bytes]:
            documents.check_template([suffix], layout)
            counted = _counted(house, revised.problem_set.problems)
            pages = {_NAME: _coverage.page(counted, layout)}
            return next(iter(documents.render_pages(pages, (suffix,), layout).items()))

        try:
            name, data = await worked_on(
                lambda: _looks.with_layout(form, house.usual_layout, template, work)
            )
        except StorybankError as error:
            return form_page(house, request, page, fault_from(error, page, house), 400)
        return file_answer(name, data)

    return [
        Route("/set/coverage", show, methods=["GET", "POST"]),
        Route("/set/coverage/take", take, methods=["POST"]),
    ]


def parts(blocks: Sequence[Block]) -> list[Part]:
    """The blocks as they stand in a page, tables apart from what is around them."""
    found: list[Part] = []
    last = ""
    for block in blocks:
        if isinstance(block, Heading):
            last = block.text
        label = last if isinstance(block, Table) else ""
        found.append(Part(blocks_as_html((block,)), label))
    return found


def _counted(house: House, problems: Sequence[Problem]) -> Coverage:
    """What problems cover, with the codes of the state that the settings name."""
    file = house.usual_request.get("standards")
    return coverage.coverage(problems, None if file is None else standards.read(Path(file)))
