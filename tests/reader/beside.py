"""Numbers that a story tells besides: of things that nobody asks about."""

from .facts import Fact
from .reading import numbered

NEEDED = 2


def leave_beside(facts: list[Fact], asks: list[Fact]) -> tuple[list[Fact], int]:
    """The facts without those that are beside the point, and how many numbers were left out.

    A number is beside the point where the story tells more of them than a question needs, and what
    it counts is neither asked for nor counted again. Where that does not leave just as many numbers
    as are needed, nothing is left out: then the story is unclear.
    """
    known = numbered(facts)
    if len(known) <= NEEDED:
        return facts, 0
    asked = {one.thing.head for one in asks}
    heads = [one.thing.head for one in known]
    beside = [
        one for one in known if one.thing.head not in asked and heads.count(one.thing.head) == 1
    ]
    if len(known) - len(beside) != NEEDED:
        return facts, 0
    return [one for one in facts if one not in beside], len(beside)
