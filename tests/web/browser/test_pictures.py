"""README shows the page as it is now: its pictures are made again and compared."""

from pathlib import Path

from documents.test_readme_pictures import NEAR, README, difference
from playwright.sync_api import Browser
from web.browser import pictures
from web.browser.running import Server

FOLDER = Path(__file__).parents[3] / "output_examples"
LARGEST = 60_000


def test_the_pictures_show_the_page_of_today(
    browser: Browser, server: Server, tmp_path: Path
) -> None:
    made = pictures.for_readme(browser, server.address, tmp_path)
    assert [one.stem for one in made] == list(pictures.README)
    for picture in made:
        shown = FOLDER / picture.name
        assert f"output_examples/{picture.name}" in README.read_text(encoding="utf-8")
        assert shown.stat().st_size < LARGEST
        assert difference(picture, shown) < NEAR, picture.name
        # The measure tells pages apart: each is nearest to its own picture.
        others = [difference(picture, one) for one in made if one != picture]
        assert min(others) > difference(picture, shown)
