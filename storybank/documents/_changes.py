"""How pages show what was changed about a story: sets of numbers, an extra one, a missing one."""

import re
from collections.abc import Iterator, Sequence

from storybank.documents._notation import mathematics, quoted, steps_text
from storybank.documents._page import Paragraph, Picture, Piece
from storybank.documents._support import bar, strategy_name
from storybank.drawings import Drawing, Measures, handwriting, tape_diagram
from storybank.model import NumberSet, Problem

ASK = "What else do you need to know?"
_NUMERAL = re.compile(r"\d+")
_SPACE = "\N{NO-BREAK SPACE}"
_PLACES = ("first", "second", "third", "fourth")


def told(problem: Problem, text: str) -> str:
    """A text of the story as it is printed: with several sets, all their numbers in brackets.

    "[8 | 18 | 46] apples": the sets rise from left to right, and each has the same place in every
    bracket (a common way to print number choices; no source).
    """
    sets = rising(problem)
    if not sets:
        return text
    whole = [one.start() for one in _NUMERAL.finditer(problem.text)]
    start = problem.text.find(text)
    before = sum(at < start for at in whole)
    numbers: Iterator[tuple[int, ...]] = iter(list(zip(*(one.given for one in sets), strict=True)))
    for _ in range(before):
        next(numbers)
    return _NUMERAL.sub(lambda _: _bracket(next(numbers)), text)


def _bracket(numbers: Sequence[int]) -> str:
    return f"[{f'{_SPACE}|{_SPACE}'.join(str(one) for one in numbers)}]"


def rising(problem: Problem) -> tuple[NumberSet, ...]:
    """The number sets of a problem, the smallest first."""
    return tuple(reversed(problem.number_sets))


def for_children(problem: Problem) -> list[Piece]:
    """What stands under the story: how to choose numbers, or room to ask for the missing one."""
    sets = problem.number_sets
    if sets:
        *places, last = _PLACES[: len(sets)]
        comma = "," if len(places) > 1 else ""
        joined = f"{', '.join(places)}{comma} or {last}"
        return [Paragraph("help", f"Choose your numbers: take the {joined} in every [ ].")]
    return []


def to_ask(problem: Problem, measures: Measures) -> list[Piece]:
    """Room to write the question for a missing number, and the number once it is told."""
    if problem.missing is None:
        return []
    return [
        Paragraph("fill", "", lead=ASK),
        Picture(handwriting.writing_lines(1, measures=measures)),
        Paragraph("fill", "________", lead="The number I asked for:"),
    ]


def bar_for_children(problem: Problem, measures: Measures) -> Drawing | None:
    """The bar diagram of a story; without numbers where the child chooses or asks for them."""
    drawn = bar(problem, measures)
    if drawn is None or not (problem.number_sets or problem.missing):
        return drawn
    return tape_diagram.without_numbers(drawn)


def for_the_key(problem: Problem) -> list[Piece]:
    """What the key says besides: the number not needed, or the question and the number missing."""
    said: list[Piece] = [
        Paragraph("fact", f"{one.told}.", lead="Not needed:") for one in problem.extra
    ]
    missing = problem.missing
    if missing is not None:
        text = f"\N{LEFT DOUBLE QUOTATION MARK}{missing.ask}\N{RIGHT DOUBLE QUOTATION MARK}"
        said.append(Paragraph("fact", text, lead="Child asks:"))
        said.append(Paragraph("fact", f"{missing.number}.", lead="You tell:"))
    if problem.number_sets:
        first = problem.number_sets[0]
        numbers = " and ".join(str(one) for one in first.given)
        said.append(
            Paragraph("fact", f"Numbers to {first.limit}: {numbers}.", lead="Worked in full:")
        )
    return said


def other_sets(problem: Problem, sign: str) -> list[Piece]:
    """The number sets behind the first, each in a paragraph: equation, answer, steps, strategy."""
    return [_other(one, problem, sign) for one in problem.number_sets[1:]]


def _other(one: NumberSet, problem: Problem, sign: str) -> Paragraph:
    numbers = " and ".join(str(number) for number in one.given)
    text = (
        f"{numbers}. {mathematics(one.equations.situation, sign)}. {one.answer_sentence} "
        f"{strategy_name(one.strategy).capitalize()}"
    )
    if one.strategy != problem.number_sets[0].strategy:
        text += " (another strategy: this one fits numbers so small)"
    text += f": {mathematics(steps_text(one.solution))}."
    for entry in one.watch_for[:1]:
        text += f" Watch for {entry.answer}: {quoted(mathematics(entry.says))}"
    return Paragraph("fact", text, lead=f"Numbers to {one.limit}:")


def answers(number: str, problem: Problem, sign: str) -> list[tuple[str, str, str, str]]:
    """The rows of all number sets in the table of answers, the smallest first."""
    return [
        (
            f"{number}, to {one.limit}",
            problem.code,
            mathematics(one.equations.situation, sign),
            str(one.answer),
        )
        for one in rising(problem)
    ]
