"""Names and words that could do harm: nothing raises, and no number moves.

Hostile text comes in by a class list, a theme pack and a file of translations, and goes out into
every kind of page.
"""

import io
import re
from pathlib import Path

import docx
import pytest
from documents import word_checks
from openxml_audit import OpenXmlValidator

from storybank import Request, documents, make_set
from storybank.cli import main
from storybank.documents import Layout, kinds

NAMES = (
    "Zo\u00eb]]><w:br/>",
    "\u05e0\u05d5\u05e2\u05d4",
    "\u0645\u0631\u064a\u0645, she",
    "Ann\x07a\x0b",
    "Be\u202en\u200b",
    "\N{GRINNING FACE}\ufe0f Kim",
    "L" + "o" * 58 + "u",
    'Mia\ufffe & "Tom" <b>',
    "N\u0338\u0338\u0338\u0338\u0338il",
)
THEME = """\
title: Beans ]]> & \u202e<w:p/>
season: any
months: [1, 2]
climate: any
observance: none
sources: our own invention
read_by: nobody yet
---
things:
  bean: {one: a bean, many: beans, picture: \U0001fad8, meaning: 'a seed & "food" ]]> \u05d6\u05e8\u05e2', es: frijol <b>}
scenes:
  jar:
    title: Beans
    setting: at school
    things: [bean]
    holders:
      child: {is: person, keeps: in a jar, room: {bean: 2-60}}
      jar: {is: place, one: a jar, prep: in, room: {bean: 2-60}}
    acts:
      find: {effect: gain, holders: [child], verb: find finds found found, frame: "{who} {verb} {n} {things}", range: 1-20}
      give: {effect: lose, holders: [child], verb: give gives gave given, frame: "{who} {verb} {n} {things} to {other}", range: 1-20}
"""  # noqa: E501


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a class list and a theme pack that hold hostile text."""
    folder = tmp_path_factory.mktemp("hostile")
    lines = "\n".join(NAMES).encode() + b"\n\xed\xa0\x80Lone\n"  # A lone surrogate, by its bytes.
    (folder / "class.txt").write_bytes(lines)
    (folder / "clean.txt").write_bytes("\n".join(NAMES).encode())
    (folder / "beans.yaml").write_text(THEME, encoding="utf-8")
    return folder


def test_a_list_that_is_no_utf8_is_read_and_told(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["make", "--names", str(folder / "class.txt"), "--out", str(folder / "made")]) == 0
    assert "class.txt is not UTF-8: read as Windows-1252" in capsys.readouterr().err
    assert word_checks.faults((folder / "made" / "student.docx").read_bytes()) == []


@pytest.mark.parametrize("level", ["level-1", "level-4"])
@pytest.mark.parametrize("large", [False, True])
def test_no_kind_of_page_is_hurt(folder: Path, level: str, large: bool, tmp_path: Path) -> None:
    made = make_set(
        Request(
            theme=[str(folder / "beans.yaml")],
            names=folder / "clean.txt",
            vocabulary=level,
            strategy=["any"],
            count=9,
            seed=3,
        )
    )
    layout = Layout(pages=tuple(kinds.kinds()), large_print=large, font="Beans & <i>")
    files = documents.render(made, "docx", layout)
    for name, data in files.items():
        path = tmp_path / name
        path.write_bytes(data)
        assert [str(one) for one in OpenXmlValidator().validate(path).errors] == []
        assert word_checks.faults(data) == []
        text = "".join(one for _, one in word_checks.paragraphs(data))
        assert not re.search("[\x00-\x08\x0b-\x1f\u202a-\u202e\ufffe\ufdd0]", text)
    stories = [
        re.sub("[\u200e\xa0]", "", one.text)
        for one in docx.Document(io.BytesIO(files["student.docx"])).paragraphs
        if one.style.name in ("Story", "Story Question")
    ]
    assert "\n".join(stories).replace(" ", "") == "\n".join(
        re.sub("[\u200e\xa0]", "", one.text) for one in made.problems
    ).replace(" ", "")
    for one in made.problems:
        assert [int(n) for n in re.findall(r"\d+", one.text)] == list(one.story.given)
    html = documents.render(made, "html", layout)["set.html"].decode()
    assert "<w:br/>" not in html and "<b>" not in html and "<i>" not in html
