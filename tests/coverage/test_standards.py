"""Standards: the codes of the Common Core, and a state's own mapping in a file."""

import json
import re
from collections import Counter
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import jsonschema
import pytest

from storybank import Request, documents, make_problem, make_set, situations, standards
from storybank.cli import main
from storybank.documents import Layout, kinds
from storybank.documents._page import Paragraph
from storybank.errors import PackError, RequestError
from storybank.model import ProblemSet

SCHEMA = json.loads((Path(documents.__file__).parent / "set_schema.json").read_text("utf-8"))
STATE = """
# Made up for the tests; no state's own.
- code: XX.K.1
  grade: K
  situations: [join-result-unknown, separate-result-unknown, whole-unknown]
  within: 10
- {code: XX.1.4(a), grade: 1, situations: [join, separate], within: 20}
- {code: XX.2.7, grade: 2, situations: [join, separate, parts, compare], within: [21, 100]}
- {code: XX.2.8, grade: 2, situations: [join], within: [21, 100], steps: 1, units: no}
- {code: XX.2.9, grade: 2, situations: [join], within: 100, units: [inches, feet]}
- {code: XX.2.10, grade: 2, situations: [join, separate], within: 100, steps: 2}
"""
Capsys = pytest.CaptureFixture[str]


@pytest.fixture
def state(tmp_path: Path) -> Path:
    path = tmp_path / "my-state.yaml"
    path.write_text(STATE, encoding="utf-8")
    return path


def made(own: Path | None, **wish: Any) -> ProblemSet:
    wish = {"strategy": ["any"], "count": 60, "seed": 5, **wish}
    return make_set(Request(standards=own, **wish))


def by_hand(situation: str, whole: int) -> tuple[str, ...]:
    """The codes that STATE gives a story in one step without a unit, read off it by hand."""
    codes = []
    results = ("join-result-unknown", "separate-result-unknown", "whole-unknown")
    if situation in results and whole <= 10:
        codes.append("XX.K.1")
    if situation.startswith(("join", "separate")) and whole <= 20:
        codes.append("XX.1.4(a)")
    if 21 <= whole <= 100:
        codes.append("XX.2.7")
        if situation.startswith("join"):
            codes.append("XX.2.8")
    return tuple(codes)


def test_a_states_codes_stand_in_place_of_ours(state: Path) -> None:
    ours, theirs = made(None), made(state)
    for before, after in zip(ours.problems, theirs.problems, strict=True):
        whole = max(after.numbers.values())
        assert after.standards == by_hand(after.situation, whole), after.situation
        assert replace(after, standards=before.standards) == before
    kinds_of = {after.standards for after in theirs.problems}
    assert len(kinds_of) >= 5 and () in kinds_of
    assert theirs.request["standards"] == "my-state.yaml"
    assert ours.request["standards"] is None
    assert str(state.parent) not in theirs.to_text()


def test_what_no_entry_covers_is_said_with_its_situations(state: Path) -> None:
    theirs = made(state)
    left = [one.situation for one in theirs.problems if not one.standards]
    (note,) = [one for one in theirs.notes if "no entry" in one]
    assert note.startswith(f"my-state.yaml has no entry for {len(left)} of 60 problems: ")
    said = dict(re.findall(r"([a-z-]+) \((\d+)\)", note))
    assert said == {name: str(left.count(name)) for name in left}
    covered = made(state, situation=["join-result-unknown"])
    assert not [one for one in covered.notes if "no entry" in one]


def test_one_problem_and_its_levels_have_the_states_codes(state: Path) -> None:
    wish = {"situation": ["join-result-unknown"], "within": 20, "seed": 2, "standards": state}
    assert "XX.1.4(a)" in make_problem(Request(**wish)).standards
    (problem,) = make_set(Request(**wish, count=1, levels_side_by_side=True)).problems
    assert {one.standards for one in problem.levels} == {problem.standards}


@pytest.mark.parametrize(
    ("steps", "unit", "expected"),
    [
        ((("join-change-unknown", 34),), "inches", ("XX.2.7", "XX.2.9")),
        ((("join-change-unknown", 34),), "dollars", ("XX.2.7",)),
        (
            (("join-result-unknown", 9), ("separate-result-unknown", 34)),
            None,
            ("XX.2.7", "XX.2.10"),
        ),
        ((("join-result-unknown", 9), ("part-unknown", 12)), None, ()),
    ],
)
def test_units_and_steps_of_later_kinds(
    steps: tuple[tuple[str, int], ...], unit: str | None, expected: tuple[str, ...], state: Path
) -> None:
    """A stand-in with the keys of design for two steps and units; the largest number counts."""
    told: Any = SimpleNamespace(
        steps=[SimpleNamespace(situation=name, numbers={"whole": whole}) for name, whole in steps],
        story=SimpleNamespace(unit=unit),
    )
    assert standards.read(state).codes(told) == expected


