"""A teacher's settings hold on the page as on the command line."""

from pathlib import Path

from starlette.testclient import TestClient

from storybank import settings
from storybank.web import Home, create_app


def page(folder: Path, text: str) -> TestClient:
    """The pages of a home with these settings."""
    (folder / "storybank.yaml").write_text(text, encoding="utf-8")
    found = settings.read(folder / "storybank.yaml")
    home = Home(folder, folder / "our.bank", found)
    return TestClient(create_app(home), base_url="http://127.0.0.1:8420")


def test_a_level_of_her_own_is_offered_and_used(tmp_path: Path) -> None:
    (tmp_path / "my-district.yaml").write_text("like: level-2\nstatement_words: 11\n", "utf-8")
    pages = page(tmp_path, "vocabulary: my-district.yaml\n")
    form = pages.get("/").text
    assert "my-district" in form
    assert 'name="vocabulary" value="" checked' in form
    taken = pages.post("/take?seed=3&count=2", data={"what": "json"}).json()
    assert taken["request"]["vocabulary"] == "my-district"
    other = pages.post("/take?seed=3&count=2&vocabulary=level-4", data={"what": "json"}).json()
    assert other["request"]["vocabulary"] == "level-4"


def test_limit_subjects_names_and_paper_of_the_settings_hold(tmp_path: Path) -> None:
    (tmp_path / "class.txt").write_text("Zubeida\nZoltan\nZawadi\n", "utf-8")
    pages = page(
        tmp_path, "within: 20\nwithout: [sweets]\nnames: class.txt\npaper: a4\nlarge_print: yes\n"
    )
    taken = pages.post("/take?seed=3&count=6", data={"what": "json"}).json()
    assert taken["request"]["within"] == 20
    assert taken["request"]["without"] == ["sweets"]
    assert taken["request"]["names"] == "class.txt"
    names = {name for one in taken["problems"] for name in one["people"]}
    assert names & {"Zubeida", "Zoltan", "Zawadi"}
    printed = pages.post("/take?seed=3&count=2", data={"what": "html"}).text
    assert "size: 595.3pt" in printed
    wider = pages.post("/take?seed=3&count=2&within=100", data={"what": "json"}).json()
    assert wider["request"]["within"] == 100
