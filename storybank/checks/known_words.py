"""Every word is a function word of the closed list, a name, a numeral or a word of the pack."""

from collections.abc import Iterator

from storybank.checks import _spoiling
from storybank.checks._context import Context
from storybank.checks._reading import EVERYWHERE, Reading
from storybank.checks._rules import Rules
from storybank.checks._shape import judged_lines
from storybank.model import Problem

TITLE = "Only known words"
PARTS = EVERYWHERE


def line_faults(read: Reading, rules: Rules) -> Iterator[str]:
    """A fault for each word that nobody gave."""
    for token in read.line.tokens:
        if token.has("unknown"):
            yield (
                f'the word "{token.text}" is not in the theme pack, not among the words '
                "that every story may use, and no name of this problem. Write it another "
                "way, or add it to the pack."
            )


def judge(problem: Problem, context: Context) -> list[str]:
    """What is wrong with the words of a problem."""
    return judged_lines(line_faults, PARTS, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with a word that no pack gives, and with a stranger's name."""
    name = problem.story.people[0] if problem.story.people else "nobody here"
    return [
        *_spoiling.retold(problem, r"\d+ (more |fewer )?", r"\g<0>zyxer "),
        *_spoiling.retold(problem, name, "Quentin"),
        *_spoiling.retold(problem, name, f"{name}'s"),
    ]
