"""Pages of two steps and of sums: both steps worked in the key, room for both, nothing told."""

import csv
import io
import re

import pytest

from storybank import Request, make_set
from storybank.documents import Layout
from storybank.documents import csv as table
from storybank.documents._page import Cards, Page, Paragraph, Picture, Table
from storybank.documents.kinds import page
from storybank.drawings import handwriting, open_number_line
from storybank.model import ProblemSet

FOR_CHILDREN = ("student", "exit", "cards", "launch")


@pytest.fixture(scope="module", params=["level-1", "level-2", "level-4"])
def two(request: pytest.FixtureRequest) -> ProblemSet:
    return make_set(Request(steps=2, seed=41, count=30, vocabulary=request.param))


def texts(made: Page) -> list[str]:
    found = []
    for block in made.flat():
        if isinstance(block, Paragraph):
            found.append(f"{block.lead} {block.text}")
        elif isinstance(block, Cards):
            found += [one.text for card in block.cards for one in card]
        elif isinstance(block, Table):
            found += [cell for row in block.rows for cell in row]
    return found


def pictures(made: Page) -> list[Picture]:
    return [block for block in made.flat() if isinstance(block, Picture)]


def test_the_key_shows_both_steps_worked(two: ProblemSet) -> None:
    said = "\n".join(texts(page("key", two, Layout()))).replace("\N{NO-BREAK SPACE}", " ")
    said = said.replace("\N{MINUS SIGN}", "-").replace("\N{WHITE SQUARE}", "?")
    for problem in two.problems:
        for step in problem.steps:
            assert step.equations.situation in said
            assert all(fact in said for fact in step.related_facts)
            assert step.solution.says[0].replace("'", "\N{RIGHT SINGLE QUOTATION MARK}") in said
        assert problem.story.answer_sentence in said
    assert said.count("First step:") == said.count("Second step:") == len(two.problems)
    assert said.count("Stopped after the first step") == len(two.problems)


def test_a_child_has_room_for_two_steps(two: ProblemSet) -> None:
    titles = [one.drawing.title for one in pictures(page("student", two, Layout()))]
    assert titles.count(handwriting.EQUATION_TITLE) == 2 * len(two.problems)
    lines = titles.count(open_number_line.blank(measures=Layout().measures).title)
    assert lines == 2 * len(two.problems)
    large = page("student", two, Layout(large_print=True))
    assert len(pictures(large)) < len(pictures(page("student", two, Layout())))


@pytest.mark.parametrize("kind", FOR_CHILDREN)
def test_no_page_for_children_tells_the_number_between(two: ProblemSet, kind: str) -> None:
    for problem in two.problems:
        alone = ProblemSet(two.request, (problem,), two.version)
        made = page(kind, alone, Layout())
        drawn = [one.drawing.alt for one in pictures(made)]
        shown = [text for text in texts(made) if problem.code not in text]
        numbers = re.findall(r"\d+", " ".join([*shown, *drawn]))
        assert str(problem.hidden) not in numbers, (kind, problem.text)
        assert str(problem.answer) not in numbers, (kind, problem.text)


def test_the_table_has_both_steps_in_a_cell(two: ProblemSet) -> None:
    data = table.render(two, Layout())["set.csv"].decode("utf-8-sig")
    for row, problem in zip(csv.DictReader(io.StringIO(data)), two.problems, strict=True):
        first, last = problem.steps
        assert row["situation"] == f"{first.situation} | {last.situation}"
        assert row["strategy"] == f"{first.strategy} | {last.strategy}"
        equations = f"{first.equations.situation} | {last.equations.situation}"
        assert row["situation_equation"].lstrip("'") == equations


def test_a_sum_has_a_box_for_each_addend() -> None:
    for addends in (3, 4):
        made = make_set(Request(addends=addends, seed=3, count=4))
        drawn = [one.drawing for one in pictures(page("student", made, Layout()))]
        boxes = [one for one in drawn if one.title == handwriting.EQUATION_TITLE]
        assert len(boxes) == 4
        assert all(one.alt.count("circle") == addends - 1 for one in boxes)
        assert all(one.width < Layout().measures.width for one in boxes)
        key = "\n".join(texts(page("key", made, Layout()))).replace("\N{NO-BREAK SPACE}", " ")
        for problem in made.problems:
            assert problem.solution.lines[0] in key
            assert problem.equations.situation.rpartition(" = ")[0] in key
