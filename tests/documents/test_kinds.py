"""Every kind of page on every paper in both sizes: structure, access, what stands on it, whole."""

import io
import re
import subprocess
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import docx
import pypdf
import pytest
from documents import samples, word_checks
from lxml import etree
from openxml_audit import FileFormat, OpenXmlValidator

from storybank import Request, documents, make_set
from storybank.documents import Layout, kinds
from storybank.documents._page import Group, Heading, Paragraph, Picture
from storybank.errors import RequestError
from storybank.model import ProblemSet

LOOKS = {
    f"{paper}-{'large' if large else 'normal'}": Layout(
        pages=tuple(kinds.kinds()), paper=paper, large_print=large
    )
    for paper in ("letter", "a4")
    for large in (False, True)
}
NEWEST = (FileFormat.OFFICE_2019, FileFormat.OFFICE_2021, FileFormat.MICROSOFT_365)
FORTY = make_set(Request(strategy=["any"], count=40, seed=11))
SIMPLE = make_set(Request(strategy=["any"], count=40, seed=12, vocabulary="level-1"))
ENDS = {
    "equations": "How do you know?",
    "true-or-false": "Write the number that makes it true.",
    "write-a-story": "My question asks for the number that is missing.",
}
"""What stands near the end of each problem, once."""
SETS = {"level-4": FORTY, "level-1": SIMPLE}


@pytest.fixture(scope="module")
def made() -> dict[tuple[str, str], bytes]:
    """The Word file of each look and kind of a set whose problems differ in everything."""
    return {
        (look, name.removesuffix(".docx")): data
        for look, layout in LOOKS.items()
        for name, data in documents.render(samples.sample_set(), "docx", layout).items()
    }


@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize("kind", kinds.kinds())
def test_schemas_and_own_checks_find_nothing(
    made: dict[tuple[str, str], bytes], look: str, kind: str, tmp_path: Path
) -> None:
    path = tmp_path / "page.docx"
    path.write_bytes(made[look, kind])
    for version in NEWEST:
        assert [str(one) for one in OpenXmlValidator(version).validate(path).errors] == []
    assert word_checks.faults(made[look, kind]) == []
    opened = docx.Document(io.BytesIO(made[look, kind]))
    width, height = LOOKS[look].size
    section = opened.sections[0]
    assert (section.page_width.pt, section.page_height.pt) == pytest.approx((width, height), abs=1)
    assert [one.text for one in opened.paragraphs if one.style.name == "Title"]


@pytest.mark.parametrize("kind", kinds.kinds())
def test_nothing_in_large_print_is_smaller_than_18_points(
    made: dict[tuple[str, str], bytes], kind: str
) -> None:
    data = made["letter-large", kind]
    sizes = {
        int(one.get(f"{{{word_checks.W}}}val")) / 2
        for name in ("word/styles.xml", "word/document.xml")
        for one in word_checks.part(data, name).iterfind(".//w:style//w:sz", word_checks.NS)
    }
    assert min(sizes) >= 18
    page = kinds.page(kind, samples.sample_set(), LOOKS["letter-large"])
    labels = [
        item.size
        for block in page.flat()
        if isinstance(block, Picture)
        for item in block.drawing.items
        if hasattr(item, "text")
    ]
    assert all(size >= 18 for size in labels)


def test_the_kinds_of_page_say_what_they_are() -> None:
    assert list(kinds.kinds())[:2] == ["student", "key"]
    assert set(kinds.kinds()) == {
        "student", "key", "launch", "cards", "exit", "facts", "words", "model",
        "equations", "equations-key", "true-or-false", "true-or-false-key", "write-a-story",
    }  # fmt: skip
    assert all(one.TITLE and isinstance(one.FOR_CHILDREN, bool) for one in kinds.kinds().values())
    with pytest.raises(RequestError, match=r'no kind of page "exits"\. Did you mean "exit"\?'):
        documents.render(samples.sample_set(), "docx", Layout(pages=("exits",)))


def texts(kind: str, problem_set: ProblemSet, layout: Layout | None = None) -> list[str]:
    page = kinds.page(kind, problem_set, layout or Layout())
    return [block.text for block in page.flat() if isinstance(block, Paragraph)]


def test_a_launch_page_tells_the_story_three_times() -> None:
    for problem in FORTY.problems:
        one = replace(FORTY, problems=(problem,))
        first, _, fold, second, _, again, third, _ = texts("launch", one)
        assert fold == again == "Fold here, and show one part at a time."
        assert not re.search(r"\d", first) and "?" not in first
        assert "?" not in second
        assert third == problem.text.replace("\n", " ")
        assert third.startswith(second)
        for name in problem.story.people:
            assert (name in second) == (name in first)