def test_sets_with_any_codes_follow_the_schema(state: Path) -> None:
    validator = jsonschema.Draft202012Validator(SCHEMA)
    theirs, ours = made(state).to_json(), made(None).to_json()
    validator.validate(theirs)
    validator.validate(ours)
    # Without a state's file our own codes are held to their form.
    for codes in ([], ["XX.2.7"]):
        ours["problems"][0]["standards"] = codes
        with pytest.raises(jsonschema.ValidationError):
            validator.validate(ours)


BAD = {
    "a mapping": ("code: A\n", ["line 1", "a list of entries", "- {code:"]),
    "nothing": ("# none\n", ["line 1", "a list of entries"]),
    "no mapping in it": ("- join\n", ["line 1", "an entry has keys"]),
    "misspelt key": (
        "- {code: A, grade: 1, situation: [join], situations: [join], within: 20}\n",
        ["line 1", 'no key "situation"', 'Did you mean "situations"?'],
    ),
    "missing keys": ("-\n  code: A\n  grade: 1\n", ["line 2", "lacks situations, within"]),
    "code": ('- {code: "A;B", grade: 1, situations: [join], within: 20}\n', ['code is "A;B"']),
    "grade": (
        "- {code: A, grade: second, situations: [join], within: 20}\n",
        ["line 1", 'grade is "second"', "K or a number from 1 to 8"],
    ),
    "situation": (
        "- code: A\n  grade: 1\n  within: 20\n  situations:\n    - join\n    - join-start\n",
        ["line 6", 'no situation or family "join-start"', 'Did you mean "join-start-unknown"?'],
    ),
    "no situations": (
        "- {code: A, grade: 1, situations: [], within: 20}\n",
        ["line 1", "situations is []", "[join, part-unknown]"],
    ),
    "within turned round": (
        "- {code: A, grade: 1, situations: [join], within: [100, 21]}\n",
        ["within is [100, 21]", "the smallest and the largest"],
    ),
    "within too large": (
        "- {code: A, grade: 1, situations: [join], within: 5000}\n",
        ['within is "5000"', "from 1 to 1000"],
    ),
    "steps": (
        "- {code: A, grade: 1, situations: [join], within: 20, steps: 3}\n",
        ['steps is "3"', "1 or 2"],
    ),
    "units": (
        "- {code: A, grade: 1, situations: [join], within: 20, units: Inches}\n",
        ['units is "Inches"', "[cm, dollars]"],
    ),
    "two grades": (
        "- {code: A, grade: 1, situations: [join], within: 20}\n"
        "- {code: A, grade: 2, situations: [join], within: 20}\n",
        ["line 2", "A is of grade 2 here and of grade 1 above"],
    ),
    "key twice": (
        "- {code: A, grade: 1, grade: 2, situations: [join], within: 20}\n",
        ["line 1", 'the key "grade" stands twice'],
    ),
    "no YAML": ("- {code: A\n", ["not valid YAML"]),
}


@pytest.mark.parametrize("name", BAD)
def test_a_faulty_file_is_explained_and_nothing_is_written(
    name: str, tmp_path: Path, capsys: Capsys
) -> None:
    text, words = BAD[name]
    path = tmp_path / "bad.yaml"
    path.write_text(text, encoding="utf-8")
    out = tmp_path / "out"
    assert main(["make", "--standards", str(path), "--seed", "1", "--out", str(out)]) == 2
    said = capsys.readouterr()
    assert said.err.startswith("storybank: bad.yaml, line")
    assert all(word in said.err for word in words), said.err
    assert said.out == "" and not out.exists()


def test_every_fault_of_a_file_is_named_at_once(tmp_path: Path) -> None:
    path = tmp_path / "bad.yaml"
    path.write_text(
        "- {code: A, grade: 9, situations: [jion], within: 20}\n- 3\n"
        "- {code: B, grade: 1, situations: [join], within: none}\n",
        encoding="utf-8",
    )
    with pytest.raises(PackError) as error:
        standards.read(path)
    lines = str(error.value).splitlines()
    assert [re.match(r"bad\.yaml, line (\d)", line)[1] for line in lines] == ["1", "1", "2", "3"]


def test_a_file_that_is_not_there_or_no_text(tmp_path: Path) -> None:
    with pytest.raises(RequestError, match=r'"nowhere\.yaml" is not there.*leave --standards out'):
        standards.read(tmp_path / "nowhere.yaml")
    with pytest.raises(RequestError, match="no file"):
        standards.read(tmp_path)
    (tmp_path / "bad.yaml").write_bytes(b"- {code: \xff}\n")
    with pytest.raises(PackError, match="byte 9 is not UTF-8"):
        standards.read(tmp_path / "bad.yaml")


