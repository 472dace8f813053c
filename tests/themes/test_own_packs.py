"""Sets from a pack of one's own, named by its file."""

import json
from pathlib import Path

import pytest
from themes.broken import BROKEN

from storybank import Request, make_set, themes
from storybank.errors import PackError, RequestError
from storybank.themes.starter import starter

WISH = {"strategy": ["any"], "count": 24, "seed": 4}


def own(folder: Path, name: str = "my-garden") -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"{name}.yaml"
    path.write_text(starter(name), encoding="utf-8")
    return path


def test_a_set_from_a_pack_by_path_holds_its_id_and_never_the_path(tmp_path: Path) -> None:
    made = make_set(Request(theme=[str(own(tmp_path))], **WISH)).to_json()
    assert made["request"]["theme"] == ["my-garden"]
    assert {problem["theme"] for problem in made["problems"]} == {"my-garden"}
    assert {problem["scene"] for problem in made["problems"]} <= {"scene-a", "scene-b"}
    assert str(tmp_path) not in json.dumps(made)


def test_the_same_pack_elsewhere_gives_the_same_set(tmp_path: Path) -> None:
    first = make_set(Request(theme=[str(own(tmp_path / "a"))], **WISH)).to_text()
    second = make_set(Request(theme=[str(own(tmp_path / "b"))], **WISH)).to_text()
    assert first == second


def test_own_and_shipped_packs_together(tmp_path: Path) -> None:
    made = make_set(Request(theme=[str(own(tmp_path)), "winter-days"], **WISH)).to_json()
    assert made["request"]["theme"] == ["my-garden", "winter-days"]
    assert {problem["theme"] for problem in made["problems"]} == {"my-garden", "winter-days"}


def test_a_file_in_the_current_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    own(tmp_path)
    monkeypatch.chdir(tmp_path)
    assert themes.get("my-garden.yaml").header.id == "my-garden"


def test_a_changed_file_is_read_afresh(tmp_path: Path) -> None:
    path = own(tmp_path)
    assert themes.get(str(path)).header.title == "My garden"
    path.write_text(starter("my-garden").replace("My garden", "Our yard"), encoding="utf-8")
    assert themes.get(str(path)).header.title == "Our yard"
    assert themes.get("my-garden").header.title == "Our yard"


def test_a_file_called_as_a_shipped_pack_is_refused(tmp_path: Path) -> None:
    with pytest.raises(RequestError, match=r"winter-days\.yaml.*my-winter-days\.yaml"):
        themes.get(str(own(tmp_path, "winter-days")))


def test_a_shipped_pack_by_its_own_path_is_that_pack() -> None:
    path = themes.folder() / "winter-days.yaml"
    assert themes.get(str(path)) is themes.get("winter-days")


def test_several_names_each_pack_once(tmp_path: Path) -> None:
    path = own(tmp_path)
    found = themes.several([str(path), "winter-days", str(path), "my-garden"])
    assert [pack.header.id for pack in found] == ["my-garden", "winter-days"]


def test_two_files_of_one_name_are_refused(tmp_path: Path) -> None:
    some = [str(own(tmp_path / "a")), str(own(tmp_path / "b"))]
    with pytest.raises(RequestError, match=r'called "my-garden".*Rename'):
        themes.several(some)


def test_words_kept_out_are_faults_in_a_pack_by_path(tmp_path: Path) -> None:
    path = tmp_path / "my-walk.yaml"
    path.write_text(BROKEN["kept-out word in a meaning"].text, encoding="utf-8")
    with pytest.raises(PackError, match="weapons"):
        make_set(Request(theme=[str(path)], **WISH))


@pytest.mark.parametrize("name", ["my pack.yaml", "My-pack.yaml", "my-pack.txt/", "con.yaml"])
def test_a_file_name_that_can_be_no_id(name: str, tmp_path: Path) -> None:
    with pytest.raises(RequestError, match="such as m"):
        themes.get(str(tmp_path) + "/" + name)
