"""A number that is not needed counts something else, equals no other number, and is told once."""

import re
from collections.abc import Iterator
from dataclasses import replace

from storybank.checks._context import Context
from storybank.model import Extra, Problem

TITLE = "Extra number"
_NUMERAL = re.compile(r"\d+")


def judge(problem: Problem, context: Context) -> list[str]:
    """What is wrong with the numbers that a problem does not need; nothing where it has none."""
    return [fault for one in problem.extra for fault in _faults(one, problem, context)]


def _faults(extra: Extra, problem: Problem, context: Context) -> Iterator[str]:
    told = problem.story.sentences
    with_it = [one for one in told if re.search(rf"\b{extra.number}\b", one)]
    if len(with_it) != 1 or extra.told not in with_it[0]:
        yield f'"{extra.told}" must stand once in the text "{problem.text}".'
    elif len(_NUMERAL.findall(with_it[0])) > 1:
        yield f'"{with_it[0]}" tells another number as well. Tell {extra.told} by itself.'
    if extra.number in (*problem.numbers.values(), problem.answer):
        yield f"The number that is not needed, {extra.number}, is one of the story's own."
    if not 1 < extra.number <= context.limit:
        yield f"The number that is not needed, {extra.number}, is not from 2 to {context.limit}."
    others = " ".join(one for one in told if one not in with_it)
    for text in (others, problem.story.answer_sentence):
        if re.search(rf"\b{re.escape(extra.things)}\b", text):
            yield f'The story needs its {extra.things}: "{text}". Count another thing besides.'
            return


def spoil(problem: Problem) -> list[Problem]:
    """Samples whose text has no such number, or needs it, or asks for its thing."""
    named = [Extra(7777, "pears"), Extra(1, "pears")]
    if isinstance(problem.answer, int):
        named.append(Extra(problem.answer, "pears"))
    samples = [replace(problem, extra=(one,)) for one in named]
    for own in problem.extra:
        samples += [
            replace(problem, extra=(replace(own, number=problem.story.given[0]),)),
            replace(problem, extra=(own, replace(own, number=own.number + 1))),
        ]
    return samples
