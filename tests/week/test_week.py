"""A week hangs together: recounted from its files by means that know nothing of its making."""

import json
import re
from collections import Counter
from dataclasses import replace
from pathlib import Path
from typing import Any

import docx
import jsonschema
import pytest
from reader import read
from week.plans import GOOD, SHORT

from storybank import themes
from storybank.cli import main
from storybank.documents.json import SCHEMA
from storybank.explanation import explain
from storybank.week import Plan, make_week, read_plan

DAYS = ("1-monday", "2-tuesday", "3-wednesday", "4-thursday", "5-friday")
TAUGHT = ("tens-then-ones", "next-ten-first", "friendly-then-compensate", "count-up")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The files of a week of five days and three groups."""
    place = tmp_path_factory.mktemp("week")
    (place / "plan.yaml").write_text(GOOD, encoding="utf-8")
    assert main(["week", str(place / "plan.yaml"), "--out", str(place / "week")]) == 0
    return place / "week"


@pytest.fixture(scope="module")
def plan(tmp_path_factory: pytest.TempPathFactory) -> Plan:
    path = tmp_path_factory.mktemp("plan") / "plan.yaml"
    path.write_text(GOOD, encoding="utf-8")
    return read_plan(path)


def sets(folder: Path) -> dict[str, dict[str, Any]]:
    return {day: json.loads((folder / f"{day}.json").read_text("utf-8")) for day in DAYS}


def problems(folder: Path) -> list[dict[str, Any]]:
    return [one for made in sets(folder).values() for one in made["problems"]]


def test_the_files_of_a_week(folder: Path) -> None:
    groups = ("level-2", "level-3", "level-4")
    wanted = {"overview.docx", "note-home.docx", "coverage.docx", "week.json"}
    for day in DAYS:
        wanted |= {f"{day}-plan.docx", f"{day}-key.docx", f"{day}.json"}
        wanted |= {f"{day}-{group}.docx" for group in groups}
    assert {path.name for path in folder.iterdir()} == wanted


def test_no_three_numbers_and_no_text_twice_for_any_group(folder: Path) -> None:
    told = problems(folder)
    assert len(told) == 58
    triples = Counter(tuple(sorted(one["numbers"].values())) for one in told)
    assert max(triples.values()) == 1
    for at in range(3):
        texts = Counter(one["levels"][at]["text"] for one in told)
        assert max(texts.values()) == 1


def test_the_reader_solves_every_story_of_every_group(folder: Path) -> None:
    for one in problems(folder):
        for told in one["levels"]:
            reading = read(told["text"])
            assert reading.equation == one["equations"]["situation"], told["text"]
            assert reading.answer == one["answer"], told["text"]


def test_each_day_has_numbers_that_call_for_its_strategy(folder: Path) -> None:
    """By `explain`, which is told the equation only."""
    week = json.loads((folder / "week.json").read_text("utf-8"))
    for day, strategy in zip(week["days"], TAUGHT, strict=False):
        by_code = {one["code"]: one for one in sets(folder)[day["id"]]["problems"]}
        for part, codes in day["parts"].items():
            for code in codes:
                one = by_code[code]
                fitting = [entry["strategy"] for entry in explain(_sum(one)) if entry["fits"]]
                if part == "review":
                    assert one["strategy"] in TAUGHT[: TAUGHT.index(strategy)]
                else:
                    assert one["strategy"] == strategy
                assert one["strategy"] in fitting, one["text"]


def test_on_the_last_day_fitting_and_other_numbers_stand_side_by_side(folder: Path) -> None:
    week = json.loads((folder / "week.json").read_text("utf-8"))
    friday = week["days"][4]
    by_code = {one["code"]: one for one in sets(folder)["5-friday"]["problems"]}
    choices = {one["code"]: one for one in friday["choices"]}
    assert set(choices) == set(by_code)
    order = list(by_code)
    for code, one in choices.items():
        problem = by_code[code]
        fits = {entry["strategy"]: entry["fits"] for entry in explain(_sum(problem))}
        assert fits[one["strategy"]] and one["strategy"] in TAUGHT
        if one["beside"] is None:
            assert friday["parts"]["exit"] == [code]
            continue
        beside = by_code[one["beside"]]
        assert choices[one["beside"]]["beside"] == code
        assert abs(order.index(code) - order.index(one["beside"])) == 1
        same = problem["situation"] == beside["situation"]
        counting_up = "count-up" in (one["strategy"], choices[one["beside"]]["strategy"])
        assert same or counting_up
        assert problem["solution"]["operation"] == beside["solution"]["operation"]
        assert choices[one["beside"]]["strategy"] != one["strategy"]
    assert len({one["strategy"] for one in choices.values()}) >= 3


def test_the_children_of_the_week_are_one_cast(folder: Path) -> None:
    week = json.loads((folder / "week.json").read_text("utf-8"))
    told = {name for one in problems(folder) for name in one["people"]}
    assert told == set(week["cast"])
    assert len(told) == 6


def test_warm_ups_begin_with_numbers_of_the_day_before(folder: Path) -> None:
    """Or lead to one, by hundreds to one with hundreds before it; the first day takes its own."""
    week = json.loads((folder / "week.json").read_text("utf-8"))
    made = sets(folder)
    for at, day in enumerate(week["days"]):
        before = made[DAYS[max(0, at - 1)]]["problems"]
        given = {number for one in before for number in one["given"]}
        for count in day["warm_up"]:
            ends = {count["numbers"][0], count["numbers"][-1]}
            if count["by"] == 100:
                ends = {number % 100 for number in ends}
            assert given & ends, (day["id"], count)


def test_the_sets_of_the_days_follow_the_schema(folder: Path) -> None:
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    for made in sets(folder).values():
        jsonschema.validate(made, schema, cls=jsonschema.Draft202012Validator)


def test_all_that_was_asked_is_given_and_a_lack_would_show(plan: Plan) -> None:
    week = make_week(plan)
    assert week.kept and all(row.met for row in week.kept)
    from storybank.week._kept import kept

    monday = week.days[0]
    fewer = {**monday.parts, "alone": replace(monday.parts["alone"], problems=())}
    days = [replace(monday, parts=fewer), *week.days[1:]]
    lacking = [row for row in kept(plan, days) if not row.met]
    assert [(row.day, row.wish, row.asked, row.given) for row in lacking] == [
        ("Monday", "problems on their own", "4", "0")
    ]
    doubled = replace(monday.parts["home"], problems=monday.parts["model"].problems)
    days = [replace(monday, parts={**monday.parts, "home": doubled}), *week.days[1:]]
    lacking = [row.wish for row in kept(plan, days) if not row.met]
    assert lacking == ["the same three numbers again", "the same text again"]


def test_a_review_on_the_day_of_choice_is_no_choice(tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    text = GOOD.replace("[level-2, level-3, level-4]", "[level-4]")
    path.write_text(text.replace("    strategy: any", "    strategy: any\n    review: 2"), "utf-8")
    week = make_week(read_plan(path))
    friday = week.days[4]
    looked_back = friday.parts["review"].problems
    assert [one.strategy for one in looked_back] == ["count-up", "friendly-then-compensate"]
    chosen = {one.code for one in friday.choices}
    assert chosen == {one.code for one in friday.problems} - {one.code for one in looked_back}
    assert all(row.met for row in week.kept)


def test_a_review_of_a_later_day_would_show(plan: Plan) -> None:
    """Thursday is the day of counting up; on Tuesday and on Thursday itself it is no review."""
    from storybank.week._kept import kept

    week = make_week(plan)
    later = week.days[3].parts["home"]
    for at in (1, 3):
        day = week.days[at]
        days = list(week.days)
        days[at] = replace(
            day, parts={**day.parts, "review": replace(later, problems=later.problems[:1])}
        )
        (row,) = [
            one
            for one in kept(plan, days)
            if not one.met and one.wish == "review of earlier strategies"
        ]
        assert (row.day, row.given) == (day.name, f"not taught before {day.name}: Count up")


def test_a_part_is_made_again_alone(plan: Plan) -> None:
    week = make_week(plan)
    tuesday = replace(plan.days[1], again={"home": 1})
    other = make_week(replace(plan, days=(plan.days[0], tuesday, *plan.days[2:])))
    for before, after in zip(week.days, other.days, strict=True):
        for part in before.parts:
            same = before.parts[part].problems == after.parts[part].problems
            assert same == ((before.name, part) != ("Tuesday", "home"))
    codes = [one.code for one in other.problems]
    assert len(set(codes)) == len(codes)
    again = replace(plan.days[1], again={"home": 2})
    third = make_week(replace(plan, days=(plan.days[0], again, *plan.days[2:])))
    homes = [made.days[1].parts["home"].problems for made in (week, other, third)]
    assert homes[0] != homes[1] != homes[2] != homes[0]


def test_the_same_plan_gives_the_same_files(folder: Path, tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(GOOD, encoding="utf-8")
    assert main(["week", str(path), "--out", str(tmp_path / "week")]) == 0
    for one in sorted(folder.iterdir()):
        assert (tmp_path / "week" / one.name).read_bytes() == one.read_bytes(), one.name


def test_one_day_alone_is_as_in_the_whole_week(folder: Path, tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(GOOD, encoding="utf-8")
    out = tmp_path / "week"
    assert main(["week", str(path), "--only", "thursday", "--out", str(out)]) == 0
    names = {one.name for one in out.iterdir()}
    assert names == {one.name for one in folder.iterdir() if one.name.startswith("4-thursday")}
    for name in names:
        assert (out / name).read_bytes() == (folder / name).read_bytes()


def test_a_day_has_further_pages_made_of_its_problems(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "plan.yaml"
    text = GOOD.replace("strategy: count-up", "strategy: count-up\n    pages: [facts, model]")
    path.write_text(text, encoding="utf-8")
    out = tmp_path / "week"
    assert main(["week", str(path), "--only", "thursday", "--out", str(out)]) == 0
    names = {one.name for one in out.iterdir()}
    assert {"4-thursday-facts-level-2.docx", "4-thursday-facts-level-4.docx"} < names
    assert "4-thursday-model.docx" in names
    path.write_text(text.replace("[facts, model]", "[fact]"), encoding="utf-8")
    assert main(["week", str(path), "--out", str(tmp_path / "other")]) == 2
    assert 'no kind of page "fact". Did you mean "facts"?' in capsys.readouterr().err
    assert not (tmp_path / "other").exists()


def test_a_settings_file_holds_for_a_week_where_the_plan_says_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path, settings = tmp_path / "plan.yaml", tmp_path / "mine.yaml"
    path.write_text(GOOD.replace("seed: 3", "seed: 3\nwithin: 60"), encoding="utf-8")
    settings.write_text("within: 30\nwithout: [buying]\npaper: a4\n", encoding="utf-8")
    out = tmp_path / "week"
    wish = ["week", str(path), "--settings", str(settings), "--out", str(out)]
    assert main([*wish, "--only", "monday"]) == 0
    assert "settings from" in capsys.readouterr().err
    request = json.loads((out / "1-monday.json").read_text("utf-8"))["request"]
    assert request["without"] == ["buying"]
    assert request["within"] == 60
    page = docx.Document(str(out / "1-monday-plan.docx")).sections[0]
    assert round(page.page_width.pt) == 595


def test_files_of_a_plan_are_sought_beside_it_and_no_folder_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / "kept-folder"
    place.mkdir()
    theme = (themes.folder() / "winter-days.yaml").read_text("utf-8")
    (place / "our-winter.yaml").write_text(theme, "utf-8")
    (place / "ours.names.csv").write_text("name,pronoun\nZuri,she\nKofi,he\n", "utf-8")
    (place / "mine.yaml").write_text("like: level-3\n", "utf-8")
    path, out = place / "plan.yaml", tmp_path / "week"
    text = SHORT.replace("theme: winter-days", "theme: our-winter.yaml\ngroups: mine.yaml")
    monkeypatch.chdir(tmp_path)
    for named in ("ours", "ours.names.csv"):
        path.write_text(text.replace("seed: 3", f"seed: 3\nnames_from: {named}"), "utf-8")
        wish = ["week", str(path), "--no-settings", "--format", "json", "--out", str(out)]
        assert main([*wish, "--overwrite"]) == 0
        made = json.loads((out / "week.json").read_text("utf-8"))
        assert set(made["cast"]) == {"Zuri", "Kofi"}
        plan = made["plan"]
        assert plan["theme"] == ["our-winter.yaml"] and plan["groups"] == ["mine.yaml"]
        assert plan["names_from"] == "ours.names.csv"
        for one in out.iterdir():
            assert "kept-folder" not in one.read_text("utf-8"), one.name


@pytest.mark.parametrize(
    ("groups", "told"), [("", "mine"), ("groups: level-2\n", "level-2")], ids=["none", "its own"]
)
def test_a_plan_without_groups_has_the_vocabulary_of_the_settings(
    groups: str, told: str, tmp_path: Path
) -> None:
    path, settings, place = tmp_path / "plan.yaml", tmp_path / "s" / "own.yaml", tmp_path / "s"
    place.mkdir()
    path.write_text(f"{groups}{SHORT}", encoding="utf-8")
    settings.write_text("vocabulary: mine.yaml\n", encoding="utf-8")
    (place / "mine.yaml").write_text("like: level-3\n", "utf-8")
    out = tmp_path / "week"
    wish = ["week", str(path), "--settings", str(settings), "--format", "json", "--out", str(out)]
    assert main(wish) == 0
    assert json.loads((out / "week.json").read_text("utf-8"))["groups"] == [told]
    request = json.loads((out / "1-monday.json").read_text("utf-8"))["request"]
    assert request["vocabulary"] == told


def test_a_template_that_is_none_is_refused_before_a_day_is_made(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path, out, template = tmp_path / "plan.yaml", tmp_path / "week", tmp_path / "bad.docx"
    path.write_text(SHORT, encoding="utf-8")
    template.write_text("no Word file", encoding="utf-8")
    wish = ["week", str(path), "--no-settings", "--template", str(template), "--out", str(out)]
    assert main(wish) == 2
    said = capsys.readouterr().err
    assert 'The template "bad.docx" is no Word file' in said
    assert "Monday" not in said and not out.exists()
    assert main([*wish, "--format", "json"]) == 0


def test_a_day_that_is_not_in_the_plan_is_refused(
    folder: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(GOOD, encoding="utf-8")
    assert main(["week", str(path), "--only", "sunday", "--out", str(tmp_path / "w")]) == 2
    assert 'no day in this plan "sunday"' in capsys.readouterr().err
    assert not (tmp_path / "w").exists()


def test_a_plan_that_is_there_is_not_replaced(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["new-week", "my-week", "--out", str(tmp_path)]) == 0
    assert main(["new-week", "my-week", "--out", str(tmp_path)]) == 2
    assert "--overwrite" in capsys.readouterr().err


def _sum(problem: dict[str, Any]) -> str:
    """The sum as a child solves it: by counting up where the solution does."""
    solution = problem["solution"]
    if solution["answer_is"] == "sum of jumps":
        return f"{solution['b']} + ? = {solution['a']}"
    return re.sub(r" = \?$", "", problem["equations"]["solution"])