def test_an_exit_ticket_is_one_problem_twice() -> None:
    page = kinds.page("exit", FORTY, Layout())
    first, second = (block for block in page.blocks if isinstance(block, Group))
    assert first.blocks == second.blocks[1:]
    heading = first.blocks[0]
    assert isinstance(heading, Heading)
    chosen = FORTY.problems[(heading.number or 0) - 1]
    assert chosen.code == heading.text and chosen.strategy is not None
    assert str(chosen.answer) not in " ".join(texts("exit", FORTY)).split()


def test_related_facts_stand_both_ways_round_with_a_number_missing() -> None:
    families = {tuple(sorted(one.related_facts)) for one in FORTY.problems if one.related_facts}
    lines = [one for one in texts("facts", FORTY) if "=" in one]
    assert len(lines) == sum(len(family) for family in families)
    for line in lines:
        forward, turned = line.split("\t")
        assert forward.count("\u25a1") == turned.count("\u25a1") == 1
        left, right = forward.split("\xa0=\xa0")
        assert turned == f"{right}\xa0=\xa0{left}"


def test_a_modelling_page_says_each_step_once() -> None:
    for problem in FORTY.problems:
        if problem.strategy is None:
            continue
        said = texts("model", replace(FORTY, problems=(problem,)))
        plain = [one.replace("\xa0", " ").replace("\u2212", "-") for one in said]
        for step in problem.solution.says:
            assert plain.count(step) == 1
        assert said[-1] == problem.story.answer_sentence


def test_cards_hold_every_story_with_its_code() -> None:
    data = documents.render(FORTY, "docx", Layout(pages=("cards",)))["cards.docx"]
    cells = [
        "\n".join(one.text for one in cell.paragraphs)
        for table in docx.Document(io.BytesIO(data)).tables
        for row in table.rows
        for cell in row.cells
        if cell.text.strip()
    ]
    assert cells == [
        f"Problem {number} \N{MIDDLE DOT} {one.code}    \N{BLACK SQUARE}\n{one.text}"
        + ("\nFind all the ways. You may use 0, too." if one.unknown == "parts" else "")
        for number, one in enumerate(FORTY.problems, start=1)
    ]


def test_words_and_frames_of_the_set_are_all_there() -> None:
    text = " ".join(one for _, one in word_checks.paragraphs(
        documents.render(SIMPLE, "docx", Layout(pages=("words",)))["words.docx"]))  # fmt: skip
    for problem in SIMPLE.problems:
        assert all(frame in text for frame in problem.story.talk_frames)
        assert all(entry.word in text for entry in problem.story.word_bank)


@pytest.mark.parametrize("lines", ["started", "blank", "none"])
def test_lines_are_as_the_teacher_wants_them(lines: str) -> None:
    layout = Layout(lines=lines)
    for which in SETS.values():
        for problem in which.problems:
            if problem.unknown == "parts":
                continue
            page = kinds.page("student", replace(which, problems=(problem,)), layout)
            alts = [one.drawing.alt for one in page.flat() if isinstance(one, Picture)]
            about = [one for one in alts if one.startswith("Open number line")]
            if lines == "none":
                assert about == []
            elif lines == "blank":
                assert about == ["Open number line with nothing on it, to draw jumps on."]
            elif problem.unknown == "start":
                assert "with an empty circle for the start" in about[0]
            else:
                (placed,) = re.findall(r"with (\d+) placed", about[0])
                assert int(placed) in problem.story.given


@pytest.mark.parametrize(("unknown", "sign"), [("box", "\u25a1"), ("blank", "____"),
                                               ("question-mark", "?")])  # fmt: skip
def test_the_unknown_is_shown_as_wanted(unknown: str, sign: str) -> None:
    layout = Layout(unknown=unknown)
    facts = [one for one in texts("facts", FORTY, layout) if "=" in one]
    assert all(one.count(sign) == 2 for one in facts)
    put = "?" if unknown == "box" else sign  # A box to write into is no place for another box.
    assert any(f"put {put} for" in one for one in texts("student", FORTY, layout))


@pytest.mark.parametrize(
    ("wish", "said"),
    [
        ({"paper": "a5"}, r'no paper "a5"\. Choose from: letter, a4'),
        ({"lines": "dotted"}, r'no kind of lines "dotted"'),
        ({"unknown": "star"}, r'no sign for the unknown "star"'),
        ({"font": ""}, "is no name of a font"),
        ({"font": "Arial\x00"}, "is no name of a font"),
    ],
)
def test_a_wish_that_is_none_is_explained(wish: dict[str, Any], said: str) -> None:
    with pytest.raises(RequestError, match=said):
        Layout(**wish)


def test_a_font_is_set_in_one_place() -> None:
    data = documents.render(samples.sample_set(), "docx", Layout(font="Comic Neue"))["key.docx"]
    theme = etree.tostring(word_checks.part(data, "word/theme/theme1.xml"), encoding="unicode")
    assert theme.count('typeface="Comic Neue"') == 2
    assert "Comic Neue" not in etree.tostring(word_checks.part(data), encoding="unicode")


