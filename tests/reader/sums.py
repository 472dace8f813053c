"""Stories of three or four amounts that are put together: any two of them must be two parts."""

from itertools import combinations

from . import told
from .parts import parts
from .reading import Reading, numbered
from .words import CannotRead


def read_sum(text: str) -> Reading:
    """The sum that a story asks for. Raises CannotRead, with the reason, where it asks for none."""
    facts, asks, units = told(text)
    known = [fact for fact in numbered(facts) if fact.thing.digits]
    if not 3 <= len(known) <= 4 or len(asks) != 1 or len(known) != len(facts):
        raise CannotRead(f"{len(known)} numbers told of {len(facts)} facts, {len(asks)} questions")
    ask = asks[0][1]
    for pair in combinations(known, 2):
        found = parts(list(pair), ask)
        if found.situation != "whole-unknown":
            raise CannotRead(f"not two parts of a whole: {found.equation}")
    numbers = [fact.count or 0 for fact in known]
    equation = f"{' + '.join(map(str, numbers))} = ?"
    return Reading(equation, "whole-unknown", sum(numbers), units[0])
