"""The set as a table: one row a problem, stable columns."""

import csv
import io
from collections.abc import Iterable

from storybank.documents._by_step import by_step
from storybank.documents._format import Format
from storybank.documents._layout import Layout
from storybank.documents._notation import steps_text
from storybank.model import Problem, ProblemSet

FORMAT = Format(id="csv", title="Spreadsheet table", suffix=".csv")

COLUMNS = (
    "number", "code", "theme", "scene", "situation", "telling", "strategy", "vocabulary",
    "standards", "people", "text", "question", "given", "unknown", "answer", "answer_sentence",
    "answer_frame", "situation_equation", "solution_equation", "related_facts", "steps", "says",
    "answer_is", "watch_for", "second_way", "second_steps", "words", "spache",
)  # fmt: skip
CHANGES = ("number_sets", "extra", "missing")
"""Columns behind the others where problems have what they tell of."""
_RUNS_AS_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def render(problem_set: ProblemSet, layout: Layout) -> dict[str, bytes]:
    """The file `set.csv`: UTF-8 with a byte order mark, lines ended as RFC 4180 has them.

    The mark is there because Excel reads a CSV file as UTF-8 only when it begins with one.
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    changed = tuple(
        name for name in CHANGES if any(_change(name, one) for one in problem_set.problems)
    )
    writer.writerow((*COLUMNS, *changed))
    for number, problem in enumerate(problem_set.problems, start=1):
        row = [*_row(number, problem), *(_change(name, problem) for name in changed)]
        writer.writerow([harmless(cell) for cell in row])
    return {"set.csv": text.getvalue().encode("utf-8-sig")}


def harmless(cell: str) -> str:
    """`cell` with an apostrophe in front if a spreadsheet would run it as a formula."""
    return f"'{cell}" if cell.startswith(_RUNS_AS_FORMULA) else cell


def _change(name: str, problem: Problem) -> str:
    """What was changed about the numbers of a problem, as a cell."""
    if name == "number_sets":
        return "; ".join(
            f"to {one.limit}: {' and '.join(map(str, one.given))} give {one.answer} "
            f"({one.strategy})"
            for one in problem.number_sets
        )
    if name == "extra":
        return "; ".join(one.told for one in problem.extra)
    missing = problem.missing
    return f"{missing.role} {missing.number}: {missing.ask}" if missing else ""


def _row(number: int, problem: Problem) -> list[str]:
    story, way = problem.story, problem.second_way
    steps = by_step(problem)
    answer = problem.answer
    if isinstance(answer, tuple):
        answer_text = "; ".join(f"{first} and {second}" for first, second in answer)
    else:
        answer_text = str(answer)
    watch = "; ".join(
        f"{entry.answer} ({', '.join(entry.mistakes)})" for entry in problem.watch_for
    )
    return [
        str(number), problem.code, problem.theme, problem.scene,
        _of_each(one.situation for one in steps),
        story.telling, _of_each(one.strategy or "" for one in steps), problem.vocabulary,
        "; ".join(problem.standards), "; ".join(story.people), problem.text, story.question,
        "; ".join(map(str, story.given)), problem.unknown, answer_text, story.answer_sentence,
        story.answer_frame, _of_each(one.equations.situation for one in steps),
        _of_each(one.equations.solution for one in steps),
        "; ".join(fact for one in steps for fact in one.related_facts),
        _of_each(steps_text(one.solution) for one in steps),
        " ".join(said for one in steps for said in one.solution.says),
        _of_each(one.solution.answer_is for one in steps), watch, way.strategy if way else "",
        steps_text(way.solution) if way else "", str(problem.reading.words),
        f"{problem.reading.spache:.1f}",
    ]  # fmt: skip


def _of_each(said: Iterable[str]) -> str:
    """What is said of each step, in order."""
    return " | ".join(said)
