"""The Word files: structure, order, access, text that could do harm, same bytes."""

import hashlib
import io
import os
import subprocess
import sys
import zipfile
from dataclasses import replace
from pathlib import Path

import docx
import pytest
from documents import samples, word_checks
from openxml_audit import OpenXmlValidator

from storybank import documents, strategies
from storybank.documents import Layout, kinds

NAMES = ("student.docx", "key.docx")
SETS = {"sample": samples.sample_set(), **{f"l{n}": samples.level_set(n) for n in range(1, 5)}}


def rendered(which: str, name: str) -> bytes:
    return documents.render(SETS[which], "docx")[name]


@pytest.mark.parametrize("which", SETS)
@pytest.mark.parametrize("name", NAMES)
def test_schema_and_own_checks_find_nothing(which: str, name: str, tmp_path: Path) -> None:
    path = tmp_path / name
    path.write_bytes(rendered(which, name))
    result = OpenXmlValidator().validate(path)
    assert [str(one) for one in result.errors] == []
    assert word_checks.faults(path.read_bytes()) == []


@pytest.mark.parametrize(
    ("name", "old", "new", "fault"),
    [
        ("word/document.xml", b' descr="Open', b' other="Open', "picture without alt text"),
        ("word/document.xml", b'docPr id="2"', b'docPr id="1"', "picture id used twice"),
        (
            "word/document.xml",
            b'"Open number line 2"',
            b'"Open number line 1"',
            "picture name used twice",
        ),
        ("word/document.xml", b'"Heading1"', b'"Heading3"', "heading level left out"),
        ("word/document.xml", b'"Title"', b'"Note"', "not one title"),
        ("word/document.xml", b"<w:tblHeader/>", b"", "table without a header row"),
        ("word/document.xml", b'"separate"', b'"end"', "odd field"),
        ("word/document.xml", b"<w:sectPr ", b"<w:p/><w:sectPr ", "empty paragraph"),
        ("docProps/core.xml", b"title>Answer Key", b"title>", "no dc:title"),
        ("docProps/core.xml", b"language>en-US", b"language>", "no dc:language"),
        ("word/styles.xml", b'w:lang w:val="en-US"', b'w:lang w:val=""', "no language"),
        ("[Content_Types].xml", b'Extension="svg"', b'Extension="sv"', "no content type for svg"),
    ],
)
def test_the_own_checks_see_a_spoiled_file(name: str, old: bytes, new: bytes, fault: str) -> None:
    def change(content: bytes) -> bytes:
        assert old in content
        return content.replace(old, new)

    spoiled = word_checks.spoil(rendered("sample", "key.docx"), name, change)
    assert any(fault in one for one in word_checks.faults(spoiled))


def test_an_independent_reader_opens_both_and_finds_all_in_order() -> None:
    codes = [one.code for one in samples.PROBLEMS]
    for name in NAMES:
        document = docx.Document(io.BytesIO(rendered("sample", name)))
        headings = [one.text for one in document.paragraphs if one.style.name.startswith("Heading")]
        named = [one for one in headings if one.startswith("Problem ")]
        expected = [f"Problem {n} \N{MIDDLE DOT} {code}" for n, code in enumerate(codes, start=1)]
        assert named == expected
    table = document.tables[0]
    rows = [[cell.text for cell in row.cells] for row in table.rows]
    assert rows[0] == ["Problem", "Code", "Equation", "Answer"]
    assert [row[1] for row in rows[1:]] == codes
    assert rows[3][2:] == ["67\xa0+\xa0\u25a1\xa0=\xa082", "15"]


def test_key_tells_everything_about_a_problem() -> None:
    text = "\n".join(one for _, one in word_checks.paragraphs(rendered("sample", "key.docx")))
    for wanted in (
        "46 + 40 = 86, 86 \u2212 2 = 84",
        "38 + 46 = 84",
        "Ana has 84 leaves now.",
        "Watch for 88. Jumped 2 on instead of 2 back (86 + 2 = 88).",
        "Second way: next ten first. 46 + 4 = 50, 50 + 34 = 84",
        "the way shown is \u201cfriendly, then compensate\u201d.",
        "67 + \u25a1 = 82 (as told), 82 \u2212 67 = \u25a1 (to solve)",
        "the jumps make 3 + 12 = 15",
        "12 = 0 + 12, 12 = 1 + 11",
        "curriculum, language-support plans and accommodation plans come first.",
    ):
        assert wanted in text.replace("\xa0", " ")
    assert text.count("not to scale") == 1


def test_student_pages_show_no_answer_level_or_strategy() -> None:
    pages = word_checks.paragraphs(rendered("sample", "student.docx"))
    text = "\n".join(one for _, one in pages).lower()
    for one in samples.PROBLEMS:
        assert one.story.answer_sentence.lower() not in text
        assert (one.strategy or "both parts").replace("-", " ") not in text
    assert "level" not in text
    assert "in the equation, put ? for what you do not know." in text


@pytest.mark.parametrize("kind", [one for one, it in kinds.kinds().items() if it.FOR_CHILDREN])
def test_no_page_for_children_names_a_level_or_a_strategy(kind: str) -> None:
    layout = Layout(pages=(kind,))
    for which in SETS.values():
        for one in documents.render(which, "docx", layout).values():
            text = "\n".join(text for _, text in word_checks.paragraphs(one)).lower()
            assert "level" not in text
            for strategy in strategies.by_rank():
                assert strategy.title.lower() not in text, strategy.title


