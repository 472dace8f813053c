"""Which known mistakes the wrong answers of a class agree with, and what to give next.

A hint for a conversation: the rule stands in `_rule.py`, with all its numbers.
"""

from collections.abc import Sequence
from pathlib import Path

from storybank import mistakes
from storybank.diagnosis import _advice, _rule
from storybank.diagnosis._answered import Answered, Item, left_out, read_set
from storybank.diagnosis._found import findings, predicted_by
from storybank.diagnosis._rule import Pattern
from storybank.diagnosis._table import Child, read_answers
from storybank.diagnosis._text import as_text
from storybank.model.diagnosis import (
    Candidate,
    ChildAnswers,
    ClassRow,
    Diagnosis,
    Finding,
    WrongAnswer,
)

__all__ = [
    "HINT",
    "Answered",
    "as_text",
    "diagnose",
    "form",
    "judged",
    "left_out",
    "read_set",
    "text_of_form",
]

HINT = (
    "This is a hint for a conversation, not a test result. It shows which known mistakes the "
    "wrong answers agree with; only the child can tell what it thought."
)
_CHILD = "Child"


def diagnose(set_path: Path, answers_path: Path) -> Diagnosis:
    """What the answers in a table agree with, by child and for the class.

    `set_path` is a set as JSON, `answers_path` a CSV file with a row a child and a column a
    problem. Nothing is written. Raises AnswersError for a file that cannot be read so.
    """
    answered = read_set(set_path)
    table = read_answers(answers_path, answered)
    return judged(answered, table.children, table.notes)


def judged(answered: Answered, table: Sequence[Child], notes: Sequence[str] = ()) -> Diagnosis:
    """The diagnosis of answers that are read already."""
    predicted = predicted_by(answered.items)
    children = tuple(_child(one, answered, predicted) for one in table)
    rows = _rows(_rule.patterns(predicted), table, children)
    seldom = tuple(
        (_title(one.mistakes), len(one.wrong))
        for one in _rule.patterns(predicted)
        if len(one.wrong) < _rule.FEW_CHANCES
    )
    return Diagnosis(
        hint=HINT,
        problems=len(answered.items),
        rows=rows,
        children=children,
        next=_advice.for_class(rows, children, answered),
        seldom=seldom,
        notes=tuple(notes),
    )


def form(answered: Answered) -> tuple[str, ...]:
    """The header of a table of answers: the child, then the codes of problems with one number."""
    return (_CHILD, *(item.code for item in answered.items))


def text_of_form(answered: Answered) -> str:
    """The table to fill in as CSV: its header, and no child yet."""
    return ",".join(form(answered)) + "\r\n"


def _child(child: Child, answered: Answered, predicted: dict[str, dict[int, int]]) -> ChildAnswers:
    items, given = answered.items, child.given
    answers = {at: item.answer for at, item in enumerate(items)}
    found = tuple(
        Finding(tuple(_candidate(one, items, given) for one in patterns), weight, clear)
        for patterns, weight, clear in findings(predicted, answers, given)
    )
    named = {name for one in found for some in one.candidates for name in some.mistakes}
    wrong = tuple(
        _wrong(items[at], given[at], named) for at in sorted(given) if given[at] != answers[at]
    )
    return ChildAnswers(
        name=child.name,
        answered=len(given),
        right=len(given) - len(wrong),
        findings=found,
        wrong=wrong,
        next=_advice.for_child([one.candidates for one in found], answered, given),
    )


def _candidate(pattern: Pattern, items: Sequence[Item], given: dict[int, int]) -> Candidate:
    return Candidate(
        mistakes=pattern.mistakes,
        titles=tuple(mistakes.get(name).TITLE for name in pattern.mistakes),
        chances=len(pattern.wrong),
        problems=tuple(sorted(items[at].number for at in pattern.hits(given))),
    )


def _wrong(item: Item, given: int, named: set[str]) -> WrongAnswer:
    watched = item.watched.get(given)
    names = watched.mistakes if watched else ()
    first = [name for name in names if name in named]
    others = [name for name in names if name not in named]
    return WrongAnswer(
        number=item.number,
        code=item.code,
        told=item.told,
        answer=item.answer,
        given=given,
        titles=tuple(mistakes.get(name).TITLE for name in (*first, *others)),
        found=len(first),
    )


def _rows(
    patterns: Sequence[Pattern], table: Sequence[Child], children: Sequence[ChildAnswers]
) -> tuple[ClassRow, ...]:
    """A row for each pattern with a hit: those found with most children first, then most hits."""
    rows = []
    for pattern in patterns:
        hits = sum(len(pattern.hits(one.given)) for one in table)
        if not hits:
            continue
        sure, perhaps = (
            tuple(one.name for one in children if _holds(one, pattern, open_ones=open_ones))
            for open_ones in (False, True)
        )
        rows.append(
            ClassRow(
                mistakes=pattern.mistakes,
                titles=tuple(mistakes.get(name).TITLE for name in pattern.mistakes),
                children=sure,
                perhaps=perhaps,
                chances=sum(at in one.given for one in table for at in pattern.wrong),
                hits=hits,
            )
        )
    return tuple(sorted(rows, key=lambda one: (-len(one.children), -len(one.perhaps), -one.hits)))


def _holds(child: ChildAnswers, pattern: Pattern, *, open_ones: bool) -> bool:
    return any(
        not set(pattern.mistakes).isdisjoint(candidate.mistakes)
        for finding in child.findings
        if finding.open == open_ones
        for candidate in finding.candidates
    )


def _title(names: Sequence[str]) -> str:
    return " or ".join(mistakes.get(name).TITLE for name in names)
