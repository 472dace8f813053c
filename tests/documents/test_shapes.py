"""Drawings as shapes of Word: valid, complete, with alt text, and with a picture for others."""

from pathlib import Path

import pytest
from documents import samples, word_checks
from lxml import etree
from openxml_audit import FileFormat, OpenXmlValidator

from storybank import Request, documents, make_set
from storybank.documents import Layout, kinds
from storybank.documents._page import Picture
from storybank.documents._shapes import alternatives
from storybank.drawings import Arc, Arrow, Dot, Drawing, Grid, Label

NS = {
    **word_checks.NS,
    "mc": "http://schemas.openxmlformats.org/markup-compatibility/2006",
    "wpg": "http://schemas.microsoft.com/office/word/2010/wordprocessingGroup",
    "wps": "http://schemas.microsoft.com/office/word/2010/wordprocessingShape",
    "a": "http://schemas.openxmlformats.org/drawingml/2006/main",
}
NEWEST = (FileFormat.OFFICE_2019, FileFormat.OFFICE_2021, FileFormat.MICROSOFT_365)
SET = make_set(Request(strategy=["any"], count=24, seed=2))


@pytest.mark.parametrize("kind", kinds.ids())
@pytest.mark.parametrize("large", [False, True])
def test_schemas_and_own_checks_find_nothing(kind: str, large: bool, tmp_path: Path) -> None:
    layout = Layout(pages=(kind,), drawings="shapes", large_print=large)
    (data,) = documents.render(samples.sample_set(), "docx", layout).values()
    path = tmp_path / "shapes.docx"
    path.write_bytes(data)
    for version in NEWEST:
        assert [str(one) for one in OpenXmlValidator(version).validate(path).errors] == []
    assert word_checks.faults(data) == []


def drawings() -> list[Drawing]:
    page = kinds.page("key", SET, Layout())
    return [block.drawing for block in page.flat() if isinstance(block, Picture)]


def test_every_item_is_a_shape_and_every_label_its_text() -> None:
    made = word_checks.part(
        documents.render(SET, "docx", Layout(pages=("key",), drawings="shapes"))["key.docx"]
    )
    groups = made.findall(".//wpg:wgp", NS)
    expected = drawings()
    assert len(groups) == len(expected) > 12
    for group, drawing in zip(groups, expected, strict=True):
        more = sum(isinstance(one, Arc | Arrow) for one in drawing.items)
        more += sum(isinstance(one, Grid) and bool(one.inner()) for one in drawing.items)
        more += sum(isinstance(one, Dot) and bool(one.core) for one in drawing.items)
        assert len(group.findall("wps:wsp", NS)) == 1 + len(drawing.items) + more
        texts = [text.text for text in group.iterfind(".//w:t", NS)]
        assert texts == [one.text for one in drawing.items if isinstance(one, Label)]
        sizes = {int(one.get(f"{{{NS['w']}}}val")) / 2 for one in group.iterfind(".//w:sz", NS)}
        assert sizes <= {one.size for one in drawing.items if isinstance(one, Label)}


def test_each_choice_has_a_picture_to_fall_back_on_and_the_same_alt_text() -> None:
    made = word_checks.part(
        documents.render(SET, "docx", Layout(pages=("key",), drawings="shapes"))["key.docx"]
    )
    choices = made.findall(".//mc:AlternateContent", NS)
    assert len(choices) == len(made.findall(".//mc:Choice[@Requires='wpg']", NS))
    for one in choices:
        shapes, picture = one.findall(".//wp:docPr", NS)
        assert shapes.get("descr") == picture.get("descr")
        assert one.find("mc:Fallback//a:blip", NS) is not None


def test_shapes_lie_where_the_display_list_has_them() -> None:
    for drawing in drawings():
        group = alternatives(etree.Element("inline"), drawing, 1, 1.0)
        width, height = 12700 * drawing.width, 12700 * drawing.height
        for shape in group.iterfind(".//wps:wsp", NS):
            off, extent = shape.find(".//a:off", NS), shape.find(".//a:ext", NS)
            if shape.find("wps:txbx", NS) is None:
                left, top = int(off.get("x")), int(off.get("y"))
                assert 0 <= left <= left + int(extent.get("cx")) <= width + 1
                assert -height <= top <= top + int(extent.get("cy")) <= 2 * height
        labels = [one for one in drawing.items if isinstance(one, Label)]
        boxes = [one for one in group.iterfind(".//wps:wsp", NS)
                 if one.find("wps:txbx", NS) is not None]  # fmt: skip
        for label, box in zip(labels, boxes, strict=True):
            off, extent = box.find(".//a:off", NS), box.find(".//a:ext", NS)
            middle = (int(off.get("x")) + int(extent.get("cx")) / 2) / 12700
            assert middle == pytest.approx((label.box.left + label.box.right) / 2, abs=0.01)
