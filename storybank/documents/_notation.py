"""Signs and spaces of printed mathematics, and text that runs from right to left."""

import re
import unicodedata
from collections.abc import Iterator

from storybank.model import Solution

MINUS = "\N{MINUS SIGN}"
UNKNOWN = "\N{WHITE SQUARE}"
BLANK = "____________"
_SPACE = "\N{NO-BREAK SPACE}"
_SIGN = re.compile(rf"(?<=[\d?{UNKNOWN}]) ([-+=]) (?=[\d?{UNKNOWN}])")
_QUOTES = re.compile(r'"([^"]*)"')
_QUESTION_MARK = re.compile(rf"(?<=[-+={MINUS}]{_SPACE})\?|\?(?={_SPACE}[-+={MINUS}])")


def mathematics(text: str, unknown: str = UNKNOWN) -> str:
    """`text` with the equations in it as they are printed.

    A minus sign for the hyphen, no-break spaces inside, the sign `unknown` for what is sought.
    Words around an equation stay as they are.
    """
    spaced = _SIGN.sub(lambda sign: f"{_SPACE}{MINUS if sign[1] == '-' else sign[1]}{_SPACE}", text)
    return _QUESTION_MARK.sub(unknown, spaced)


def quoted(text: str) -> str:
    """`text` with the quotation marks and apostrophes of print in place of straight ones."""
    return _QUOTES.sub(
        "\N{LEFT DOUBLE QUOTATION MARK}\\1\N{RIGHT DOUBLE QUOTATION MARK}", text
    ).replace("'", "\N{RIGHT SINGLE QUOTATION MARK}")


def steps(solution: Solution) -> tuple[str, ...]:
    """The steps of a solution as equations, in plain signs."""
    return solution.lines or tuple(
        f"{jump.start} {'+' if jump.by > 0 else '-'} {abs(jump.by)} = {jump.to}"
        for jump in solution.jumps
    )


def steps_text(solution: Solution) -> str:
    """The steps of a solution in one line of text, and the sum of the jumps if that is sought."""
    text = ", ".join(steps(solution))
    if solution.answer_is == "sum of jumps" and len(solution.jumps) > 1:
        sizes = str(solution.jumps[0].by) + "".join(
            f" {'+' if jump.by > 0 else '-'} {abs(jump.by)}" for jump in solution.jumps[1:]
        )
        text = f"{text}; the jumps make {sizes} = {sum(jump.by for jump in solution.jumps)}"
    elif solution.answer_is == "sum of jumps":
        text = f"{text}; the answer is the jump, {solution.jumps[0].by}"
    return text


def directions(text: str) -> Iterator[tuple[str, bool]]:
    """The stretches of `text` in order, each with whether it is written from right to left.

    A stretch from right to left begins and ends with a letter of such a script; blanks and
    marks between two of them belong to it.
    """
    if text.isascii():
        yield text, False
        return
    kinds = [unicodedata.bidirectional(one) for one in text]
    start = 0
    position = 0
    while position < len(text):
        if kinds[position] not in ("R", "AL"):
            position += 1
            continue
        end = position + 1
        reach = end
        while reach < len(text) and kinds[reach] not in ("L", "EN"):
            reach += 1
            if kinds[reach - 1] in ("R", "AL", "NSM"):
                end = reach
        if position > start:
            yield text[start:position], False
        yield text[position:end], True
        start = position = end
    if start < len(text):
        yield text[start:], False
