"""Counting warm-ups: chosen, shown with what to say, and taken along."""

import secrets
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlencode

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from storybank import counting, documents
from storybank.cleaning import clean_text
from storybank.documents import Layout, _counting
from storybank.errors import RequestError, StorybankError, unknown_value
from storybank.luck import checked_seed
from storybank.model.counting import Count
from storybank.web import _looks
from storybank.web._house import House, blocks_as_html
from storybank.web._limits import form_of
from storybank.web._taking import file_answer, zipped
from storybank.web._wishes import FieldError
from storybank.web._working import worked_on

_ONE = ("from", "steps", "within", "count", "seed")
_KEYS = ("by", *_ONE, "back")
_NAMED = {
    "by": "Count by",
    "from": "The first number",
    "steps": "How many numbers",
    "within": "The largest number",
    "count": "How many warm-ups",
    "seed": "Luck",
}
_FORMATS = ("docx", "html")


@dataclass(frozen=True)
class Asked:
    """What an address asks for, as it was typed."""

    values: Sequence[tuple[str, str]]

    @classmethod
    def of(cls, pairs: Sequence[tuple[str, str]]) -> "Asked":
        """What is asked for, in our order, without what is empty or no key of ours."""
        cut = [(key, value.strip()[:40]) for key, value in pairs]
        return cls([(key, one) for name in _KEYS for key, one in cut if key == name and one])

    def all(self, key: str) -> list[str]:
        """The values under a key."""
        return [one for name, one in self.values if name == key]

    def get(self, key: str) -> str:
        """The last value under a key, or nothing."""
        return (self.all(key) or [""])[-1]

    def with_seed(self, seed: int) -> "Asked":
        """The same with other luck."""
        kept = [(key, one) for key, one in self.values if key != "seed"]
        return Asked.of([*kept, ("seed", str(seed))])

    @property
    def query(self) -> str:
        """What is asked for as the query of an address."""
        return urlencode(list(self.values))

    def counts(self) -> tuple[Count, ...]:
        """The warm-ups. Raises FieldError for what is no number, RequestError otherwise."""
        by = [_number("by", one) for one in self.all("by")[:20]]
        told = {key: _number(key, self.get(key)) for key in _ONE if self.get(key)}
        if "from" in told and not by:
            raise FieldError(
                "by", f"Choose what to count by, so that a count can begin at {told['from']}."
            )
        wish = counting.Wish(
            by=tuple(by),
            start=told.get("from"),
            back=bool(self.get("back")),
            steps=told.get("steps"),
            within=told.get("within", 1000),
            count=told.get("count"),
        )
        return counting.asked_for(wish, checked_seed(told.get("seed", 0)))


def routes(house: House) -> list[Route]:
    """The addresses of the warm-ups."""

    async def show(request: Request) -> Response:
        """The form, and the warm-ups that the address asks for."""
        asked = Asked.of(request.query_params.multi_items())
        if not asked.values and not request.query_params:
            return page(request, asked)
        if not asked.get("seed"):
            return RedirectResponse(
                f"/count?{asked.with_seed(secrets.randbelow(1_000_000)).query}", 307
            )
        try:
            counts = await worked_on(asked.counts)
        except StorybankError as error:
            return page(request, asked, error)
        return page(request, asked, counts=counts)

    async def take(request: Request) -> Response:
        """The files of the warm-ups that the page shows."""
        asked = Asked.of(request.query_params.multi_items())
        form = await form_of(request)
        template = await _looks.template_of(form)
        await form.close()
        what = str(form.get("what") or "all")
        try:
            found = await worked_on(
                lambda: _looks.with_layout(
                    form, house.usual_layout, template, lambda looks: _taken(asked, looks, what)
                )
            )
        except StorybankError as error:
            return page(request, asked, error)
        return file_answer(*found)

    def page(
        request: Request,
        asked: Asked,
        error: StorybankError | None = None,
        counts: Sequence[Count] = (),
    ) -> Response:
        layout = Layout(**house.usual_layout)
        values: dict[str, Any] = {
            "title": "Counting",
            "asked": asked,
            "fault": str(error) if error is not None else "",
            "field": error.field if isinstance(error, FieldError) else "",
            "sizes": counting.SIZES,
            "usual": counting.USUAL_COUNT,
            "shown": blocks_as_html(tuple(_counting.for_teacher(counts, layout))),
            "asked_of_children": blocks_as_html(tuple(_counting.for_children(counts, layout))),
            "counts": counts,
            "another": asked.with_seed(secrets.randbelow(1_000_000)),
            "layout": layout,
        }
        return house.page(request, "count.html", 400 if error is not None else 200, **values)

    return [Route("/count", show), Route("/count/take", take, methods=["POST"])]


def _taken(asked: Asked, layout: Layout, what: str) -> tuple[str, bytes]:
    """The name and the bytes of what was asked for: all files, or one as `count-key.docx`."""
    documents.check_template(["docx"], layout)
    pages = _counting.pages(asked.counts(), layout)
    if what == "all":
        return "storybank-count.zip", zipped(documents.render_pages(pages, _FORMATS, layout))
    name, _, suffix = what.partition(".")
    if name not in pages or suffix not in _FORMATS:
        names = [f"{one}.{suffix}" for one in pages for suffix in _FORMATS]
        raise RequestError(unknown_value("file to take", clean_text(what, 60)[0], ("all", *names)))
    files = documents.render_pages({name: pages[name]}, (suffix,), layout)
    return next(iter(files.items()))


def _number(key: str, text: str) -> int:
    if not (text.isascii() and text.isdigit() and len(text) <= 19):
        raise FieldError(
            key, f'{_NAMED[key]}: "{clean_text(text, 40)[0]}" is no whole number. Write digits.'
        )
    return int(text)