@pytest.fixture(scope="module")
def pdfs(
    tmp_path_factory: pytest.TempPathFactory, needs_program: Callable[[str], str]
) -> dict[tuple[str, str, str], pypdf.PdfReader]:
    """Every kind of page of two sets of forty in every look, as LibreOffice makes tagged PDF."""
    folder = tmp_path_factory.mktemp("pages")
    names = []
    for which, problem_set in SETS.items():
        for look, layout in LOOKS.items():
            for name, data in documents.render(problem_set, "docx", layout).items():
                path = folder / f"{which}.{look}.{name}"
                path.write_bytes(data)
                names.append(path)
    subprocess.run(
        [needs_program("soffice"), f"-env:UserInstallation={(folder / 'profile').as_uri()}",
         "--headless", "--convert-to",
         'pdf:writer_pdf_Export:{"PDFUACompliance":{"type":"boolean","value":"true"}}',
         "--outdir", str(folder), *map(str, names)],
        check=True, capture_output=True, timeout=900,
    )  # fmt: skip
    found = {}
    for path in names:
        which, look, kind, _ = path.name.split(".")
        found[which, look, kind] = pypdf.PdfReader(path.with_suffix(".pdf"))
    return found


def tags(node: Any) -> Iterator[tuple[str, str | None]]:
    """The tags of a PDF's structure in order, each with its alt text."""
    node = node.get_object()
    if isinstance(node, pypdf.generic.ArrayObject):
        for one in node:
            yield from tags(one)
    elif isinstance(node, pypdf.generic.DictionaryObject):
        if "/S" in node:
            yield str(node["/S"]), str(node["/Alt"]) if "/Alt" in node else None
        if "/K" in node:
            yield from tags(node["/K"])


def test_tagged_pdfs_have_headings_alt_texts_language_and_title(
    pdfs: dict[tuple[str, str, str], pypdf.PdfReader],
) -> None:
    for (_, _, kind), pdf in pdfs.items():
        root = pdf.trailer["/Root"]
        assert root["/Lang"] == "en-US" and root["/MarkInfo"]["/Marked"]
        assert pdf.metadata is not None and pdf.metadata.title
        found = list(tags(root["/StructTreeRoot"]["/K"]))
        names = {name for name, _ in found}
        assert "/H1" in names or "/Title" in names, kind
        figures = [alt for name, alt in found if name == "/Figure"]
        assert all(figures)
        if kind == "student":
            assert len(figures) > 80


def test_no_problem_goes_over_two_pages(
    pdfs: dict[tuple[str, str, str], pypdf.PdfReader],
) -> None:
    """In large print a worked problem of the key has two parts, each with its heading."""
    for (which, look, kind), pdf in pdfs.items():
        pages = [one.extract_text() for one in pdf.pages]
        if kind == "student":
            asked = [one for one in SETS[which].problems if one.unknown != "parts"]
            ends = sum(page.count("Answer:") for page in pages)
            assert ends == len(asked), (which, look)
            for page in pages:
                whole = page.count("Answer:") + page.count("Find all the ways.")
                assert whole == len(re.findall(r"Problem \d+ \N{MIDDLE DOT}", page)), (look, page)
        elif kind == "launch":
            assert len(pages) == len(SETS[which].problems), (which, look)
        elif kind == "exit":
            assert len(pages) == 1, (which, look)
        elif kind in ENDS:
            for page in pages:
                assert page.count(ENDS[kind]) == len(re.findall(r"Problem \d+ ", page)) > 0, (
                    which,
                    look,
                    kind,
                )
        elif kind == "key":
            start = next(at for at, page in enumerate(pages) if "Worked problems" in page)
            for page in pages[start + 1 :]:
                if "Words in this set" in page:
                    break
                lines = [one for one in page.splitlines() if one.strip()]
                assert any(one.startswith("Problem ") for one in lines[:4]), (
                    which,
                    look,
                    lines[:4],
                )


def test_there_is_room_for_all_ways_and_nothing_tells_how_many() -> None:
    """The same room whatever the whole is; with the frame of its answer where the level has one."""
    for which in SETS.values():
        for problem in which.problems:
            if problem.unknown != "parts":
                continue
            page = kinds.page("student", replace(which, problems=(problem,)), Layout())
            frame = problem.story.answer_frame.replace("___", "_" * 8)
            said = [one.text for one in page.flat() if isinstance(one, Paragraph)]
            alts = [one.drawing.alt for one in page.flat() if isinstance(one, Picture)]
            framed = "answer-frame" in problem.story.support
            assert said.count(frame) == (5 if framed else 0)
            assert alts == ([] if framed else ["5 lines to write on."])
