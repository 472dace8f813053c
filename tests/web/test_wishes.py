"""The address of a set: every one is read or refused, and read again it says the same."""

from pathlib import Path
from urllib.parse import parse_qsl

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from starlette.testclient import TestClient

from storybank.web import Home, create_app
from storybank.web._wishes import KEYS, FieldError, Wishes

HOSTILE = (
    "../../../../etc/passwd", "/etc/passwd", "C:\\windows\\win.ini", "x.yaml",
    "<script>alert(1)</script>", "' OR 1=1 --", "{{ 7*7 }}", "${7*7}", "%00", "\0",
    "\r\nSet-Cookie: a=b", "\N{RIGHT-TO-LEFT OVERRIDE}", "9" * 190, "-1", "1e9", "0x10",
    "\N{ARABIC-INDIC DIGIT FIVE}", "NaN", "", " ", "a" * 199, "a,b;c",
)  # fmt: skip
pairs = some.lists(
    some.tuples(
        some.one_of(some.sampled_from(KEYS), some.text(max_size=12)),
        some.one_of(
            some.text(max_size=40),
            some.sampled_from(HOSTILE),
            some.sampled_from(("any", "count-up", "join-start-unknown", "level-2", "swap-2", "7")),
        ),
    ),
    max_size=8,
)


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> TestClient:
    folder = tmp_path_factory.mktemp("home")
    return TestClient(
        create_app(Home(folder, folder / "our.bank")),
        base_url="http://127.0.0.1:8420",
        follow_redirects=False,
        raise_server_exceptions=True,
    )


@given(pairs)
def test_an_address_read_again_says_the_same(said: list[tuple[str, str]]) -> None:
    try:
        wishes = Wishes.of(said)
    except FieldError:
        return
    assert Wishes.of(parse_qsl(wishes.query)) == wishes
    assert set(wishes.values) <= set(KEYS)


@settings(max_examples=60, deadline=None)
@given(pairs)
def test_any_address_gives_a_page_or_a_kind_word(
    page: TestClient, said: list[tuple[str, str]]
) -> None:
    given_count = [("count", "3"), ("seed", "1")]
    answer = page.get("/set", params=[*said, *given_count])
    assert answer.status_code in (200, 400)
    assert "Traceback" not in answer.text
    assert "<script>alert" not in answer.text


@pytest.mark.parametrize("key", KEYS)
def test_every_field_takes_every_hostile_value(page: TestClient, key: str, tmp_path: Path) -> None:
    """No file is read, nothing is written into the page as it is, nothing falls over."""
    for value in HOSTILE:
        said = {"count": "2", "seed": "1", key: value}
        for address in ("/set", "/", "/check", "/board"):
            answer = page.get(address, params=said)
            assert answer.status_code in (200, 303, 307, 400), (address, key, value)
            assert "root:" not in answer.text
            # The form puts what /check says into the page as plain text, never as HTML.
            plain = answer.headers.get("content-type", "").startswith("application/json")
            assert plain == (address == "/check")
            assert plain or "<script>alert" not in answer.text
            assert "a=b" not in str(answer.headers.get("set-cookie", ""))


def test_a_theme_is_no_file_of_this_machine(page: TestClient, tmp_path: Path) -> None:
    pack = tmp_path / "mine.yaml"
    pack.write_text("title: x", encoding="utf-8")
    for key in ("theme", "vocabulary", "names-from"):
        answer = page.get("/set", params={"seed": "1", key: str(pack)})
        assert answer.status_code == 400
        assert "is no name that this page knows" in answer.text