def test_start_unknown_line_gives_nothing_away() -> None:
    document = word_checks.part(rendered("l1", "student.docx"))
    alts = [one.get("descr") for one in document.iterfind(".//wp:docPr", word_checks.NS)]
    assert alts[0] == "Open number line with an empty circle for the start, to draw jumps on."
    assert alts[1].startswith("Room for an equation: a box, a circle for the sign,")
    # The whole answer sentence is printed, so there is no line to write one on.
    assert alts[2] == (
        "Bar diagram: one bar in two parts. The first part is 34, the second part is 25, "
        "the whole bar is the number to find."
    )
    assert alts[3] == "Open number line with 34 placed on it, to draw jumps on."


@pytest.mark.parametrize("name", NAMES)
def test_every_problem_stays_together(name: str) -> None:
    body = word_checks.part(rendered("sample", name)).find("w:body", word_checks.NS)
    problems: list[list[bool]] = []
    for one in body.iterfind(".//w:p", word_checks.NS):
        if word_checks.text_of(one) == "Words in this set":
            break
        if word_checks.text_of(one).startswith("Problem ") and one.getparent() is body:
            problems.append([])
        if problems:
            problems[-1].append(one.find("w:pPr/w:keepNext", word_checks.NS) is not None)
    assert len(problems) == 12
    assert all(all(one[:-1]) and not one[-1] for one in problems)


def test_two_problems_a_page_and_one_beside_a_word_bank() -> None:
    def breaks(which: str) -> list[bool]:
        return [
            one.find("w:pPr/w:pageBreakBefore", word_checks.NS) is not None
            for one in word_checks.part(rendered(which, "student.docx")).iterfind(
                ".//w:p", word_checks.NS
            )
            if word_checks.text_of(one).startswith("Problem ")
        ]

    assert breaks("l4") == [False, False, True, False]
    assert breaks("l1") == [False, True, True, True]


def test_a_right_to_left_name_has_its_own_run_and_a_mark_after_it() -> None:
    document = word_checks.part(rendered("sample", "student.docx"))
    runs = document.findall(".//w:r", word_checks.NS)
    texts = ["".join(run.itertext()) for run in runs]
    places = [index for index, one in enumerate(texts) if one == samples.HEBREW_NAME]
    assert len(places) == 5
    for place in places:
        assert runs[place].find("w:rPr/w:rtl", word_checks.NS) is not None
        assert texts[place + 1] == "\N{LEFT-TO-RIGHT MARK}"
    plain = [run for run in runs if run.find("w:rPr/w:rtl", word_checks.NS) is not None]
    assert len(plain) == len(places)


def test_text_that_looks_like_markup_stays_text() -> None:
    first = samples.PROBLEMS[0]
    evil = '</w:t><w:br/> & "quoted" ]]> <script>'
    story = replace(first.story, text=f"{evil} {first.story.text}", answer_sentence=evil)
    made = documents.render(
        replace(samples.sample_set(), problems=(replace(first, story=story),)), "docx"
    )
    for name in NAMES:
        assert any(evil in text for _, text in word_checks.paragraphs(made[name]))


def test_one_picture_part_for_each_distinct_content() -> None:
    same = replace(samples.sample_set(), problems=(samples.PROBLEMS[0],) * 5)
    with zipfile.ZipFile(io.BytesIO(documents.render(same, "docx")["key.docx"])) as archive:
        media = [name for name in archive.namelist() if name.startswith("word/media/")]
    assert media == ["word/media/picture1.png", "word/media/picture2.svg"]


def test_package_is_in_fixed_order_with_fixed_dates() -> None:
    with zipfile.ZipFile(io.BytesIO(rendered("sample", "key.docx"))) as archive:
        entries = archive.infolist()
    names = [one.filename for one in entries]
    assert names[:2] == ["[Content_Types].xml", "_rels/.rels"]
    assert names[2:] == sorted(names[2:])
    assert {one.date_time for one in entries} == {(1980, 1, 1, 0, 0, 0)}
    assert {one.create_system for one in entries} == {0}


SCRIPT = """
import hashlib
from documents import samples
from storybank import documents
from storybank.documents import Layout, kinds
layout = Layout(pages=tuple(kinds.kinds()))
for one in documents.formats():
    for name, data in documents.render(samples.sample_set(), one, layout).items():
        print(name, hashlib.sha256(data).hexdigest())
"""


def test_same_bytes_under_other_hash_seeds_and_time_zones() -> None:
    here = "".join(
        f"{name} {hashlib.sha256(data).hexdigest()}\n"
        for one in documents.formats()
        for name, data in documents.render(
            samples.sample_set(), one, Layout(pages=tuple(kinds.kinds()))
        ).items()
    )
    tests = Path(__file__).parents[1]
    for seed, zone in (("1", "Pacific/Auckland"), ("77", "America/Lima")):
        environment = {
            **os.environ,
            "PYTHONHASHSEED": seed,
            "TZ": zone,
            "PYTHONPATH": os.pathsep.join((str(tests), str(tests.parent))),
        }
        out = subprocess.run(
            [sys.executable, "-c", SCRIPT],
            env=environment, capture_output=True, text=True, check=True,
        )  # fmt: skip
        assert out.stdout == here
