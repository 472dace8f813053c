"""The pages of counting warm-ups: schema, access, what stands on them, whole counts on a page."""

import io
import subprocess
from collections.abc import Callable
from pathlib import Path

import docx
import pypdf
import pytest
from documents import word_checks
from openxml_audit import FileFormat, OpenXmlValidator

from storybank import documents
from storybank.counting import count_from, warm_ups
from storybank.documents import Layout, _counting
from storybank.documents._page import Group, Heading, Page, Paragraph, Picture
from storybank.model.counting import Count

NEWEST = (FileFormat.OFFICE_2019, FileFormat.OFFICE_2021, FileFormat.MICROSOFT_365)
LOOKS = {
    f"{paper}-{'large' if large else 'normal'}": Layout(paper=paper, large_print=large)
    for paper in ("letter", "a4")
    for large in (False, True)
}
COUNTS = (
    *(
        count
        for within, seed in ((100, "1"), (120, "2"), (1000, "3"), (1000, "4"))
        for count in warm_ups(None, (), within, seed, 5)
    ),
    count_from(0, 100),
    count_from(1000, 100, back=True),
    count_from(1000, 1, back=True),
    count_from(990, 1),
    count_from(5, 1, steps=4, within=10),
)


LONG = tuple(
    count_from(start, by, steps=20, key=key)
    for start, by in ((86, 1), (187, 1), (63, 5), (450, 10))
    for key in "abcdef"
)
"""Strips as long as can be: they pass several tens or hundreds."""


def pages(layout: Layout, counts: tuple[Count, ...] = COUNTS) -> dict[str, Page]:
    return {
        "count": _counting.page(counts, layout),
        "count-key": _counting.key_page(counts, layout),
    }


@pytest.mark.parametrize("look", LOOKS)
def test_schemas_and_own_checks_find_nothing(look: str, tmp_path: Path) -> None:
    layout = LOOKS[look]
    files = documents.render_pages(pages(layout), ["docx"], layout)
    assert list(files) == ["count.docx", "count-key.docx"]
    assert files == documents.render_pages(pages(layout), ["docx"], layout)
    for name, data in files.items():
        path = tmp_path / name
        path.write_bytes(data)
        for version in NEWEST:
            assert [str(one) for one in OpenXmlValidator(version).validate(path).errors] == []
        assert word_checks.faults(data) == []
        section = docx.Document(io.BytesIO(data)).sections[0]
        assert (section.page_width.pt, section.page_height.pt) == pytest.approx(layout.size, abs=1)


@pytest.mark.parametrize("kind", ["count", "count-key"])
def test_nothing_in_large_print_is_smaller_than_18_points(kind: str) -> None:
    labels = [
        item.size
        for block in pages(LOOKS["letter-large"])[kind].flat()
        if isinstance(block, Picture)
        for item in block.drawing.items
        if hasattr(item, "text")
    ]
    assert min(labels) >= 18


def test_a_child_sees_the_strip_the_jumps_and_the_question_and_no_answer() -> None:
    counts = (*COUNTS, *LONG)
    groups = _counting.for_children(counts, Layout())
    assert len(groups) == len(counts)
    for group, count in zip(groups, counts, strict=True):
        assert isinstance(group, Group)
        strip, line, room = (one.drawing.alt for one in group.blocks if isinstance(one, Picture))
        said = strip.partition("In order: ")[2].rstrip(".").split(", ")
        assert said == [
            "an empty box" if at in count.gaps else str(number)
            for at, number in enumerate(count.numbers)
        ]
        # The line begins with two numbers of the strip that are no gaps, and tells no other.
        way = "back" if count.back else "forward"
        start, landing = (
            int(one.rstrip(".")) for one in line.replace("start at ", "").split(": ")[1]
            .partition(" There")[0].replace(f"jump {way} {count.by} to ", "").split(", ")
        )  # fmt: skip
        place = count.numbers.index(start)
        assert count.numbers[place + 1] == landing
        assert not {place, place + 1} & set(count.gaps)
        assert ("open line" in line) == (count.by >= 10)
        texts = [one.text for one in group.blocks if isinstance(one, Paragraph)]
        together = " ".join(texts)
        assert count.next_asked.removesuffix(" How do you know?") in texts
        assert together.count("How do you know?") == 1 and room.endswith("to write on.")
        assert count.next_says not in together and "After" not in together
        told = [one.text for one in group.blocks if isinstance(one, Heading)]
        assert not any(char.isdigit() for one in told for char in one.split(". ", 1)[1])


