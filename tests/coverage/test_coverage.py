"""Coverage against a recount from the JSON by other means, and against CCSS-M Table 1."""

import json
import re
from collections import Counter
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from storybank import Request, make_set, situations, strategies
from storybank.cli import main
from storybank.coverage import count, coverage, covered, read_sets
from storybank.errors import PackError, RequestError
from storybank.model import ProblemSet
from storybank.model.coverage import Coverage

Capsys = pytest.CaptureFixture[str]
SETS = {
    "no wishes": make_set(Request(count=40, seed=3)),
    "any strategy": make_set(Request(strategy=["any"], count=60, seed=3)),
    "within 20": make_set(Request(within=20, count=40, seed=4)),
    "within 1000": make_set(Request(within=1000, count=30, seed=4)),
    "level 1": make_set(Request(strategy=["any"], vocabulary="level-1", count=30, seed=5)),
    "side by side": make_set(Request(strategy=["any"], levels_side_by_side=True, count=12, seed=6)),
}
# CCSS-M glossary, Table 1: grades of expected mastery by kind and unknown. In kindergarten add to
# and take from with the result unknown, put together with the total or both addends unknown; in
# grade 2 the start unknown, and the two comparisons whose word suggests the wrong operation.
TABLE_1 = {
    ("Join", "result"): "K", ("Join", "change"): "1", ("Join", "start"): "2",
    ("Separate", "result"): "K", ("Separate", "change"): "1", ("Separate", "start"): "2",
    ("Put together", "whole"): "K", ("Put together", "one part"): "1",
    ("Put together", "both parts"): "K",
    ("Compare, more", "difference"): "1", ("Compare, more", "bigger"): "1",
    ("Compare, more", "smaller"): "2",
    ("Compare, fewer", "difference"): "1", ("Compare, fewer", "bigger"): "2",
    ("Compare, fewer", "smaller"): "1",
}  # fmt: skip
GRADES = ("K", "1", "2")


def problems_of(problem_set: ProblemSet) -> list[dict[str, Any]]:
    return json.loads(problem_set.to_text())["problems"]


@pytest.mark.parametrize("name", SETS)
def test_counts_are_those_of_a_recount(name: str) -> None:
    found, told = coverage(SETS[name].problems), problems_of(SETS[name])
    assert found.problems == found.steps == len(told)
    by_situation = Counter(one["situation"] for one in told)
    assert {one.situation: one.count for one in found.cells} == {
        name: by_situation[name] for name in situations.ids()
    }
    named = Counter(one["strategy"] for one in told)
    assert found.without_strategy == named.pop(None, 0)
    assert {one: n for one, n in found.strategies.items() if n} == dict(named)
    assert list(found.strategies) == [one.id for one in strategies.by_rank()]
    # A pair of both parts has no operation; the sign of the equation to solve tells the others.
    signs = Counter(
        "list" if one["unknown"] == "parts"
        else "+" if "+" in one["equations"]["solution"] else "-"
        for one in told
    )  # fmt: skip
    assert found.operations == {sign: signs[sign] for sign in ("+", "-", "list")}
    codes = Counter(code for one in told for code in one["standards"])
    assert {one.code: one.count for one in found.standards} == codes
    assert all(one.grade == one.code[0] and one.text for one in found.standards)
    assert (found.without_standard, found.two_steps, found.three_addends) == (0, 0, 0)
    levels = Counter(level["vocabulary"] for one in told for level in one.get("levels", [one]))
    assert found.levels == levels
    assert found.units == {}


@pytest.mark.parametrize("name", SETS)
def test_numbers_and_regrouping_are_those_of_a_recount(name: str) -> None:
    found, told = coverage(SETS[name].problems), problems_of(SETS[name])
    largest = [max(one["numbers"].values()) for one in told]
    assert found.sizes == {
        "to 10": sum(one <= 10 for one in largest),
        "11 to 20": sum(10 < one <= 20 for one in largest),
        "21 to 100": sum(20 < one <= 100 for one in largest),
        "101 to 1000": sum(one > 100 for one in largest),
    }
    # As solved, from the pair: the ones of a + b make ten, or those of a are too few for b.
    pairs = [one["solution"] for one in told if one["unknown"] != "parts"]
    regrouping = sum(
        one["a"] % 10 + one["b"] % 10 > 9 if one["operation"] == "+"
        else one["a"] % 10 < one["b"] % 10
        for one in pairs
    )  # fmt: skip
    assert (found.regrouping, found.with_ones) == (regrouping, len(pairs))


