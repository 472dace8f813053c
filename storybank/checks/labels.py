"""Code, theme, scene, situation, vocabulary, telling and standards are what they claim to be."""

import re
from collections.abc import Iterator
from dataclasses import replace

from storybank import situations
from storybank.checks._context import Context
from storybank.model import Problem
from storybank.model.measures import kind_of
from storybank.situations import two_steps

TITLE = "Labels"
CODE = re.compile(r"[0-9A-Z]{4,8}")
STANDARD = re.compile(r"(?:K|[1-3])\.(?:OA|NBT|MD)\.[1-9]")


def judge(problem: Problem, context: Context) -> list[str]:
    """Which labels of a problem are wrong.

    Standards are CCSS-M codes without a cluster letter; those of the situation and the largest
    number must be among them.
    """
    return list(_faults(problem, context))


def _faults(problem: Problem, context: Context) -> Iterator[str]:
    if not CODE.fullmatch(problem.code):
        yield f'The code "{problem.code}" must have 4 to 8 capital letters and digits.'
    theme = context.theme
    if problem.theme != theme.header.id:
        yield f'The problem names the theme "{problem.theme}", and is told with {theme.header.id}.'
    if problem.scene not in theme.scenes:
        scenes = ", ".join(theme.scenes)
        yield f'There is no scene "{problem.scene}" in {theme.header.id}. There are: {scenes}.'
    if problem.vocabulary != context.vocabulary.id:
        yield f'The vocabulary is "{problem.vocabulary}", and {context.vocabulary.id} was asked.'
    if not problem.story.telling:
        yield "The problem does not say which telling it uses."
    expected = standards_of(problem)
    standards = problem.standards
    if not set(expected) <= set(standards) or len(set(standards)) != len(standards):
        yield f"The standards are {', '.join(standards)}; {', '.join(expected)} belong to it."
    for code in standards:
        if code not in expected and not STANDARD.fullmatch(code):
            yield f'"{code}" is not written as a standard such as 2.OA.1.'


def standards_of(problem: Problem) -> tuple[str, ...]:
    """The CCSS-M codes that belong to a problem, by its situations and its largest number."""
    situation = situations.get(problem.situation)
    whole = max(problem.numbers.values(), default=1)
    if "part3" in problem.numbers:
        return situations.standards_of_sum(len(problem.numbers) - 1, whole)
    if not problem.steps:
        return situations.standards(situation, whole, kind_of(problem.story.unit))
    first = problem.steps[0]
    largest = max(whole, *first.numbers.values())
    return two_steps.standards(situations.get(first.situation), situation, largest)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with each label changed."""
    return [
        replace(problem, code="ab c"),
        replace(problem, code=""),
        replace(problem, theme="elsewhere"),
        replace(problem, scene="nowhere"),
        replace(problem, vocabulary="level-9"),
        replace(problem, story=replace(problem.story, telling="")),
        replace(problem, standards=()),
        replace(problem, standards=(*problem.standards, "grade two")),
        replace(problem, standards=problem.standards * 2),
    ]