def test_the_key_tells_every_number_what_to_say_and_why() -> None:
    pieces = _counting.for_teacher(COUNTS, Layout())
    texts = [one.text for one in pieces if isinstance(one, Paragraph)]
    alts = [one.drawing.alt for one in pieces if isinstance(one, Picture)]
    assert len(alts) == 2 * len(COUNTS)
    for count, strip in zip(COUNTS, alts[::2], strict=True):
        assert " ".join(count.says) in texts and count.next_says in texts
        assert any(one.endswith(f"What comes next? {count.next_answer}.") for one in texts)
        assert f"CCSS-M {', '.join(count.standards)}" in texts
        assert "empty" not in strip and strip.count("ringed") == len(count.gaps)
    assert all("room for" not in one for one in alts)


def test_counts_are_numbered_alike_on_both_pages() -> None:
    child, key = pages(Layout()).values()
    first = [one.text for one in child.flat() if isinstance(one, Heading)]
    second = [one.text for one in key.flat() if isinstance(one, Heading) and one.level == 2]
    assert first == [f"{one}. Write the missing numbers." for one in second]
    assert first[0].startswith("1. Count ")
    assert child.top.startswith("Name ___")


def test_every_web_page_holds_its_counts() -> None:
    files = documents.render_pages(pages(Layout()), ["html"], Layout())
    assert list(files) == ["count.html", "count-key.html"]
    for data in files.values():
        assert data.decode().count("<svg") >= 2 * len(COUNTS)


@pytest.mark.parametrize("look", LOOKS)
def test_no_count_goes_over_two_pages_and_two_stand_on_one(
    look: str, tmp_path: Path, needs_program: Callable[[str], str]
) -> None:
    layout = LOOKS[look]
    names = []
    for name, data in documents.render_pages(pages(layout), ["docx"], layout).items():
        (tmp_path / name).write_bytes(data)
        names.append(str(tmp_path / name))
    subprocess.run(
        [needs_program("soffice"), f"-env:UserInstallation={(tmp_path / 'profile').as_uri()}",
         "--headless", "--convert-to", "pdf", "--outdir", str(tmp_path), *names],
        check=True, capture_output=True, timeout=300,
    )  # fmt: skip
    for kind, end in (("count", "How do you know?"), ("count-key", "Standards:")):
        found = [one.extract_text() for one in pypdf.PdfReader(tmp_path / f"{kind}.pdf").pages]
        assert sum(one.count(end) for one in found) == len(COUNTS)
        for text in found:
            begun = sum(f"\n{number}. Count" in f"\n{text}" for number in range(1, len(COUNTS) + 1))
            assert begun == text.count(end) >= 1, text
        if not layout.large_print:
            assert len(found) <= -(-len(COUNTS) // 2) + (kind == "count-key")


def test_a_strip_of_twenty_has_a_page_of_its_own_in_large_print() -> None:
    """Heights are told beforehand, so that LibreOffice tears nothing; see `_heights`."""
    layout = LOOKS["letter-large"]
    counts = [count_from(700, 10, steps=20), count_from(900, 5, steps=20)]
    child = _counting.page(counts, layout)
    begun = [one.new_page for one in child.flat() if isinstance(one, Heading)]
    assert begun == [False, True]
    small = [count_from(30, 1), count_from(40, 1), count_from(50, 1)]
    begun = [one.new_page for one in _counting.page(small, Layout()).flat()
             if isinstance(one, Heading)]  # fmt: skip
    assert begun == [False, False, True]
