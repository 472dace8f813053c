"""The bank: one file that keeps finished problems and what each class has had."""

import secrets
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from storybank import finished
from storybank.bank import (
    _actions,
    _backup,
    _checking,
    _classes,
    _exchange,
    _finding,
    _keeping,
    _merging,
    _recording,
)
from storybank.bank._actions import Action
from storybank.bank._checking import Report
from storybank.bank._classes import HandOut
from storybank.bank._exchange import Imported
from storybank.bank._filling import fill
from storybank.bank._finding import Kept
from storybank.bank._judging import judged
from storybank.bank._lines import NOTE_LIMIT, Record
from storybank.bank._open import OpenBank
from storybank.bank._rows import row_of, terms_of
from storybank.bank._wanted import Known, Wanted
from storybank.cleaning import clean_text
from storybank.errors import BankError
from storybank.model import ProblemSet
from storybank.request import Request
from storybank.themes.seasons import day_of

_AGAIN = 20


@dataclass(frozen=True, slots=True)
class Added:
    """What an adding did: how many problems are new, how many were there, what has to be said."""

    new: int
    there: int
    notes: tuple[str, ...] = ()
    numbers: tuple[int, ...] = ()
    """The number in the bank of each problem of the set, in its order."""


class Bank(OpenBank):
    """A bank of problems in one file.

    To be used in a `with` statement, or closed at the end. Every method either does all that it
    says or nothing; what it has returned is on the disk. Several programs may use one file at
    once. Children's names are never stored.
    """

    def add(self, problem_set: ProblemSet, what: str = "add") -> Added:
        """How many problems of a set were kept: those that the bank had not, names aside.

        A child's name becomes one of Storybank's own, and the checks judge the problem again.
        Raises BankError for a problem that they find a fault in; then none is kept.
        """
        request = problem_set.request
        terms = terms_of(request)
        stored = _keeping.stored(request)
        rows, notes = [], []
        for place, problem in enumerate(problem_set.problems):
            own, said = finished.own_names(problem, request)
            notes += [*said, *judged(own, stored, problem.code)]
            rows.append(row_of(own, terms, place))
        with self.writing() as connection:
            for row in rows:
                code = _keeping.code_of(connection, row.digest)
                if code not in (None, row.code):
                    notes.append(f"{row.code} is in the bank under other names, as {code}.")
            action = _actions.begin(connection, what)
            recipe = _keeping.recipe(connection, stored, problem_set.version)
            new = _keeping.keep(connection, rows, self.shelf_numbers, recipe=recipe, action=action)
            _actions.tell(connection, action, f"{new} problems")
            numbers = _keeping.numbers_of(connection, rows)
        return Added(new, len(rows) - new, tuple(dict.fromkeys(notes)), numbers)

    def find(
        self, wanted: Wanted | None = None, most: int | None = None, skip: int = 0
    ) -> list[Kept]:
        """The problems that are wanted, `most` of them after `skip`, in the order of adding.

        Raises RequestError for a value that nothing can have, BankError for an unknown class.
        """
        with self.told() as connection:
            self._check_classes(wanted or Wanted())
            return list(_finding.find(connection, wanted or Wanted(), most, skip))

    def count(self, wanted: Wanted | None = None) -> int:
        """How many problems are wanted; raises as `find`."""
        with self.told() as connection:
            self._check_classes(wanted or Wanted())
            return _finding.count(connection, wanted or Wanted())

    def _check_classes(self, wanted: Wanted) -> None:
        if wanted.had_by is not None:
            _classes.known_class(self.connection, wanted.had_by)

    def named(self, names: Sequence[str]) -> list[Kept]:
        """The problems of these codes or numbers (#17). Raises BankError for one it has not."""
        with self.told() as connection:
            return _finding.named(connection, list(names))

    def star(self, names: Sequence[str], on: bool = True) -> int:
        """How many of the named problems were marked with a star, or lost it."""
        return self._change("star" if on else "unstar", names, "star", int(on))

    def retire(self, names: Sequence[str], on: bool = True) -> int:
        """How many of the named problems were retired, neither found nor handed out any more."""
        return self._change("retire" if on else "bring back", names, "retired", int(on))

    def note(self, name: str, text: str) -> int:
        """1 if the note of the named problem was changed, else 0; an empty text takes it away."""
        clean = clean_text(text, NOTE_LIMIT + 1)[0]
        if len(clean) > NOTE_LIMIT:
            raise BankError(
                f"The note has more than {NOTE_LIMIT} letters. Write a shorter one; nothing was "
                "changed."
            )
        return self._change("note", [name], "note", clean)

    def _change(self, what: str, names: Sequence[str], field: str, value: str | int) -> int:
        with self.writing() as connection:
            found = _finding.named(connection, list(names))
            action = _actions.begin(connection, what)
            changed = [
                one for one in found
                if _actions.change(connection, action, one.number, field, value)
            ]  # fmt: skip
            _actions.tell(connection, action, ", ".join(one.code for one in changed[:20]))
        return len(changed)

    def used(self, label: str, names: Sequence[str], day: str | None = None) -> int:
        """How many of the named problems the class is now known to have had on a day (today)."""
        label, day = _classes.checked_label(label), _day(day)
        with self.writing() as connection:
            found = _finding.named(connection, list(names))
            action = _actions.begin(connection, "used")
            meanings = _finding.meanings(connection, [one.number for one in found])
            new = _classes.record(connection, label, day, meanings, action)
            _actions.tell(connection, action, f"{label}, {day}")
            return new

    def hand_out(
        self,
        request: Request,
        label: str | None,
        *,
        day: str | None = None,
        from_bank: bool = True,
        report: Callable[[int, int], None] | None = None,
    ) -> ProblemSet:
        """A set that the class has not had: from the bank first, the rest new, kept and recorded.

        Without a class nothing is recorded, and without `from_bank` all is new. Two programs that
        hand out to one class at once never give it the same. Raises as `make_set`, and
        NoNumbersError where no more can be found that the class has not had.
        """
        label = None if label is None else _classes.checked_label(label)
        day = _day(day)
        seed = secrets.randbelow(1_000_000) if request.seed is None else request.seed
        for _ in range(_AGAIN):
            with self.told() as connection:
                self._look()
                epoch = self.epoch
                filling = fill(
                    connection,
                    self.shelves,
                    request,
                    seed,
                    label,
                    from_bank=from_bank,
                    report=report,
                )
            if _recording.record(self, filling, label, day, epoch):
                return filling.problem_set()
        raise BankError(
            f"Other programs keep handing out to class {label} at the same time, so no set could "
            "be recorded. Nothing was changed; try again."
        )

    def history(self, label: str) -> list[HandOut]:
        """What a class has had, by day. Raises BankError for a class that had nothing."""
        with self.told() as connection:
            return _classes.history(connection, label)

    def had_by(self, numbers: Sequence[int]) -> list[tuple[str, str, int]]:
        """The class, the day and how many of the problems of these numbers it then had."""
        with self.told() as connection:
            return _classes.had_by(connection, numbers)

    def classes(self) -> list[str]:
        """The labels of all classes."""
        with self.told() as connection:
            return _classes.labels(connection)

    def actions(self, most: int = 20) -> list[Action]:
        """What was done to the bank, the last first."""
        with self.told() as connection:
            return _actions.actions(connection, most)

    def recipe_of(self, kept: Kept) -> tuple[dict[str, Any], str]:
        """The request with which a problem was made, and the version of Storybank that made it."""
        with self.told() as connection:
            return _finding.recipe_of(connection, kept.recipe)

    def known(self) -> Known:
        """What stands in the bank by theme, scene, vocabulary and standard."""
        with self.told() as connection:
            return _finding.known(connection)

    def figures(self) -> dict[str, Any]:
        """What the bank holds, in figures."""
        with self.told() as connection:
            return _finding.figures(connection)

    def records(
        self, wanted: Wanted | None = None, most: int | None = None
    ) -> Iterator[tuple[Kept, Record]]:
        """The wanted problems with all that the bank knows about each, one at a time."""
        with self.told() as connection:
            self._check_classes(wanted or Wanted())
            yield from _exchange.records(connection, wanted or Wanted(), most)

    def take_in(self, path: Path, *, skip_bad: bool = False) -> Imported:
        """What was taken in from a file of JSON Lines or, by its name, a table that ends in .csv.

        Each problem is judged by the checks. Without `skip_bad` a bad line ends it and nothing is
        kept. Raises BankError, naming the line, then.
        """
        return _exchange.take_in_file(self, path, skip_bad=skip_bad)

    def merge(
        self, other: Path, report: Callable[[int, int], None] | None = None
    ) -> tuple[int, int]:
        """How many problems of another bank were new here, and how many it holds; see `_merging`.

        Raises BankError for a file that is no whole bank.
        """
        with self.told() as connection:
            return _merging.merge(connection, self.path, other, report)

    def check(
        self, *, judging: bool = True, report: Callable[[int, int], None] | None = None
    ) -> Report:
        """What is wrong with the bank; without `judging` no problem is judged by the checks."""
        with self.told() as connection:
            return _checking.check(connection, judging=judging, report=report)

    def back_up(self) -> Path:
        """The file of a new backup beside the bank."""
        with self.told() as connection:
            return _backup.back_up(connection, self.path, date.today().isoformat())

    def undo(self, only: int | None = None) -> Action:
        """The last action, which is taken back; with `only` the one of that number.

        Raises BankError where nothing is left, or where that one is not the last.
        """
        with self.writing() as connection:
            return _actions.undo_last(connection, only)

    def give_up(self, action: int | None) -> None:
        """Takes one action back, whatever other programs have done since; nothing for None."""
        if action is not None:
            with self.writing() as connection:
                _actions.give_up(connection, action)


def _day(text: str | None) -> str:
    return (date.today() if text is None else day_of(text)).isoformat()