@pytest.mark.parametrize("name", SETS)
def test_keywords_are_those_of_a_recount(name: str) -> None:
    found, told = coverage(SETS[name].problems), problems_of(SETS[name])
    words = [" ".join(re.findall(r"[a-z']+", one["text"].lower())) for one in told]
    operations = [one["solution"].get("operation", "list") for one in told]
    for use in found.keywords:
        in_story = [f" {use.word} " in f" {text} " for text in words]
        where = Counter(op for op, here in zip(operations, in_story, strict=True) if here)
        assert (use.stories, use.adding, use.taking_away, use.both, use.neither) == (
            sum(in_story), where["+"], where["-"], 0, where["list"],
        )  # fmt: skip
    assert [use.word for use in found.keywords] == [
        "more", "fewer", "left", "altogether", "in all", "total",
    ]  # fmt: skip
    without = sum(not any(f" {use.word} " in f" {text} " for use in found.keywords)
                  for text in words)  # fmt: skip
    assert found.without_keyword == without


def test_cells_are_those_of_table_1_in_its_order() -> None:
    cells = coverage(SETS["no wishes"].problems).cells
    assert {(one.kind, one.unknown): one.grade for one in cells} == TABLE_1
    assert [(one.kind, one.unknown) for one in cells] == list(TABLE_1)


@pytest.mark.parametrize("situation", situations.ids())
def test_every_situation_has_its_own_cell(situation: str) -> None:
    made = make_set(Request(situation=[situation], count=3, seed=1))
    found = coverage(made.problems)
    (cell,) = [one for one in found.cells if one.count]
    assert (cell.situation, cell.count) == (situation, 3)
    grade = TABLE_1[cell.kind, cell.unknown]
    assert found.grades == {one: 3 * (one == grade) for one in GRADES}
    assert [found.beyond(one) for one in GRADES] == [
        3 * (GRADES.index(grade) > at) for at in range(3)
    ]


