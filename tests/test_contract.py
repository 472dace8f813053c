"""The contract seen from outside: commands, the JSON of a set, defaults, exit codes, names."""

import csv
import json
import re
from importlib.resources import files
from pathlib import Path

import jsonschema
import pytest

import storybank
from storybank import Request, make_problem, make_set, situations, strategies, themes, vocabulary
from storybank.cli import main

SCHEMA = json.loads(
    files("storybank").joinpath("documents", "set_schema.json").read_text(encoding="utf-8")
)
OPTIONS = {
    "theme", "strategy", "situation", "within", "count", "vocabulary", "pair", "crossing",
    "allow", "forbid", "without", "festivals",
    "diagnose", "names", "names_from", "seed", "keywords", "levels_side_by_side",
    "home_language", "translations", "standards", "number_sets", "extra_number", "missing",
}  # fmt: skip


def made_as_json(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> dict:
    assert main(["make", *arguments, "--format", "json", "--out", "-"]) == 0
    return json.loads(capsys.readouterr().out)


@pytest.mark.parametrize("level", vocabulary.ids())
def test_a_set_follows_its_json_schema(level: str, capsys: pytest.CaptureFixture[str]) -> None:
    made = made_as_json(
        ["--vocabulary", level, "--strategy", "any", "--count", "30", "--seed", "4"], capsys
    )
    jsonschema.validate(made, SCHEMA, cls=jsonschema.Draft202012Validator)


def test_the_schema_refuses_a_set_with_a_key_missing(capsys: pytest.CaptureFixture[str]) -> None:
    made = made_as_json(["--count", "1", "--seed", "4"], capsys)
    del made["problems"][0]["watch_for"]
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(made, SCHEMA, cls=jsonschema.Draft202012Validator)


def test_the_request_is_stored_with_every_default_filled_in(
    capsys: pytest.CaptureFixture[str],
) -> None:
    request = made_as_json(["--seed", "9"], capsys)["request"]
    assert set(request) == OPTIONS
    assert request["strategy"] == ["friendly-then-compensate"]
    assert request["theme"] == [one.id for one in themes.headers() if one.observance is None]
    assert (request["within"], request["count"], request["seed"]) == (100, 12, 9)
    assert request["vocabulary"] == "level-4"
    assert request["crossing"] == "any"
    for key in ("allow", "forbid", "without", "festivals"):
        assert request[key] == []


def test_changes_stand_in_the_request_where_there_are_some(
    capsys: pytest.CaptureFixture[str],
) -> None:
    changes = ["swap-2", "numbers-1", "level-3-level-2", "renew-1-3", "up-2", "more", "remove-1"]
    made = made_as_json(["--seed", "9", "--count", "3", "--change", *changes], capsys)
    assert set(made["request"]) == OPTIONS | {"change"}
    assert made["request"]["change"] == changes
    jsonschema.validate(made, SCHEMA, cls=jsonschema.Draft202012Validator)
    made["request"]["change"] = ["swop-2"]
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(made, SCHEMA, cls=jsonschema.Draft202012Validator)


@pytest.mark.parametrize(
    "wish", [["--within", "20"], ["--situation", "part-unknown"], ["--pair", "46 + 38"]]
)
def test_any_strategy_once_a_wish_is_open(
    wish: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    made = made_as_json([*wish, "--count", "2", "--seed", "9"], capsys)
    assert made["request"]["strategy"] == ["any"]


def test_a_seed_is_drawn_printed_and_stored(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["make", "--count", "1", "--format", "json", "--out", "-"]) == 0
    said = capsys.readouterr()
    seed = json.loads(said.out)["request"]["seed"]
    assert re.search(rf"\b{seed}\b", said.err)


def test_both_parts_has_its_own_shape(capsys: pytest.CaptureFixture[str]) -> None:
    made = made_as_json(
        ["--situation", "both-parts-unknown", "--count", "3", "--seed", "2"], capsys
    )
    for problem in made["problems"]:
        whole = problem["numbers"]["whole"]
        assert problem["numbers"] == {"whole": whole}
        assert (problem["strategy"], problem["unknown"]) == (None, "parts")
        assert problem["given"] == [whole]
        # CCSS-M Table 1, both addends unknown: all ordered pairs, zero included.
        assert problem["answer"] == [[part, whole - part] for part in range(whole + 1)]
        assert problem["equations"] == dict.fromkeys(("situation", "solution"), f"{whole} = ? + ?")
        assert problem["related_facts"] == problem["watch_for"] == []
        lines = [f"{whole} = {part} + {whole - part}" for part in range(whole + 1)]
        assert problem["solution"] == {"lines": lines, "answer_is": "all lines"}


def test_levels_one_to_three_ask_on_a_line_of_their_own() -> None:
    for level in vocabulary.ids():
        for problem in make_set(Request(vocabulary=level, count=6, seed=1)).problems:
            told, asked = problem.story.sentences[:-1], problem.story.sentences[-1]
            join = " " if level == "level-4" else "\n"
            assert problem.text == f"{' '.join(told)}{join}{asked}"


@pytest.mark.parametrize("share", [0, 25, 50, 100])
def test_a_percentage_of_problems_regroups(share: int) -> None:
    made = make_set(
        Request(
            strategy=["any"],
            crossing=str(share),
            count=20,
            seed=3,
            situation=["join-result-unknown", "separate-result-unknown"],
        )
    ).problems
    regrouping = 0
    for problem in made:
        a, b = problem.solution.a, problem.solution.b
        assert a is not None and b is not None
        adding = problem.solution.operation == "+"
        regrouping += a % 10 + b % 10 >= 10 if adding else a % 10 < b % 10
    assert regrouping == share * 20 // 100


def test_diagnosis_tells_mistakes_apart() -> None:
    wish = Request(
        diagnose=True,
        situation=["separate-result-unknown"],
        strategy=["friendly-then-compensate"],
        count=10,
        seed=5,
    )
    for problem in make_set(wish).problems:
        answers = [entry.answer for entry in problem.watch_for]
        assert len(answers) >= 3
        assert len(set(answers)) == len(answers)
        assert problem.answer not in answers
        for entry in problem.watch_for:
            twins = {"landing-not-jumps", "number-from-story"}
            assert len(entry.mistakes) == 1 or set(entry.mistakes) == twins


def test_pairs_are_told_as_asked_and_the_fitting_strategy_is_said(
    capsys: pytest.CaptureFixture[str],
) -> None:
    pairs = ["--pair", "46 + 38", "82 - 47", "--count", "6", "--seed", "1"]
    assert main(["make", *pairs, "--format", "json", "--out", "-"]) == 0
    said = capsys.readouterr()
    problems = json.loads(said.out)["problems"]
    assert [sorted(problem["given"]) for problem in problems] == [[38, 46], [47, 82]] * 3
    assert len({problem["text"] for problem in problems}) == 6
    assert "46 + 38: friendly-then-compensate, give-and-take fit." in said.err
    assert "82 - 47: " in said.err


@pytest.mark.parametrize(
    "kind",
    ["themes", "situations", "strategies", "vocabulary", "rules", "mistakes", "formats", "names"],
)
def test_list_gives_objects_with_id_and_title(
    kind: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["list", kind, "--json"]) == 0
    entries = json.loads(capsys.readouterr().out)
    assert entries
    assert all(entry["id"] and entry["title"] for entry in entries)
    assert main(["list", kind]) == 0
    lines = capsys.readouterr().out
    assert all(entry["id"] in lines for entry in entries)


def test_explain_lists_by_rank_and_then_by_jumps(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", "46 + 38", "--json"]) == 0
    entries = json.loads(capsys.readouterr().out)
    keys = {"strategy", "rank", "fits", "jumps", "lines", "answer", "answer_is", "why"}
    assert all(set(entry) == keys and entry["answer"] == 84 for entry in entries)
    order = [(entry["rank"], len(entry["jumps"])) for entry in entries]
    assert [rank for rank, _ in order] == sorted(rank for rank, _ in order)
    fitting = {entry["strategy"] for entry in entries if entry["fits"]}
    assert fitting == {"friendly-then-compensate", "give-and-take"}


def test_a_table_of_a_set_has_a_row_a_problem(tmp_path: Path) -> None:
    wish = ["make", "--count", "5", "--seed", "6", "--format", "csv,json", "--out", str(tmp_path)]
    assert main(wish) == 0
    with (tmp_path / "set.csv").open(encoding="utf-8-sig", newline="") as table:
        rows = list(csv.DictReader(table))
    problems = json.loads((tmp_path / "set.json").read_text(encoding="utf-8"))["problems"]
    assert [row["code"] for row in rows] == [problem["code"] for problem in problems]


def test_the_public_names_are_complete_and_there() -> None:
    for name in storybank.__all__:
        assert getattr(storybank, name) is not None
    wanted = {"Request", "make_set", "make_problem", "explain", "write_document", "StorybankError"}
    assert wanted <= set(storybank.__all__)
    with pytest.raises(AttributeError):
        storybank.no_such_name  # noqa: B018


def test_make_problem_gives_the_first_of_the_set() -> None:
    request = Request(seed=8, count=3)
    assert make_problem(request).text == make_set(request).problems[0].text


def test_new_names_are_written_and_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["new-names", "--from", "es_MX"]) == 0
    assert main(["new-names", "--from", "es_MX"]) == 2
    capsys.readouterr()
    made = made_as_json(["--names-from", "es_MX", "--count", "4", "--seed", "1"], capsys)
    listed = (tmp_path / "es_MX.names.csv").read_text(encoding="utf-8")
    people = [name for problem in made["problems"] for name in problem["people"]]
    assert people
    assert all(re.search(rf"^{name},", listed, re.MULTILINE) for name in people)


def test_every_situation_and_every_strategy_alone_makes_a_set() -> None:
    for situation in situations.ids():
        assert len(make_set(Request(situation=[situation], count=4, seed=2)).problems) == 4
    for strategy in strategies.ids():
        assert len(make_set(Request(strategy=[strategy], count=4, seed=2)).problems) == 4


def test_a_slow_make_says_how_far_it_is(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("storybank.cli._progress._REPORT_AFTER", 0.0)
    wish = ["make", "--count", "3", "--seed", "1", "--format", "json", "--out", "-"]
    assert main(wish) == 0
    said = capsys.readouterr()
    assert "1 of 3 problems made" in said.err
    assert json.loads(said.out)["format"] == "storybank-set/1"
