"""Measured stories of every theme and level: one unit, right words, plausible sizes, the reader.

The reader (tests/reader) shares no code with the generator and solves the stories from their
English. The sizes are judged by `sizes.yaml` beside this file: common knowledge, no other source.
"""

import re
from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest
import yaml
from reader.measured import read_measured
from units.made import problems

from storybank import checks, situations, themes, vocabulary
from storybank.checks import units as check
from storybank.model import Problem
from storybank.model.measures import UNITS, Measured

SIZES = yaml.safe_load((Path(__file__).parent / "sizes.yaml").read_text(encoding="utf-8"))
FORMS = {form: unit.id for unit in UNITS.values() for form in (unit.noun.bare, unit.id)}


def context(problem: Problem) -> checks.Context:
    return checks.Context(
        limit=100,
        vocabulary=vocabulary.get(problem.vocabulary),
        theme=themes.get(problem.theme),
        measured=True,
    )


def test_every_story_has_one_unit_behind_every_number() -> None:
    assert len(problems()) >= 500
    for problem in problems():
        story = problem.story
        texts = [*story.sentences, story.answer_sentence, story.answer_frame]
        words = re.findall(r"[a-z]+", " ".join(texts).lower())
        assert {FORMS[word] for word in words if word in FORMS} == {story.unit}, story.text
        for number, unit in re.findall(r"(\d+) (?:more |fewer )?(\w+)", " ".join(texts)):
            assert FORMS.get(unit) == story.unit, story.text
            assert (unit == story.unit) == (number != "1"), story.text
        assert problem.to_json()["unit"] == story.unit


def test_that_day_points_back_to_something_told() -> None:
    """The demonstrative refers to what has been told: a story cannot begin with "that day"."""
    spans = Counter[str]()
    for problem in problems():
        first, *later = [*problem.story.sentences, problem.story.question]
        assert not re.search(r"\bthat (?:day|weekend)\b", first), problem.text
        spans["in all"] += "in all" in first
        spans["that"] += any(re.search(r"\bthat (?:day|weekend)\b", one) for one in later)
    assert spans["in all"] >= 5 and spans["that"] >= 5


def test_what_is_gained_comes_then_where_some_of_it_may_be_meant() -> None:
    """ "Bo has 35 points. Bo scores 35 points." leaves open whether these are the same points."""
    gained = [
        one for one in problems()
        if one.situation == "join-result-unknown" and one.story.unit in ("points", "dollars")
    ]  # fmt: skip
    assert {one.story.unit for one in gained} == {"points", "dollars"}
    for problem in gained:
        assert re.search(r"\. Then \w+ ", problem.text), problem.text


def test_all_situations_but_pairs_of_parts_and_all_kinds_are_told() -> None:
    told = Counter(problem.situation for problem in problems())
    assert set(told) == set(situations.ids()) - {"both-parts-unknown"}
    assert {UNITS[str(problem.story.unit)].kind for problem in problems()} == {
        "lengths",
        "money",
        "minutes",
        "points",
    }
    assert {problem.story.unit for problem in problems()} == set(UNITS)


def test_lengths_are_compared_by_their_own_words_never_by_more_inches() -> None:
    compared = 0
    for problem in problems():
        unit = UNITS[str(problem.story.unit)]
        text = f"{problem.text} {problem.story.answer_sentence}"
        if unit.kind == "lengths":
            assert not re.search(r"\b(?:more|fewer|less)\b", text), text
            compared += problem.situation.startswith("compare")
        elif unit.kind != "minutes":
            assert not re.search(r"\b(?:longer|shorter|taller|higher|farther)\b", text), text
    assert compared > 50


def test_the_reader_finds_every_equation_answer_and_unit() -> None:
    disagreed = []
    for problem in problems():
        reading = read_measured(problem.text)
        found = (reading.equation, reading.situation, reading.answer, reading.unit)
        meant = (
            problem.equations.situation,
            problem.situation,
            problem.answer,
            problem.story.unit,
        )
        if found != meant:
            disagreed.append(f"{problem.text!r}: read {found}, meant {meant}")
    assert not disagreed, "\n".join(disagreed)


def test_the_check_of_units_passes_all_and_catches_what_it_spoils() -> None:
    spoiled = 0
    for problem in problems()[::7]:
        assert check.judge(problem, context(problem)) == []
        for sample in check.spoil(problem):
            spoiled += 1
            assert check.judge(sample, context(problem)), sample.story
    assert spoiled > 500


def measured_things() -> list[tuple[str, Measured]]:
    return [
        (f"{scene.key}/{thing.id}", thing)
        for name in themes.ids()
        for scene in themes.get(name).scenes.values()
        for thing in scene.measured.values()
    ]


@pytest.mark.parametrize(("where", "thing"), measured_things(), ids=lambda one: str(one)[:40])
def test_sizes_are_plausible(where: str, thing: Measured) -> None:
    """Source: common knowledge, as `sizes.yaml` says."""
    row = SIZES[thing.one if thing.adjective else thing.clause.verb.base]
    for unit, (low, high) in thing.units.items():
        least, most = map(int, row[unit].split("-"))
        assert least <= low <= high <= most, (where, unit)
    for act in thing.acts:
        for unit, (_, high) in act.range.items():
            assert high < thing.units[unit][1], (where, act.id)


def test_told_amounts_stay_within_what_is_plausible_for_the_thing() -> None:
    for problem in problems():
        scene = themes.get(problem.theme).scenes[problem.scene]
        most = max(
            high
            for thing in scene.measured.values()
            for unit, (_, high) in thing.units.items()
            if unit == problem.story.unit
        )
        whole = max(problem.numbers.values())
        assert whole <= (2 * most if problem.situation.startswith(("whole", "part")) else most)


@pytest.mark.parametrize("theme", themes.ids())
def test_every_pack_measures_lengths_and_another_kind_in_all_situations(theme: str) -> None:
    kinds = {
        thing.kind
        for scene in themes.get(theme).scenes.values()
        for thing in scene.measured.values()
    }
    assert "lengths" in kinds and len(kinds) >= 2


def test_the_word_bank_explains_the_unit() -> None:
    for problem in problems():
        entry = [word for word in problem.story.word_bank if word.word == problem.story.unit]
        assert len(entry) == 1 and entry[0].meaning and entry[0].picture


def test_the_check_of_questions_catches_a_comparison_told_the_other_way_round() -> None:
    opposite = {"longer": "shorter", "taller": "shorter", "farther": "shorter", "higher": "lower"}
    question, caught = checks.get("question"), 0
    for problem in problems():
        word = next((one for one in opposite if f" {one} " in problem.text), None)
        if word is None or not problem.situation.endswith("-more"):
            continue
        sentences = tuple(one.replace(word, opposite[word]) for one in problem.story.sentences)
        spoiled = replace(problem, story=replace(problem.story, sentences=sentences))
        assert question.judge(problem, context(problem)) == []
        assert question.judge(spoiled, context(problem)), sentences
        caught += 1
    assert caught > 30
