"""Plans: read with every default, wrong ones named by line, unmet ones by day and wish."""

from pathlib import Path

import pytest
from week.plans import BAD, GOOD, SHORT, UNMET

from storybank.cli import main
from storybank.errors import PackError, RequestError
from storybank.week import make_week, read_plan, starter


def written(tmp_path: Path, text: str, name: str = "plan.yaml") -> Path:
    path = tmp_path / name
    path.write_text(text, encoding="utf-8")
    return path


def test_a_plan_is_read_with_every_default_filled_in(tmp_path: Path) -> None:
    plan = read_plan(written(tmp_path, SHORT))
    assert plan.title == "Our week"
    assert plan.groups == ("level-4",)
    assert [day.title for day in plan.days] == ["Monday", "Tuesday", "Wednesday"]
    first = plan.days[0]
    assert first.parts == {
        "review": 1, "model": 2, "together": 2, "alone": 4, "home": 2, "exit": 1,
    }  # fmt: skip
    assert first.warm_up == (10,)


def test_what_holds_for_each_day_is_changed_by_a_day(tmp_path: Path) -> None:
    text = SHORT.replace("count-up}", "count-up, alone: 1}") + "each_day: {alone: 6, home: 0}\n"
    days = read_plan(written(tmp_path, text)).days
    assert [day.parts["alone"] for day in days] == [1, 6, 6]
    assert [day.parts["home"] for day in days] == [0, 0, 0]


def test_groups_stand_the_plainest_first(tmp_path: Path) -> None:
    text = GOOD.replace("[level-2, level-3, level-4]", "[level-4, level-1]")
    assert read_plan(written(tmp_path, text)).groups == ("level-1", "level-4")


def test_the_plan_to_begin_with_is_a_good_one(tmp_path: Path) -> None:
    plan = read_plan(written(tmp_path, starter("my-week.yaml")))
    assert len(plan.days) == 5
    assert all(row.met for row in make_week(plan).kept)


@pytest.mark.parametrize("what", BAD)
def test_a_bad_plan_is_named_by_line(
    what: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text, line, word = BAD[what]
    path = written(tmp_path, text)
    with pytest.raises(PackError) as error:
        read_plan(path)
    assert f"plan.yaml, {line}:" in str(error.value)
    assert word in str(error.value)
    assert main(["week", str(path), "--out", str(tmp_path / "out")]) == 2
    assert word in capsys.readouterr().err
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize("what", UNMET)
def test_a_plan_that_cannot_be_met_says_which_day_and_wish(
    what: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text, day, word = UNMET[what]
    path = written(tmp_path, text)
    with pytest.raises(RequestError) as error:
        make_week(read_plan(path))
    assert str(error.value).startswith(f"{day} cannot be made as the plan has it: ")
    assert word in str(error.value)
    assert main(["week", str(path), "--out", str(tmp_path / "out")]) == 2
    assert day in capsys.readouterr().err
    assert not (tmp_path / "out").exists()


def test_a_missing_plan_says_how_to_begin_one(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["week", str(tmp_path / "none.yaml")]) == 2
    assert "storybank new-week none" in capsys.readouterr().err
