"""Do, does, did and could are followed by who does it and the base form of the verb."""

from collections.abc import Iterator

from storybank.checks import _spoiling
from storybank.checks._context import Context
from storybank.checks._rules import Fault
from storybank.checks._shape import Shape, judged
from storybank.model import Problem

TITLE = "Do, does, did and the base form"


def faults(shape: Shape) -> Iterator[Fault]:
    """A fault for each helping verb without a base form behind its subject."""
    for at, found in enumerate(shape.verbs):
        line = shape.lines[at]
        for verb in found:
            if not verb.token.has("aux", "modal"):
                continue
            if verb.token.has("aux") and not line.asks:
                yield at, f'"{verb.token.text}" belongs in a question only.'
            base = next((one.token for one in found if one.after == verb.at), None)
            if base is None or not base.has("vb", "be0"):
                word = f', not "{base.text}"' if base else ""
                yield (
                    at,
                    (
                        f'behind "{verb.token.text}" and its subject stands the base form of a '
                        f"verb{word}, as in "
                        '"does Ann have".'
                    ),
                )


def judge(problem: Problem, context: Context) -> list[str]:
    """Where a helping verb of a problem lacks its base form."""
    return judged(TITLE, faults, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with has or had behind do, does, did and could."""
    return [
        *_spoiling.reasked(problem, r"\bhave\b", "has"),
        *_spoiling.reasked(problem, r"\bhave\b", "had"),
        *_spoiling.reasked(problem, r"\b(pick|give|put|take)\b", r"\1s"),
        *_spoiling.retold(problem, r" (has|had) ", r" did has "),
    ]
