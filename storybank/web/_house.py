"""What all pages share: the teacher's home with its themes and settings, and the templates."""

from collections.abc import Iterable, Mapping
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from pathlib import Path
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined, select_autoescape
from markupsafe import Markup
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response

from storybank import documents, themes
from storybank.documents._page import Block
from storybank.errors import StorybankError
from storybank.version import VERSION
from storybank.web._home import Home
from storybank.week import usual_group

_REQUEST_KEYS = ("festivals", "without", "vocabulary", "names", "names_from", "within", "standards")
_LAYOUT_KEYS = ("paper", "large_print", "font", "template")


@dataclass(frozen=True)
class House:
    """A teacher's home as the pages see it; `today` is asked for the day."""

    home: Home
    today: Any = date.today

    @cached_property
    def usual_request(self) -> Mapping[str, Any]:
        """What her settings say of every set."""
        return self._said(_REQUEST_KEYS)

    @cached_property
    def usual_layout(self) -> Mapping[str, Any]:
        """What her settings say of every page."""
        said = self._said(_LAYOUT_KEYS)
        return {**said, **({"template": Path(said["template"])} if "template" in said else {})}

    @property
    def group(self) -> str:
        """The level of English that her settings say, else the usual one."""
        return usual_group(self.home.settings)

    def _said(self, keys: tuple[str, ...]) -> Mapping[str, Any]:
        settings = self.home.settings
        if settings is None:
            return {}
        said = {key: getattr(settings, key) for key in keys}
        return {key: one for key, one in said.items() if one not in (None, ())}

    def own_themes(self) -> dict[str, str]:
        """Her own themes: the file of each by its name."""
        folder = self.home.themes
        if not folder.is_dir():
            return {}
        ours = set(themes.ids())
        return {
            path.stem: str(path) for path in sorted(folder.glob("*.yaml")) if path.stem not in ours
        }

    def open_own(self, wanted: Iterable[str]) -> None:
        """Nothing; her own themes of those ids are found by their id from now on.

        A finished problem knows its theme by the id alone; one that has faults is left closed.
        """
        own = self.own_themes()
        for name in set(wanted) & set(own):
            with suppress(StorybankError):
                themes.get(own[name])

    @cached_property
    def templates(self) -> Environment:
        """The templates of the pages; everything that is put in is escaped."""
        made = Environment(
            loader=PackageLoader("storybank.web"),
            autoescape=select_autoescape(default=True),
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
        )
        made.globals.update(blocks=blocks_as_html, version=VERSION)
        return made

    def page(
        self, request: Request, template: str, status: int = 200, /, **values: Any
    ) -> Response:
        """The page of a template."""
        made = self.templates.get_template(template)
        values.setdefault("title", "Storybank")
        values["here"] = request.url.path
        values["can_stop"] = self.home.stop is not None
        return HTMLResponse(made.render(**values), status)

    def error_page(self, request: Request, status: int, title: str, text: str) -> Response:
        """The page of an error, without anything of what was sent."""
        return self.page(request, "error.html", status, title=title, text=text)


def blocks_as_html(blocks: tuple[Block, ...]) -> Markup:
    """Blocks of the page model as HTML; the writer of documents has escaped their texts."""
    return Markup(documents.fragments(blocks))