def test_nothing_is_refused_beyond_a_grade_but_said(tmp_path: Path, capsys: Capsys) -> None:
    write(tmp_path / "a.json", make_set(Request(situation=["join-start-unknown"], count=4, seed=1)))
    assert main(["coverage", str(tmp_path / "a.json")]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "4 of 4 are beyond kindergarten, 4 of 4 are beyond grade 1." in said


def test_several_sets_count_together(tmp_path: Path) -> None:
    names = ("no wishes", "any strategy", "within 20")
    paths = [write(tmp_path / f"{at}.json", SETS[name]) for at, name in enumerate(names)]
    together = count(read_sets(paths))
    assert together == coverage([one for name in names for one in SETS[name].problems])
    assert together.problems == 140
    apart = [coverage(SETS[name].problems) for name in names]
    for at, cell in enumerate(together.cells):
        assert cell.count == sum(one.cells[at].count for one in apart)
    assert together.regrouping == sum(one.regrouping for one in apart)


@pytest.mark.parametrize("name", SETS)
def test_a_file_gives_what_its_problems_give(name: str, tmp_path: Path) -> None:
    path = write(tmp_path / "set.json", SETS[name])
    assert count(read_sets([path])) == coverage(SETS[name].problems)


# Later kinds, in the shape that the set format keeps for them.


def plain(**changes: Any) -> dict[str, Any]:
    story: dict[str, Any] = {
        "situation": "join-result-unknown", "strategy": "make-a-ten", "vocabulary": "level-4",
        "standards": ["2.OA.1"], "text": "Ida had 8 eggs. Then she found 5 eggs. How many now?",
        "numbers": {"start": 8, "change": 5, "end": 13},
        "solution": {"operation": "+", "a": 8, "b": 5},
    }  # fmt: skip
    return {**story, **changes}


def counted(*told: dict[str, Any]) -> Coverage:
    return count([covered(one) for one in told])


def test_each_step_of_two_counts() -> None:
    first = {key: plain()[key] for key in ("situation", "strategy", "numbers", "solution")}
    second = {
        "situation": "separate-result-unknown", "strategy": "count-on",
        "numbers": {"end": 11, "change": 2, "start": 13},
        "solution": {"operation": "-", "a": 13, "b": 2},
    }  # fmt: skip
    nothing = dict.fromkeys(("situation", "numbers", "solution"))
    text = "Ida had 8 eggs. She got 5 more eggs. Then she used 2 eggs. How many are left?"
    found = counted(plain(), plain(**nothing, text=text, steps=[first, second]))
    assert (found.problems, found.steps, found.two_steps) == (2, 3, 1)
    cells = {one.situation: one.count for one in found.cells if one.count}
    assert cells == {"join-result-unknown": 2, "separate-result-unknown": 1}
    assert found.operations == {"+": 2, "-": 1, "list": 0}
    assert {name: n for name, n in found.strategies.items() if n} == {
        "make-a-ten": 2,
        "count-on": 1,
    }
    assert (found.regrouping, found.with_ones) == (2, 3)
    both = {one.word: one.both for one in found.keywords if one.stories}
    assert both == {"more": 1, "left": 1}
    assert found.sizes["11 to 20"] == 2


def test_three_addends_and_units_count() -> None:
    three = plain(
        situation="whole-unknown",
        numbers={"part1": 4, "part2": 3, "part3": 3, "whole": 10},
        solution={"operation": "+", "a": 7, "b": 3},
    )
    apart = plain(
        numbers={"part1": 12, "part2": 13, "part3": 14, "whole": 39}, situation="whole-unknown"
    )
    found = counted(three, apart, plain(unit="inches"))
    assert (found.three_addends, found.units) == (2, {"inches": 1})
    # 4 + 3 + 3 makes a ten, 2 + 3 + 4 of the ones does not, 8 + 5 does.
    assert (found.regrouping, found.with_ones) == (2, 3)
    assert (found.sizes["to 10"], found.sizes["21 to 100"]) == (1, 1)


def test_each_set_of_numbers_of_a_story_counts() -> None:
    sets = [
        {"numbers": {"start": first, "change": second, "end": first + second},
         "strategy": strategy, "solution": {"operation": "+", "a": first, "b": second}}
        for first, second, strategy in ((8, 5, "make-a-ten"), (30, 28, "skip-count"), (2, 3, None))
    ]  # fmt: skip
    found = counted(plain(number_sets=sets), plain())
    assert (found.problems, found.steps, found.further_numbers) == (2, 2, 2)
    assert found.sizes == {"to 10": 1, "11 to 20": 2, "21 to 100": 1, "101 to 1000": 0}
    assert (found.regrouping, found.with_ones) == (2, 4)
    named = {name: n for name, n in found.strategies.items() if n}
    assert named == {"skip-count": 1, "make-a-ten": 2}


def test_what_this_version_does_not_know_has_a_place_of_its_own() -> None:
    found = counted(plain(situation="equal-groups", strategy="by-rows", standards=["ZZ.1"]))
    cell = found.cells[-1]
    assert (cell.kind, cell.unknown, cell.grade, cell.count) == ("Other", "equal-groups", None, 1)
    assert len(found.cells) == 16 and sum(found.grades.values()) == 0
    assert found.strategies["by-rows"] == 1
    assert [(one.code, one.grade, one.text) for one in found.standards] == [("ZZ.1", None, "")]
    assert counted(plain(numbers={"a": 900, "b": 900, "c": 1800})).sizes["over 1000"] == 1


# Files that are none.

BAD: dict[str, tuple[str | bytes | list[Any], list[str]]] = {
    "no JSON": ("{not json", ["line 1", "not valid JSON", "--format json"]),
    "a Word file": (b"PK\x03\x04\xff\xfe", ["byte 4 is not UTF-8", "not its Word"]),
    "something else": ('{"a": 1}', ["no set of problems", "storybank-set/1", "names none"]),
    "a list": ("[1, 2]", ["no set of problems"]),
    "another format": ('{"format": "storybank-set/9"}', ['"format" is "storybank-set/9"']),
    "no problems": ('{"format": "storybank-set/1", "problems": []}', ['holds no "problems"']),
    "nested": ("[" * 200_000, ["nested too deeply"]),
    "a problem that is none": ([3], ["set.json, problem 1", "no object"]),
    "no text": ([plain(), plain(text="")], ["set.json, problem 2", 'no "text"']),
    "no standards": ([plain(standards="2.OA.1")], ["problem 1", '"standards" is no list']),
    "no numbers": ([plain(numbers={"start": "8"})], ["problem 1", '"numbers"']),
    "sum": ([plain(numbers={"a": 8, "b": 5, "c": 14})], ["8, 5, 14", "do not add up"]),
    "situation": ([plain(situation=None)], ['"situation" is "None"']),
    "strategy": ([plain(strategy="\u00fc\n")], ['"strategy" is "\u00fc"', "no strategy"]),
    "steps": ([plain(steps=[3])], ['"steps" is no list of objects']),
    "vocabulary": ([plain(vocabulary=4)], ['"vocabulary" is "4"']),
}


@pytest.mark.parametrize("name", BAD)
def test_a_file_that_holds_no_set_is_explained(name: str, tmp_path: Path, capsys: Capsys) -> None:
    content, words = BAD[name]
    path = tmp_path / "set.json"
    if isinstance(content, list):
        content = json.dumps({"format": "storybank-set/1", "problems": content})
    path.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))
    out = tmp_path / "out"
    assert main(["coverage", str(path), "--out", str(out)]) == 2
    said = capsys.readouterr()
    assert said.out == "" and said.err.startswith("storybank: set.json")
    assert all(word in said.err for word in words), said.err
    assert not out.exists()