def test_the_settings_may_name_the_file(
    state: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capsys
) -> None:
    monkeypatch.chdir(state.parent)
    Path("storybank.yaml").write_text("standards: my-state.yaml\n", encoding="utf-8")
    assert main(["make", "--count", "2", "--seed", "1", "--format", "json", "--out", "-"]) == 0
    assert json.loads(capsys.readouterr().out)["request"]["standards"] == "my-state.yaml"


def test_coverage_with_the_file_tells_grades_and_what_nothing_practices(
    state: Path, capsys: Capsys
) -> None:
    theirs = made(state)
    path = state.parent / "set.json"
    path.write_text(theirs.to_text(), encoding="utf-8")
    counts = Counter(code for one in theirs.problems for code in one.standards)
    assert main(["coverage", str(path), "--standards", str(state), "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert [(one["code"], one["grade"], one["count"]) for one in found["standards"]] == [
        (code, grade, counts[code])
        for code, grade in (("XX.K.1", "K"), ("XX.1.4(a)", "1"), ("XX.2.7", "2"), ("XX.2.8", "2"),
                            ("XX.2.9", "2"), ("XX.2.10", "2"))
    ]  # fmt: skip
    assert counts["XX.2.9"] == 0 < counts["XX.2.7"]
    assert found["without_standard"] == sum(not one.standards for one in theirs.problems) > 0
    assert main(["coverage", str(path), "--json"]) == 0
    plain = json.loads(capsys.readouterr().out)
    assert [(one["code"], one["grade"]) for one in plain["standards"]] == [
        (code, None) for code in sorted(counts)
    ]
    assert main(["coverage", str(path), "--standards", str(path)]) == 2
    assert "set.json, line 1: standards are a list" in capsys.readouterr().err


def test_the_list_names_every_code_that_problems_have(capsys: Capsys) -> None:
    assert main(["list", "standards", "--json"]) == 0
    listed = {one["id"]: one for one in json.loads(capsys.readouterr().out)}
    given = {
        code
        for name in situations.ids()
        for whole in range(2, 1001)
        for code in situations.standards(situations.get(name), whole)
    }
    assert given <= set(listed)
    # A code of the Common Core is grade, domain, standard (CCSS-M 2010, page 5).
    for code, one in listed.items():
        grade, domain, number = code.split(".")
        assert one["grade"] == grade and domain in ("OA", "NBT", "MD") and number.isdigit()
        assert one["title"].endswith(".") and len(one["title"]) <= 75
    assert main(["list", "standards"]) == 0
    assert "2.OA.1   Story problems to 100" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("code", "words"),
    [
        # What each asks for: CCSS-M (2010), grade by grade.
        ("K.OA.2", ["10", "add", "take away"]),
        ("K.OA.3", ["10", "apart", "two parts"]),
        ("1.OA.1", ["20", "unknown in any place"]),
        ("1.OA.2", ["20", "three numbers"]),
        ("1.OA.6", ["20", "making a ten"]),
        ("2.OA.1", ["100", "one and two steps", "unknown in any place"]),
        ("2.OA.2", ["20", "in the head"]),
        ("2.NBT.5", ["100", "place value"]),
        ("2.NBT.7", ["1000", "place value"]),
        ("2.MD.5", ["100", "lengths", "one unit"]),
        ("2.MD.8", ["dollars", "cents"]),
    ],
)
def test_texts_say_what_the_standard_asks(code: str, words: list[str]) -> None:
    (found,) = [one for one in standards.common_core() if one.code == code]
    assert all(word in found.text for word in words)


def test_pages_for_the_teacher_name_the_standards_and_those_for_children_do_not(
    state: Path,
) -> None:
    for problem_set in (made(None, count=12), made(state, count=12)):
        named = [", ".join(one.standards) for one in problem_set.problems if one.standards]
        key = lead(problem_set, "key", Layout())
        assert key == named
        assert lead(problem_set, "key", Layout(large_print=True)) == named
        shown = lead(problem_set, "model", Layout())
        assert shown and set(shown) <= set(named)
        codes = {code for one in problem_set.problems for code in one.standards}
        for kind, module in kinds.kinds().items():
            if module.FOR_CHILDREN:
                text = repr(kinds.page(kind, problem_set, Layout()))
                assert not [code for code in codes if code in text], kind


def lead(problem_set: ProblemSet, kind: str, layout: Layout) -> list[str]:
    """The lines of a kind of page that name standards."""
    blocks = kinds.page(kind, problem_set, layout).flat()
    return [one.text for one in blocks if isinstance(one, Paragraph) and one.lead == "Standards:"]
