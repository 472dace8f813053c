"""All that the command line knows is on the page, or README says why it is not."""

import argparse
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from storybank.cli import _parser
from storybank.web import Home, create_app
from storybank.web._wishes import CHANGE, KEYS

README = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
PAGES = {
    "make": "/",
    "week": "/week",
    "new-week": "/week",
    "bank": "/bank",
    "count": "/count",
    "coverage": "/set/coverage?seed=1&count=2",
    "diagnose": "/diagnose",
    "explain": "/explain",
    "list": "/words",
    "new-theme": "/themes/own",
    "check-theme": "/themes/own",
}
"""Where on the page the work of a command is done."""
ON_THE_PAGE = {
    "names": "names-file",
    "template": "template",
    "class": "class",
    "day": "day",
    "all-new": "from",
    "bank": "bank",
}
"""What has another name there, or stands in the body of a form."""


def commands() -> dict[str, argparse.ArgumentParser]:
    """The parsers of all commands by name."""
    for action in _parser()._actions:
        if isinstance(action, argparse._SubParsersAction):
            return dict(action.choices)
    raise AssertionError("there are no commands")


def options(command: argparse.ArgumentParser) -> set[str]:
    """The long options of a command, without dashes."""
    found = {one for action in command._actions for one in action.option_strings}
    return {one.removeprefix("--") for one in found if one.startswith("--")} - {"help"}


def command_line_only() -> str:
    """The table of README that says what is for the command line only."""
    return README.partition("What is for the command line only, and why:")[2].partition("\n## ")[0]


def test_every_command_has_its_page_or_its_reason(tmp_path: Path) -> None:
    pages = TestClient(create_app(Home(tmp_path, tmp_path / "our.bank")))
    for name in commands():
        if name in PAGES:
            assert pages.get(PAGES[name]).status_code == 200, name
        elif name != "serve":
            assert f"`{name}`" in command_line_only(), name


@pytest.mark.parametrize("option", sorted(options(commands()["make"])))
def test_every_wish_for_a_set_is_on_the_page_or_has_its_reason(option: str, tmp_path: Path) -> None:
    if f"--{option}" in command_line_only():
        return
    pages = TestClient(create_app(Home(tmp_path, tmp_path / "our.bank")))
    form = pages.get("/").text
    taking = pages.get("/set?seed=1&count=2").text
    if option == CHANGE:
        assert "change=swap-1" in taking
    elif option in ON_THE_PAGE:
        named = ON_THE_PAGE[option]
        assert f'name="{named}"' in form + taking or f"/{named}/" in taking, option
    else:
        assert option in KEYS
        shown = f'name="{option}"'
        assert shown in form or shown in taking, option


def test_the_names_stand_in_the_body_and_never_in_an_address() -> None:
    assert "names" not in KEYS
