"""The numerals of the text are the numbers given, in their order, and never give the answer."""

import re
from dataclasses import replace

from storybank.checks import _spoiling
from storybank.checks._context import Context
from storybank.model import Problem

TITLE = "Numbers told"
_NUMERAL = re.compile(r"\d+")
_TENS = ("skip-count", "doubles")


def judge(problem: Problem, context: Context) -> list[str]:
    """What is wrong with the numbers that the text of a problem tells."""
    story = problem.story
    numerals = _NUMERAL.findall(story.text)
    given = story.given
    unneeded = [one.number for one in problem.extra]
    told = tuple(map(int, numerals))
    if unneeded:
        told = tuple([number for number in told if number not in unneeded])
    found = []
    if told != given:
        found.append(
            f'The text "{story.text}" tells the numbers {told}, and {given} are listed as given. '
            "List them in the order of the text."
        )
    if any(numeral[0] == "0" for numeral in numerals):
        found.append(f'A numeral of "{story.text}" begins with 0. Write it without.')
    needed = _needed(problem)
    if sorted(given) != sorted(needed):
        found.append(f"The numbers given are {given}; the problem needs {sorted(needed)}.")
    answer = problem.answer
    if isinstance(answer, tuple):
        said = tuple(map(int, _NUMERAL.findall(story.answer_sentence)))
        if said not in answer:
            found.append(f'"{story.answer_sentence}" is not one of the pairs of {given}.')
        return found
    if [int(one) for one in _NUMERAL.findall(story.answer_sentence)] != [answer]:
        found.append(f'"{story.answer_sentence}" must tell the answer {answer}, once.')
    if context.asked_pair:
        return found
    if problem.strategy != "doubles" and (answer in given or len(set(given)) < len(given)):
        found.append(
            f"With the numbers {given} and the answer {answer} two of the three are equal. Choose "
            "other numbers; only doubles may be so."
        )
    if any(number % 10 == 0 for number in given) and not _may_hold_tens(problem):
        found.append(
            f"A multiple of ten is among the numbers {given}; there strategies coincide. Only "
            f"{' and '.join(_TENS)} use them."
        )
    return found


def _needed(problem: Problem) -> list[int]:
    """The numbers that must be told: all but those asked for, left out, or between two steps."""
    if not problem.steps:
        left_out = problem.missing.role if problem.missing else problem.unknown
        untold = (problem.unknown, left_out)
        return [number for role, number in problem.numbers.items() if role not in untold]
    needed = [
        number
        for step in problem.steps
        for role, number in step.numbers.items()
        if role != step.unknown
    ]
    if problem.hidden in needed:
        needed.remove(problem.hidden)
    return needed


def _may_hold_tens(problem: Problem) -> bool:
    return any(
        strategy in _TENS
        for strategy in (problem.strategy, *(step.strategy for step in problem.steps))
    )


def spoil(problem: Problem) -> list[Problem]:
    """Samples with another numeral, a leading zero, swapped or missing numbers, the answer told."""
    story = problem.story
    samples = [
        *_spoiling.retold(problem, r"(\d+)", r"\g<1>3"),
        *_spoiling.retold(problem, r"(\d+)", r"0\1"),
        *_spoiling.with_answer(problem, r"(\d+)", r"\g<1>3"),
        *_spoiling.reasked(problem, r"\?$", " 17?"),
        _spoiling.with_story(problem, replace(story, given=(*story.given, 7))),
        _spoiling.with_story(problem, replace(story, given=())),
    ]
    if len(set(story.given)) == 2:
        samples.append(_spoiling.with_story(problem, replace(story, given=story.given[::-1])))
    return samples
