"""The teacher's page: choose, read, swap, download; everything stays on this machine."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.routing import Mount
from starlette.staticfiles import StaticFiles

from storybank.web import (
    _bank_care,
    _bank_classes,
    _bank_files,
    _bank_keeping,
    _bank_pages,
    _choosing,
    _count_page,
    _coverage_page,
    _diagnose_page,
    _explaining,
    _sets,
    _taking,
    _theme_pages,
    _week_page,
    _words_page,
)
from storybank.web._home import Home
from storybank.web._house import House
from storybank.web._limits import ClosedForms

__all__ = ["Home", "create_app"]

_BANK = (_bank_pages, _bank_keeping, _bank_classes, _bank_files, _bank_care)
_OTHERS = (
    _explaining,
    _week_page,
    _words_page,
    _theme_pages,
    _count_page,
    _coverage_page,
    _diagnose_page,
)
_PARTS = (_choosing, _sets, _taking, *_BANK, *_OTHERS)
_STATIC = Path(__file__).parent / "static"


def create_app(home: Home, today: Callable[[], date] = date.today) -> Starlette:
    """The pages of a teacher's home; `today` says the day, for the themes in season.

    They are served only behind the guard of `_serve`, which checks who asks.
    """
    house = House(home, today)
    routes = [route for part in _PARTS for route in part.routes(house)]
    app = Starlette(
        routes=[*routes, Mount("/static", StaticFiles(directory=_STATIC))],
        middleware=[Middleware(ClosedForms)],
    )
    app.state.limits = {
        path: most for part in _PARTS for path, most in getattr(part, "LIMITS", {}).items()
    }
    app.state.render_error = house.error_page
    return app
