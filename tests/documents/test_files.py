"""Files are written all or none; what stands there is replaced only when that is allowed."""

import os
from pathlib import Path
from typing import Any

import pytest
from documents import samples

from storybank import documents
from storybank.errors import OutputError, RequestError

ALL = ("docx", "json", "csv", "html")
FILES = ["student.docx", "key.docx", "set.json", "set.csv", "set.html"]
SET = samples.sample_set()


def listing(folder: Path) -> list[str]:
    return sorted(str(one.relative_to(folder)) for one in folder.rglob("*"))


def test_all_files_are_written_in_the_order_asked_for(tmp_path: Path) -> None:
    written = documents.write(SET, tmp_path / "a" / "b", ALL, overwrite=False)
    assert [one.name for one in written] == FILES
    assert listing(tmp_path / "a" / "b") == sorted(FILES)
    for format_id in ALL:
        for name, data in documents.render(SET, format_id).items():
            assert (tmp_path / "a" / "b" / name).read_bytes() == data


def test_an_existing_file_is_replaced_only_when_allowed(tmp_path: Path) -> None:
    (tmp_path / "set.csv").write_text("mine")
    with pytest.raises(OutputError, match=r"already holds set\.csv.*--overwrite"):
        documents.write(SET, tmp_path, ALL, overwrite=False)
    assert listing(tmp_path) == ["set.csv"]
    assert (tmp_path / "set.csv").read_text() == "mine"
    documents.write(SET, tmp_path, ALL, overwrite=True)
    assert listing(tmp_path) == sorted(FILES)
    assert (tmp_path / "set.csv").read_bytes() != b"mine"


def test_a_file_in_place_of_the_folder_is_refused(tmp_path: Path) -> None:
    (tmp_path / "plan").write_text("")
    for folder in (tmp_path / "plan", tmp_path / "plan" / "deeper"):
        with pytest.raises(OutputError, match="is a file, not a folder"):
            documents.write(SET, folder, ALL)
    assert listing(tmp_path) == ["plan"]


def test_a_folder_that_may_not_be_written_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # The user who runs the tests may be allowed everything, so the answer is given here.
    monkeypatch.setattr(os, "access", lambda *_: False)
    with pytest.raises(OutputError, match="you may not write in"):
        documents.write(SET, tmp_path / "new", ALL)
    assert listing(tmp_path) == []


def test_an_unknown_format_writes_nothing(tmp_path: Path) -> None:
    with pytest.raises(RequestError, match='no format "pdf"'):
        documents.write(SET, tmp_path / "new", ["docx", "pdf"])
    assert listing(tmp_path) == []


@pytest.mark.parametrize("at", range(1, 11))
def test_a_disk_that_fails_leaves_everything_as_it_was(
    at: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    calls = 0
    for method in ("write_bytes", "replace"):
        original = getattr(Path, method)

        def failing(self: Path, *values: Any, original: Any = original) -> Any:
            nonlocal calls
            calls += 1
            if calls == at:
                raise OSError(28, "No space left on device")
            return original(self, *values)

        monkeypatch.setattr(Path, method, failing)
    with pytest.raises(OutputError, match="No space left on device"):
        documents.write(SET, tmp_path / "a" / "b", ALL)
    assert listing(tmp_path) == []


@pytest.mark.parametrize("at", range(1, 16))
def test_a_disk_that_fails_gives_replaced_files_back(
    at: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in FILES:
        (tmp_path / name).write_text(f"old {name}")
    calls = 0
    for method in ("write_bytes", "replace"):
        original = getattr(Path, method)

        def failing(self: Path, *values: Any, original: Any = original) -> Any:
            nonlocal calls
            calls += 1
            if calls == at:
                raise OSError(28, "No space left on device")
            return original(self, *values)

        monkeypatch.setattr(Path, method, failing)
    with pytest.raises(OutputError):
        documents.write(SET, tmp_path, ALL, overwrite=True)
    assert listing(tmp_path) == sorted(FILES)
    assert all((tmp_path / name).read_text() == f"old {name}" for name in FILES)


@pytest.mark.parametrize(
    ("name", "format_id", "file"),
    [
        ("october.docx", "docx", "student.docx"),
        ("october-key.docx", "docx", "key.docx"),
        ("key.DOCX", "docx", "key.docx"),
        ("monkeys.json", "json", "set.json"),
        ("a.csv", "csv", "set.csv"),
        ("a.html", "html", "set.html"),
    ],
)
def test_one_document_by_its_name(name: str, format_id: str, file: str, tmp_path: Path) -> None:
    path = documents.write_document(SET, tmp_path / name)
    assert path.read_bytes() == documents.render(SET, format_id)[file]
    with pytest.raises(OutputError, match="already holds"):
        documents.write_document(SET, path)
    assert documents.write_document(SET, str(path), overwrite=True) == path


def test_one_document_with_an_unknown_suffix(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match=r'ends in "\.pdf".*\.csv, \.docx, \.html, \.json'):
        documents.write_document(SET, tmp_path / "a.pdf")
    assert listing(tmp_path) == []
