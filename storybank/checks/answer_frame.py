"""The answer frame is the answer sentence with a blank for its number and the noun in plural."""

from collections.abc import Iterator

from storybank.checks import _spoiling
from storybank.checks._context import Context
from storybank.checks._line import BLANK, Token
from storybank.checks._rules import Fault
from storybank.checks._shape import Shape, judged
from storybank.model import Problem

TITLE = "The answer frame"
_BE = {"is": "are", "was": "were"}


def faults(shape: Shape) -> Iterator[Fault]:
    """A fault where the frame is not the answer sentence with blanks."""
    at = len(shape.sentences) + 1
    answer, frame = shape.answer, shape.frame
    blanks = frame.lows.count(BLANK)
    if blanks != shape.questions:
        yield at, f"{blanks} blanks (___) stand in it; it needs {shape.questions}."
        return
    if len(answer.tokens) != len(frame.tokens):
        yield at, "its words are not those of the answer sentence."
        return
    for said, blank in zip(answer.tokens, frame.tokens, strict=True):
        if not _matches(said, blank, shape):
            yield at, f'"{blank.text}" stands where the answer sentence has "{said.text}".'


def _matches(said: Token, blank: Token, shape: Shape) -> bool:
    if said.has("num"):
        return blank.low == BLANK
    if said.text == blank.text:
        return True
    lexicon = shape.lexicon
    return (
        lexicon.plural.get(said.low) == blank.low
        or _BE.get(said.low) == blank.low
        or (said.has("vs") and blank.has("vb") and lexicon.base.get(said.low) == blank.low)
    )


def judge(problem: Problem, context: Context) -> list[str]:
    """Whether the answer frame of a problem matches its answer sentence."""
    return judged(faults, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples without a blank, with one too many, with another noun and another name."""
    samples = [
        *_spoiling.with_frame(problem, "___", "9"),
        *_spoiling.with_frame(problem, "___", "___ ___"),
        *_spoiling.with_frame(problem, r"(___ (?:more |fewer )?)\w+", r"\1hens"),
        *_spoiling.with_frame(problem, r"\.$", " now then."),
    ]
    if problem.story.people:
        samples += _spoiling.with_frame(problem, problem.story.people[0], "Somebody")
    return samples
