"""A set of problems: one request, its problems in order, and what has to be said about them."""

import secrets
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from typing import Any

from storybank import generate, people, standards, strategies, vocabulary
from storybank.generate import Progress
from storybank.model import Problem, ProblemSet
from storybank.model.arithmetic import Form
from storybank.request import Request, Settled, check_numbered, settle
from storybank.version import VERSION

_PASSES = 32
"""So many times all names are dealt in other pairs before the same pairs come back."""


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
        self._used: list[Problem] = []

    def use(self, problems: Iterable[Problem]) -> None:
        """Takes problems from elsewhere as told before: numbers and codes are used."""
        self._used += problems

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
        for problem in self._used:
            progress.use(problem)
        made = _made(settled, progress, None, in_series=True)
        self._last, self._made = progress, len(made.problems)
        self.people = roster.people
        return made


class Space:
    """The different problems of one request, numbered from 0; any of them is made alone.

    Two are different where scene, thing, situation, telling or triple are, whatever the order of
    the parts. Problem n is the n-th choice of these in an order that the seed decides, so slices
    of the numbers never meet, and nothing that was made need be remembered. All choices are as
    likely at each place, but those whose numbers are only second best come last. Its plan, the
    order of its parts and its people follow by luck from the seed and from what it is.
    """

    def __init__(self, request: Request) -> None:
        """All choices of `request`, counted; its own count is ignored.

        Without a seed one is drawn. Raises RequestError for a kind of request whose problems are
        not numbered, NoNumbersError where there is no problem at all, and PackError or NamesError
        as `make_set` does.
        """
        check_numbered(request)
        settled = settle(replace(request, count=1), secrets.randbelow(1_000_000))
        self._settled = settled
        self._choices = generate.Choices(settled)
        self._dealer = people.Dealer(settled.roster, settled.seed)
        letters = settled.vocabulary.name_letters
        self._turns = _PASSES * self._dealer.turns(letters)
        self._dealer.deal(0, people.MAX_PEOPLE, letters)

    @property
    def request(self) -> dict[str, Any]:
        """The request with every default filled in, as in the set format."""
        return self._settled.to_json()

    @property
    def size(self) -> int:
        """How many different problems there are."""
        return len(self._choices)

    @property
    def preferred(self) -> int:
        """How many of them come first, before those whose numbers are only second best."""
        return self._choices.preferred

    @property
    def notes(self) -> tuple[str, ...]:
        """What has to be said about the problems."""
        settled = self._settled
        return (*settled.notes, *settled.roster.notes, *self._dealer.notes)

    def choice(self, n: int) -> generate.Choice:
        """What makes problem n another one than all others. Raises IndexError without such one."""
        return self._choices.choice(n)

    def problem(self, n: int) -> Problem:
        """Problem n, finished and checked; its code may be that of another one, too.

        Raises IndexError where there is no such number, ProblemFaultError where a law is broken.
        """
        settled = self._settled
        chosen = self._choices.chosen(n)
        count = chosen.plan.skeleton.people
        dealt = self._dealer.deal(n % self._turns, count, settled.vocabulary.name_letters)
        problem = generate.make_chosen(settled, chosen, dealt)
        return standards.mapped([problem], settled.standards)[0]


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
    return gathered(settled, progress, problems, in_series=in_series)


def gathered(
    settled: Settled,
    progress: Progress,
    problems: Sequence[Problem],
    *,
    in_series: bool = False,
) -> ProblemSet:
    """The set of finished problems, with the standards asked for and its notes."""
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
