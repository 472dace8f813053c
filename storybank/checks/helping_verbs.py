"""Do, does, did and could are followed by who does it and the base form of the verb."""

from collections.abc import Iterator

from storybank.checks import _spoiling
from storybank.checks._context import Context
from storybank.checks._reading import TOLD_AND_ANSWERED, Reading
from storybank.checks._rules import Rules
from storybank.checks._shape import judged_lines
from storybank.model import Problem

TITLE = "Do, does, did and the base form"
PARTS = TOLD_AND_ANSWERED


def line_faults(read: Reading, rules: Rules) -> Iterator[str]:
    """A fault for each helping verb without a base form behind its subject."""
    tokens = read.line.tokens
    for verb in read.verbs:
        helper = tokens[verb.at]
        if not helper.has("aux", "modal"):
            continue
        if helper.has("aux") and not read.line.asks:
            yield f'"{helper.text}" belongs in a question only.'
        base = next((tokens[one.at] for one in read.verbs if one.after == verb.at), None)
        if base is None or not base.has("vb", "be0"):
            word = f', not "{base.text}"' if base else ""
            yield (
                f'behind "{helper.text}" and its subject stands the base form of a '
                f'verb{word}, as in "does Ann have".'
            )


def judge(problem: Problem, context: Context) -> list[str]:
    """Where a helping verb of a problem lacks its base form."""
    return judged_lines(line_faults, PARTS, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with has or had behind do, does, did and could."""
    return [
        *_spoiling.reasked(problem, r"\bhave\b", "has"),
        *_spoiling.reasked(problem, r"\bhave\b", "had"),
        *_spoiling.reasked(problem, r"\b(pick|give|put|take)\b", r"\1s"),
        *_spoiling.retold(problem, r" (has|had) ", r" did has "),
    ]
