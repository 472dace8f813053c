"""Levels of English: the measured largest and middle value of every limit. Our own design.

`python tests/whole/test_levels.py` prints the table. Words, sentences, letters, tense and
pronouns are counted here by rules of the test's own, the rest by the checks' grammar.
"""

import re
import statistics
import sys
from collections import defaultdict
from collections.abc import Iterator

import pytest

from storybank import Request, checks, make_set, situations, themes, vocabulary
from storybank.checks import _shape
from storybank.checks.density import most_modifiers, prepositional_phrases
from storybank.model import Problem
from storybank.vocabulary.measures import unfamiliar

LIMITS = {
    "level-1": (8, 9, 4, 28, 1, 1, 1, 1, 5, 0, 0),
    "level-2": (9, 10, 4, 30, 1, 1, 1, 1, 5, 1, 0),
    "level-3": (11, 12, 4, 34, 1, 2, 1, 2, 6, 1, 1),
    "level-4": (15, 15, 5, 45, 2, 2, 2, 3, 8, 1, 1),
}
WHAT = (
    "words a statement", "words a question", "sentences", "words in all", "finite verbs a sentence",
    "modifiers before a noun", "prepositional phrases a sentence", "unfamiliar words",
    "letters of a name", "people that a pronoun stands for", "tenses in the past",
)  # fmt: skip
WORD = re.compile(r"[^\W_]+(?:['\u2019-][^\W_]+)*")
PAST = re.compile(r"\b(had|was|were|started|gave|found|made|put|took|picked|came|went|took)\b")
PRONOUN = re.compile(r"\b(he|she)\b", re.IGNORECASE)


def problems(level: str) -> Iterator[Problem]:
    for theme in themes.ids():
        for seed in range(3):
            yield from make_set(
                Request(
                    theme=[theme],
                    vocabulary=level,
                    situation=situations.ids(),
                    count=2 * len(situations.ids()),
                    seed=seed,
                )
            ).problems


def measured(problem: Problem) -> tuple[int, ...]:
    """The figures of one problem, in the order of WHAT."""
    pack, theme = vocabulary.get(problem.vocabulary), themes.get(problem.theme)
    context = checks.Context(limit=100, vocabulary=pack, theme=theme)
    shape = _shape.shape_of(_shape.key_of(problem, context), context)
    asked = 2 if problem.unknown == "parts" else 1
    told = [len(WORD.findall(one)) for one in problem.story.sentences]
    statements = problem.story.sentences[:-asked]
    hard = unfamiliar(
        [line.text for line in shape.sentences], ("Ada", "Ben"), shape.lexicon.bases
    )  # fmt: skip
    bases = shape.lexicon.word_bases
    return (
        max(told[:-asked]),
        max(told[-asked:]),
        len(told),
        sum(told),
        max(sum(verb.finite for verb in verbs) for verbs in shape.verbs[: len(told)]),
        max(map(most_modifiers, shape.sentences)),
        max(map(prepositional_phrases, shape.sentences)),
        len({bases.get(word, word) for word in hard if word not in NAMES}),
        max((len(name) for name in problem.story.people), default=0),
        int(bool(PRONOUN.search(problem.text))),
        int(any(PAST.search(one) for one in statements)),
    )


NAMES = ("ada", "ben")


def table() -> dict[str, dict[str, list[int]]]:
    """All figures by level and kind."""
    found: dict[str, dict[str, list[int]]] = {}
    for level in LIMITS:
        found[level] = defaultdict(list)
        for problem in problems(level):
            for what, figure in zip(WHAT, measured(problem), strict=True):
                found[level][what].append(figure)
    return found


@pytest.fixture(scope="module")
def figures() -> dict[str, dict[str, list[int]]]:
    return table()


@pytest.mark.parametrize("level", LIMITS)
def test_no_figure_is_above_its_limit(level: str, figures: dict[str, dict[str, list[int]]]) -> None:
    for what, limit in zip(WHAT, LIMITS[level], strict=True):
        assert max(figures[level][what]) <= limit, what


def test_each_level_is_no_plainer_than_the_one_below(
    figures: dict[str, dict[str, list[int]]],
) -> None:
    """The middle of words in all rises: levels differ in what is told, not only in their limits."""
    middles = [statistics.median(figures[level]["words in all"]) for level in LIMITS]
    assert middles == sorted(middles) and middles[0] < middles[-1], middles


if __name__ == "__main__":
    shown = table()
    for place, name in enumerate(WHAT):
        cells = []
        for one, limits in LIMITS.items():
            values = shown[one][name]
            cells.append(f"{max(values)}/{statistics.median(values):g} (limit {limits[place]})")
        sys.stdout.write(f"{name:34}" + "  ".join(f"{cell:18}" for cell in cells) + "\n")
