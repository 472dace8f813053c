"""A set of problems: one request, its problems in order, and what has to be said about them."""

import secrets
from collections.abc import Callable

from storybank import generate, strategies
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
    progress = Progress.of(settled)
    problems = []
    for index in range(settled.count):
        problems.append(generate.make_problem(settled, index, progress))
        if report is not None:
            report(index + 1, settled.count)
    notes = (
        *settled.notes,
        *settled.roster.notes,
        *progress.dealer.notes,
        *_pair_notes(settled),
        *progress.keywords.leaning(),
    )
    return ProblemSet(
        request=settled.to_json(), problems=tuple(problems), version=VERSION, notes=notes
    )


def make_problem(request: Request) -> Problem:
    """The first problem of the set that `request` asks for."""
    settled = settle(request, secrets.randbelow(1_000_000))
    return generate.make_problem(settled, 0, Progress.of(settled))


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