def test_files_that_are_not_there_or_named_twice(tmp_path: Path) -> None:
    path = write(tmp_path / "set.json", SETS["no wishes"])
    with pytest.raises(RequestError, match=r'no file "sett\.json"'):
        read_sets([tmp_path / "sett.json"])
    with pytest.raises(RequestError, match="named twice"):
        read_sets([path, tmp_path / "." / "set.json"])
    with pytest.raises(PackError, match="problem 1"):
        read_sets([write(tmp_path / "bad.json", replaced("text", None))])


def replaced(key: str, value: Any) -> dict[str, Any]:
    node = replace(SETS["no wishes"]).to_json()
    return {**node, "problems": [{**node["problems"][0], key: value}]}


def write(path: Path, value: ProblemSet | dict[str, Any]) -> Path:
    text = value.to_text() if isinstance(value, ProblemSet) else json.dumps(value)
    path.write_text(text, encoding="utf-8")
    return path


# The command.


def test_the_command_prints_json_and_a_table(tmp_path: Path, capsys: Capsys) -> None:
    path = str(write(tmp_path / "set.json", SETS["any strategy"]))
    found = coverage(SETS["any strategy"].problems)
    assert main(["coverage", path, "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == json.loads(json.dumps(found.to_json()))
    assert main(["coverage", path]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert "60 story problems." in lines
    assert max(map(len, lines)) <= 100
    rows = {re.split(r"\s{2,}", line.strip())[0]: re.split(r"\s{2,}", line.strip())[1:]
            for line in lines if line.startswith("  ")}  # fmt: skip
    for kind in ("Join", "Separate", "Put together", "Compare, more", "Compare, fewer"):
        cells = [one for one in found.cells if one.kind == kind]
        assert rows[kind] == [f"{one.unknown}: {one.count}" for one in cells]
    for use in found.keywords:
        assert [rows[use.word][at] for at in (0, 2, 3)] == [
            str(use.stories), str(use.adding), str(use.taking_away),
        ]  # fmt: skip
    assert sorted(one.name for one in tmp_path.iterdir()) == ["set.json"]


@pytest.mark.parametrize(
    ("options", "words"),
    [
        (["--format", "html"], ["--format", "--out FOLDER"]),
        (["--overwrite"], ["--overwrite", "--out FOLDER"]),
        (["--large-print"], ["--large-print", "--out FOLDER"]),
        (["--out", "O", "--format", "pdf"], ['"pdf"', "docx, html"]),
        (["--out", "O", "--format", ","], ["--format is empty", "docx, html"]),
        (["--out", "O", "--format", "csv"], ['"csv"', "docx, html"]),
        (["--paper", "a5"], ['no paper "a5"', "letter, a4"]),
    ],
)
def test_wishes_that_cannot_be_met(
    options: list[str], words: list[str], tmp_path: Path, capsys: Capsys
) -> None:
    path = str(write(tmp_path / "set.json", SETS["no wishes"]))
    out = tmp_path / "new"
    options = [str(out) if one == "O" else one for one in options]
    assert main(["coverage", path, *options]) == 2
    said = capsys.readouterr()
    assert said.out == "" and all(word in said.err for word in words), said.err
    assert not out.exists()


def test_documents_are_written_all_or_none(tmp_path: Path, capsys: Capsys) -> None:
    path = str(write(tmp_path / "set.json", SETS["no wishes"]))
    out = tmp_path / "out"
    wish = ["coverage", path, "--out", str(out), "--format", "docx,html"]
    assert main(wish) == 0
    assert sorted(one.name for one in out.iterdir()) == ["coverage.docx", "coverage.html"]
    first = {one.name: one.read_bytes() for one in out.iterdir()}
    capsys.readouterr()
    assert main(wish) == 2
    assert "already holds" in capsys.readouterr().err
    assert main([*wish, "--overwrite"]) == 0
    assert {one.name: one.read_bytes() for one in out.iterdir()} == first
