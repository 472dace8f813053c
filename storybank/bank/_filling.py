"""A set for a class: from the bank first, the rest made anew, and nothing that it has had."""

import sqlite3
from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from functools import partial

from storybank import finished
from storybank.bank import _classes
from storybank.bank._drawing import draw
from storybank.bank._finding import Kept
from storybank.bank._matching import Shelves, regroups
from storybank.bank._rows import Row, row_of, terms_of
from storybank.errors import NoNumbersError
from storybank.luck import digest
from storybank.model import Problem, ProblemSet
from storybank.people import Roster
from storybank.problem_set import Series
from storybank.request import Request, Settled, settle
from storybank.version import VERSION

_NAMES = (
    "The children's names stand in your files only: the bank keeps names of Storybank's own list."
)
_ROUNDS = 12
"""How often problems are made anew in place of those that the class has had."""


@dataclass
class Filling:
    """What is handed out: problems from the bank, and new ones with the rows to keep of them."""

    settled: Settled
    told: list[Problem] = field(default_factory=list)
    numbers: dict[int, int] = field(default_factory=dict)
    """The meaning of each problem from the bank, by its number."""
    new: list[Row] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    children: Counter[str] = field(default_factory=Counter)
    """How often each child of the class stands in problems from the bank."""

    def problem_set(self) -> ProblemSet:
        """The set as it is printed."""
        return ProblemSet(
            self.settled.to_json(), tuple(self.told), VERSION, tuple(dict.fromkeys(self.notes))
        )


def fill(
    connection: sqlite3.Connection,
    shelves: Shelves,
    request: Request,
    seed: int,
    label: str | None,
    *,
    from_bank: bool,
    report: Callable[[int, int], None] | None = None,
) -> Filling:
    """The problems of a set that the class `label` has not had, nor any of the same meaning.

    Nothing is written. Raises NoNumbersError where no more can be made that the class has not
    had, and as `make_set`.
    """
    settled = settle(request, seed)
    filling = Filling(settled, notes=[*settled.notes, *settled.roster.notes])
    meanings: set[int] = set()
    if from_bank and not settled.pairs and not settled.fact_families:
        meanings = _from_bank(connection, shelves, filling, label)
        if filling.told:
            filling.notes.append(_of(len(filling.told), "from the bank"))
    if len(filling.told) < settled.count:
        _make_rest(connection, filling, request, label, meanings, report)
    return filling


def _from_bank(
    connection: sqlite3.Connection, shelves: Shelves, filling: Filling, label: str | None
) -> set[int]:
    settled = filling.settled
    number = None if label is None else _classes.class_number(connection, label)
    taken: set[int] = set()
    for crossing, count in Counter(settled.crossings).items():
        drawn = draw(
            connection,
            shelves.meeting(settled),
            count,
            key=f"{settled.seed}/bank/{crossing}",
            class_number=number,
            within=settled.within,
            suits=None if crossing == "any" else partial(_crosses, crossing),
            without=taken,
        )
        taken |= set(drawn.meanings.values())
        for one in drawn.problems:
            told = _with_names(
                one.problem(), settled.roster, f"{settled.seed}/{one.number}", filling.children
            )
            filling.told.append(told)
            filling.numbers[one.number] = drawn.meanings[one.number]
    return taken


def _crosses(crossing: str, one: Kept) -> bool:
    return regroups(one) is (crossing == "always")


def _with_names(problem: Problem, roster: Roster, key: str, dealt: Counter[str]) -> Problem:
    """The problem with children of the class in it, where that fits its pronouns.

    Who was `dealt` less often comes first; that they are dealt is noted there.
    """
    if not roster.class_list or not problem.story.people:
        return problem
    chosen = finished.choose_people(problem, roster, key, dealt)
    if chosen is None:
        return problem
    dealt.update(one.name for one in chosen)
    return finished.renamed(problem, chosen)


def _make_rest(
    connection: sqlite3.Connection,
    filling: Filling,
    request: Request,
    label: str | None,
    meanings: set[int],
    report: Callable[[int, int], None] | None,
) -> None:
    settled = filling.settled
    terms = terms_of(settled.to_json())
    series = Series(seed=settled.seed)
    series.use(filling.told)
    from_bank = len(filling.told)
    for turn in range(_ROUNDS):
        missing = settled.count - len(filling.told)
        seed = settled.seed if turn == 0 else digest(f"{settled.seed}/again/{turn}") >> 1
        try:
            made = series.make(replace(request, count=missing, seed=seed))
        except NoNumbersError as error:
            if turn == 0 and not from_bank:
                raise
            raise NoNumbersError(_shortage(filling, label, str(error))) from error
        filling.notes += made.notes
        rows = []
        for place, problem in enumerate(made.problems, start=len(filling.told)):
            own, notes = finished.own_names(problem, settled.to_json())
            if notes:
                filling.notes.append(_NAMES)
            rows.append((problem, row_of(own, terms, place)))
        had = set() if label is None else _had(connection, label, (row for _, row in rows))
        for problem, row in rows:
            if row.meaning not in had and row.meaning not in meanings:
                meanings.add(row.meaning)
                filling.told.append(problem)
                filling.new.append(row)
        if report is not None:
            report(len(filling.told), settled.count)
        if len(filling.told) == settled.count:
            if label is not None:
                filling.notes.append(_of(len(filling.new), "new"))
            return
    raise NoNumbersError(_shortage(filling, label, ""))


def _had(connection: sqlite3.Connection, label: str, rows: Iterable[Row]) -> set[int]:
    return _classes.had(connection, label, (row.meaning for row in rows))


def _shortage(filling: Filling, label: str | None, why: str) -> str:
    who = f"class {label} has not had" if label else "are not there yet"
    return (
        f"Of {filling.settled.count} problems asked for, {len(filling.told)} could be found that "
        f"{who}. {why} Ask for --count {max(1, len(filling.told))}, for other situations, "
        "strategies or themes, or for a larger --within."
    ).replace("  ", " ")


def _of(count: int, what: str) -> str:
    return f"{count} {'problem' if count == 1 else 'problems'} {what}."
