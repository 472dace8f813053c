"""A set of problems: one request, its problems in order, and what has to be said about them."""

import secrets
from collections.abc import Callable, Sequence
from dataclasses import replace

from storybank import generate, people, standards, strategies, vocabulary
from storybank.generate import Progress
from storybank.model import Problem, ProblemSet
from storybank.model.arithmetic import Form
from storybank.request import Request, Settled, settle
from storybank.version import VERSION


def make_set(request: Request, report: Callable[[int, int], None] | None = None) -> ProblemSet:
    """The set of problems that `request` asks for, checked, with its notes.

    The same request with the same seed gives the same set; without a seed one is drawn and
    stored. `report` is called with the number of problems made and wanted, after each.
    Raises RequestError, NoNumbersError, PackError or NamesError, saying what to change.
    """
    settled = settle(request, secrets.randbelow(1_000_000))
    return _made(settled, Progress.of(settled), report)


class Series:
    """Sets that follow one another: no three numbers and no code come back, and one cast plays.

    `levels` are the vocabularies at which every story is told side by side. Of a list of names
    the `cast` is drawn once, by `seed`; of a class list all children are the cast.
    """

    def __init__(self, *, levels: Sequence[str] = (), cast: int | None = None, seed: int) -> None:
        """A series of which nothing is made yet."""
        self._levels = tuple(vocabulary.get(name) for name in levels)
        self._cast, self._seed = cast, seed
        self._last: Progress | None = None
        self._made = 0
        self.people: tuple[people.Person, ...] = ()

    def make(self, request: Request, *, side_by_side: bool = True) -> ProblemSet:
        """The next set; without `side_by_side` told at its own level only.

        Raises as `make_set`; the series is to be given up then.
        """
        settled = settle(request, self._seed)
        levels = self._levels if side_by_side else ()
        letters = min(one.name_letters for one in (settled.vocabulary, *self._levels))
        roster = settled.roster
        if self._cast is not None and not roster.class_list:
            roster = people.cast(roster, self._cast, letters, f"{self._seed}/cast")
        settled = replace(settled, side_by_side=levels, roster=roster)
        progress = Progress.of(settled)
        if self._last is not None:
            progress.follow(self._last, self._made)
        made = _made(settled, progress, None, in_series=True)
        self._last, self._made = progress, len(made.problems)
        self.people = roster.people
        return made


def _made(
    settled: Settled,
    progress: Progress,
    report: Callable[[int, int], None] | None,
    *,
    in_series: bool = False,
) -> ProblemSet:
    """The set; of one in a series nothing is said of keywords, which balance over all sets."""
    problems = []
    for index in range(settled.count):
        problems.append(generate.make_problem(settled, index, progress))
        if report is not None:
            report(index + 1, settled.count)
    finished = standards.mapped(problems, settled.standards)
    notes = (
        *settled.notes,
        *settled.roster.notes,
        *progress.dealer.notes,
        *_pair_notes(settled),
        *(() if in_series else progress.keywords.leaning()),
        *standards.uncovered(finished, settled.standards),
    )
    return ProblemSet(request=settled.to_json(), problems=finished, version=VERSION, notes=notes)


def make_problem(request: Request) -> Problem:
    """The first problem of the set that `request` asks for."""
    settled = settle(request, secrets.randbelow(1_000_000))
    problem = generate.make_problem(settled, 0, Progress.of(settled))
    return standards.mapped([problem], settled.standards)[0]


def _pair_notes(settled: Settled) -> list[str]:
    notes = []
    for pair in settled.pairs:
        form = Form.ADD if pair.operation == "+" else Form.SUBTRACT
        fitting = strategies.fitting(form, pair.a, pair.b, settled.within)
        note = f"{pair}: {', '.join(fitting)} {'fits' if len(fitting) == 1 else 'fit'}."
        odd = [name for name in settled.strategies if name != "any" and name not in fitting]
        if odd:
            note += f" {', '.join(odd)} does not fit these numbers, but can be carried out."
        if pair.operation == "+" and pair.a == pair.b:
            note += " The parts are equal, so one number stands twice in the story."
        notes.append(note)
    return notes
