"""The teacher's page: choose, read, swap, download; everything stays on this machine."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

from starlette.applications import Starlette
from starlette.routing import Mount
from starlette.staticfiles import StaticFiles

from storybank.web import (
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

__all__ = ["Home", "create_app"]

_PARTS = (
    _choosing,
    _sets,
    _taking,
    _explaining,
    _week_page,
    _words_page,
    _theme_pages,
    _count_page,
    _coverage_page,
    _diagnose_page,
)
_STATIC = Path(__file__).parent / "static"


def create_app(home: Home, today: Callable[[], date] = date.today) -> Starlette:
    """The pages of a teacher's home; `today` says the day, for the themes in season.

    They are served only behind the guard of `_serve`, which checks who asks.
    """
    house = House(home, today)
    routes = [route for part in _PARTS for route in part.routes(house)]
    return Starlette(routes=[*routes, Mount("/static", StaticFiles(directory=_STATIC))])
