"""A school's own Word file: its styles and header are used; what is no Word document is refused."""

import io
from collections.abc import Callable
from pathlib import Path

import docx
import pytest
from documents import samples, word_checks
from docx.enum.style import WD_STYLE_TYPE
from docx.shared import Pt
from openxml_audit import OpenXmlValidator
from PIL import Image

from storybank import documents
from storybank.documents import Layout, kinds
from storybank.errors import RequestError

MAIN = b"application/vnd.openxmlformats-officedocument.wordprocessingml.document.main+xml"
OTHERS = {
    "template.dotx": MAIN.replace(b"document.main", b"template.main"),
    "macros.docm": b"application/vnd.ms-word.document.macroEnabled.main+xml",
    "sheet.docx": MAIN.replace(b"wordprocessingml.document", b"spreadsheetml.sheet"),
}


def school_file(folder: Path) -> Path:
    """A file with a letterhead, text and a picture, a story style of its own, others missing."""
    document = docx.Document()
    section = document.sections[0]
    section.header.paragraphs[0].text = "Maple Hill School"
    section.left_margin = Pt(90)
    document.add_paragraph("An old worksheet that must not be printed again.")
    picture = io.BytesIO()
    Image.new("RGB", (40, 40), "red").save(picture, "PNG")
    picture.seek(0)
    document.add_picture(picture)
    story = document.styles.add_style("Story", WD_STYLE_TYPE.PARAGRAPH)
    story.font.name, story.font.size = "Courier New", Pt(17)
    document.styles.add_style("Key Facts", WD_STYLE_TYPE.CHARACTER)  # The name, for letters.
    document.styles["Heading 2"].delete()
    document.styles["Normal"].font.name = "Georgia"
    path = folder / "school.docx"
    document.save(str(path))
    return path


def without_grid(folder: Path) -> Path:
    """A file that lacks the table style and the style of strong letters too."""
    document = docx.Document()
    for name in ("Table Grid", "Strong", "Title", "Heading 1", "Header", "Footer"):
        document.styles[name].delete()
    path = folder / "bare.docx"
    document.save(str(path))
    return path


@pytest.mark.parametrize("make", [school_file, without_grid])
@pytest.mark.parametrize("kind", kinds.kinds())
def test_pages_in_a_schools_file_are_whole(
    make: Callable[[Path], Path], kind: str, tmp_path: Path
) -> None:
    layout = Layout(pages=(kind,), template=make(tmp_path))
    (data,) = documents.render(samples.sample_set(), "docx", layout).values()
    path = tmp_path / "made.docx"
    path.write_bytes(data)
    made = [str(one) for one in OpenXmlValidator().validate(path).errors]
    given = [str(one) for one in OpenXmlValidator().validate(layout.template).errors]
    assert set(made) <= set(given)  # python-docx's own template has faults of its own.
    assert [one for one in word_checks.faults(data) if "content type" not in one] == []


def test_the_schools_styles_and_header_stay_and_its_text_goes(tmp_path: Path) -> None:
    layout = Layout(pages=("student",), template=school_file(tmp_path))
    (data,) = documents.render(samples.sample_set(), "docx", layout).values()
    made = docx.Document(io.BytesIO(data))
    assert made.styles["Story"].font.size == Pt(17)
    assert made.styles["Story"].font.name == "Courier New"
    assert made.styles["Key Facts"].type == WD_STYLE_TYPE.PARAGRAPH
    assert made.styles["Heading 2"].font.size == Pt(12)
    header = [one.text for one in made.sections[0].header.paragraphs]
    assert header[0] == "Maple Hill School" and header[-1].startswith("Name ____")
    assert made.sections[0].left_margin == Pt(90)
    text = "\n".join(one.text for one in made.paragraphs)
    assert "old worksheet" not in text and samples.PROBLEMS[0].story.sentences[0] in text
    kept = [one for one in made.part.rels.values() if one.reltype.endswith("/image")]
    assert len(kept) == sum(1 for one in kept if "picture" in str(one.target_part.partname))


def test_pictures_fit_between_the_schools_margins(tmp_path: Path) -> None:
    document = docx.Document()
    section = document.sections[0]
    section.left_margin = section.right_margin = Pt(150)
    document.save(str(tmp_path / "narrow.docx"))
    layout = Layout(pages=("student", "key"), template=tmp_path / "narrow.docx")
    for data in documents.render(samples.sample_set(), "docx", layout).values():
        extents = word_checks.part(data).iterfind(".//wp:extent", word_checks.NS)
        room = section.page_width - 2 * Pt(150)
        assert all(int(one.get("cx")) <= room for one in extents)


def test_large_print_grows_the_schools_styles_too(tmp_path: Path) -> None:
    layout = Layout(pages=("key",), template=school_file(tmp_path), large_print=True)
    (data,) = documents.render(samples.sample_set(), "docx", layout).values()
    made = docx.Document(io.BytesIO(data))
    used = {one.style.name for one in made.paragraphs}
    assert "Story" not in used or made.styles["Story"].font.size >= Pt(18)
    assert all(made.styles[name].font.size >= Pt(18) for name in used)


def test_same_bytes_from_a_template(tmp_path: Path) -> None:
    layout = Layout(template=school_file(tmp_path))
    first = documents.render(samples.sample_set(), "docx", layout)
    assert documents.render(samples.sample_set(), "docx", layout) == first


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("template.dotx", r"is a Word template \(\.dotx\), not a Word document"),
        ("macros.docm", r"is a Word file with macros \(\.docm or \.dotm\)"),
        ("sheet.docx", "is a spreadsheet, not a Word document"),
        ("picture.docx", "is no Word file, whatever its name says"),
        ("missing.docx", "is not there or no file"),
        ("cut.docx", "is no Word file|is damaged"),
        ("broken.docx", "is damaged and cannot be read"),
        ("empty-zip.docx", "is damaged and cannot be read"),
    ],
)
def test_what_is_no_word_document_is_refused_kindly(name: str, said: str, tmp_path: Path) -> None:
    path = tmp_path / name
    whole = io.BytesIO()
    docx.Document().save(whole)
    if name in OTHERS:
        path.write_bytes(
            word_checks.spoil(
                whole.getvalue(), "[Content_Types].xml", lambda one: one.replace(MAIN, OTHERS[name])
            )
        )
    elif name == "picture.docx":
        Image.new("RGB", (4, 4)).save(path, "PNG")
    elif name == "cut.docx":
        path.write_bytes(whole.getvalue()[: len(whole.getvalue()) // 2])
    elif name == "broken.docx":
        path.write_bytes(
            word_checks.spoil(whole.getvalue(), "word/document.xml", lambda one: one[:200])
        )
    elif name == "empty-zip.docx":
        path.write_bytes(b"PK\x05\x06" + bytes(18))
    with pytest.raises(RequestError, match=said):
        documents.render(samples.sample_set(), "docx", Layout(template=path))


def test_a_file_that_was_changed_is_read_anew(tmp_path: Path) -> None:
    layout = Layout(pages=("exit",), template=school_file(tmp_path))
    documents.render(samples.sample_set(), "docx", layout)
    document = docx.Document(str(layout.template))
    document.sections[0].header.paragraphs[0].text = "Oak Lane School"
    document.save(str(layout.template))
    (data,) = documents.render(samples.sample_set(), "docx", layout).values()
    header = docx.Document(io.BytesIO(data)).sections[0].header
    assert header.paragraphs[0].text == "Oak Lane School"
