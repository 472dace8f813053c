"""A set for a class: from the bank first, the rest made anew, and nothing that it has had."""

import sqlite3
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import groupby

from storybank import finished
from storybank.bank import _classes, _keeping
from storybank.bank._drawing import Drawn, draw
from storybank.bank._matching import Shelves, Suits, regroups
from storybank.bank._rows import Row, row_of, terms_of
from storybank.errors import NoNumbersError
from storybank.families import STORIES
from storybank.luck import digest
from storybank.model import Problem, ProblemSet
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
        told = _mixed(self.told, self.settled) if self.numbers else self.told
        return ProblemSet(
            self.settled.to_json(), tuple(told), VERSION, tuple(dict.fromkeys(self.notes))
        )

    def in_order(self, numbers: Sequence[int]) -> tuple[int, ...]:
        """The numbers in the bank of the problems `told`, in the order of the printed set."""
        known = {id(one): number for one, number in zip(self.told, numbers, strict=True)}
        return tuple([known[id(one)] for one in self.problem_set().problems])


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
    drawn = Drawn()
    for crossing, count in Counter(settled.crossings).items():
        draw(
            connection,
            shelves.meeting(settled),
            count,
            key=f"{settled.seed}/bank/{crossing}",
            class_number=number,
            within=settled.within,
            suits=Suits(settled, crossing),
            drawn=drawn,
        )
    for one in drawn.problems:
        told = finished.told_of_class(
            one.problem(), settled.roster, f"{settled.seed}/{one.number}", filling.children
        )
        filling.told.append(told)
    filling.numbers = drawn.meanings
    return drawn.taken


def _make_rest(
    connection: sqlite3.Connection,
    filling: Filling,
    request: Request,
    label: str | None,
    meanings: set[int],
    report: Callable[[int, int], None] | None,
) -> None:
    settled = filling.settled
    series = Series(levels=[one.id for one in settled.side_by_side], seed=settled.seed)
    series.use(filling.told)
    from_bank = len(filling.told)
    for turn in range(_ROUNDS):
        seed = settled.seed if turn == 0 else digest(f"{settled.seed}/again/{turn}") >> 1
        made: list[Problem] = []
        try:
            for crossing, missing in _missing(filling):
                more = series.make(replace(request, count=missing, seed=seed, crossing=crossing))
                made += more.problems
                filling.notes += more.notes
        except NoNumbersError as error:
            if turn == 0 and not from_bank:
                raise
            raise NoNumbersError(_shortage(filling, label, str(error))) from error
        for some in _together(_with_rows(filling, made)):
            if _is_new(connection, label, meanings, some):
                meanings.update(row.meaning for *_, row in some)
                _take(connection, filling, some)
        if report is not None:
            report(len(filling.told), settled.count)
        if len(filling.told) == settled.count:
            if label is not None:
                filling.notes.append(_of(len(filling.new), "made anew"))
            return
    raise NoNumbersError(_shortage(filling, label, ""))


_Ready = tuple[Problem, Problem, Row]
"""A new problem as it is handed out, with names of our own, and the row to keep of that."""


def _with_rows(filling: Filling, made: list[Problem]) -> list[_Ready]:
    request = filling.settled.to_json()
    terms = terms_of(request)
    rows = []
    for place, problem in enumerate(made, start=len(filling.told)):
        own, notes = finished.own_names(problem, request)
        if notes:
            filling.notes.append(_NAMES)
        rows.append((problem, own, row_of(own, terms, place)))
    return rows


def _together(rows: list[_Ready]) -> Iterator[list[_Ready]]:
    """Problems that come or go together: the four stories of a family, or one alone."""
    for _, some in groupby(enumerate(rows), lambda one: (one[1][0].family or 0) or -one[0]):
        yield [row for _, row in some]


def _is_new(
    connection: sqlite3.Connection, label: str | None, meanings: set[int], some: list[_Ready]
) -> bool:
    """Whether none of the problems was had, stands in this set already, or was retired."""
    wanted = [row.meaning for *_, row in some]
    if not meanings.isdisjoint(wanted):
        return False
    if label is not None and _classes.had(connection, label, wanted):
        return False
    return not any(_keeping.is_retired(connection, row.digest) for *_, row in some)


def _take(connection: sqlite3.Connection, filling: Filling, some: list[_Ready]) -> None:
    """Takes new problems into the set; fact families are numbered as they come."""
    family = len(filling.told) // STORIES + 1
    for problem, own, row in some:
        if problem.family not in (None, family):
            problem, own = replace(problem, family=family), replace(own, family=family)
            row = row_of(own, terms_of(filling.settled.to_json()), row.place)
        filling.told.append(_as_kept(connection, problem, row, filling))
        filling.new.append(row)


def _as_kept(
    connection: sqlite3.Connection, problem: Problem, row: Row, filling: Filling
) -> Problem:
    """The problem with the code by which the bank will find it, if no other of the set has it."""
    code = _keeping.code_of(connection, row.digest)
    if code is None or any(code == one.code for one in filling.told):
        return problem
    return problem.with_code(code)


def _missing(filling: Filling) -> list[tuple[str, int]]:
    """How many problems are still to be made, for each wish about regrouping."""
    settled = filling.settled
    if not settled.crossing.isdigit() or not filling.told:
        return [(settled.crossing, settled.count - len(filling.told))]
    left = Counter(settled.crossings)
    left.subtract(_crossing(one) for one in filling.told)
    return [(crossing, count) for crossing, count in left.items() if count > 0]


def _mixed(told: list[Problem], settled: Settled) -> list[Problem]:
    """The problems in the order in which the set is to regroup or not."""
    if not settled.crossing.isdigit():
        return told
    left = list(told)
    mixed = []
    for wish in settled.crossings:
        at = next((at for at, one in enumerate(left) if _crossing(one) == wish), 0)
        mixed.append(left.pop(at))
    return mixed


def _crossing(problem: Problem) -> str:
    return "always" if regroups(problem.numbers) else "never"


def _shortage(filling: Filling, label: str | None, why: str) -> str:
    who = f"class {label} has not had" if label else "are not there yet"
    return (
        f"Of {filling.settled.count} problems asked for, {len(filling.told)} could be found that "
        f"{who}. {why} Ask for --count {max(1, len(filling.told))}, for other situations, "
        "strategies or themes, or for a larger --within."
    ).replace("  ", " ")


def _of(count: int, what: str) -> str:
    return f"{count} {'problem' if count == 1 else 'problems'} {what}."
