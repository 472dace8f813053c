"""Skip-count: by tens, fives or hundreds from any number (CCSS-M 2.NBT.2, 2.NBT.8)."""

from storybank.model import Form
from storybank.strategies._numbers import place_name, places
from storybank.strategies._steps import Move, Walk, listed
from storybank.strategies._stories import refusals
from storybank.strategies._strategy import Suit

TITLE = "Skip-count by tens or fives"
RANK = 1
TEACHER = "Pays when the number added, taken away or missing is made of tens, fives or hundreds."
IN_SHORT = "skip-count"
I_CAN = "I can skip-count by tens or fives from any number."
AT_HOME = (
    "When we add or take away tens or fives, we start at the first number and count by tens "
    "or fives, one jump for each."
)
WORDS = {"skip-count": "count in jumps of the same size", "jump": "a move along the number line"}
MAX_HOPS = 10
_HOP = {"hundreds": (100, "a hundred"), "tens": (10, "a ten"), "ones": (5, "a five")}

SUITS = {
    "join-result-unknown": Suit((Form.ADD,), "Tens come along and are counted one by one."),
    "whole-unknown": Suit((Form.ADD,), "One part is made of tens, so it can be counted on."),
    "separate-start-unknown": Suit((Form.ADD,), "The tens that left are counted back on."),
    "compare-bigger-unknown-more": Suit((Form.ADD,), "The tens more are counted on."),
    "compare-bigger-unknown-fewer": Suit(
        (Form.ADD,), "The other one has some tens fewer, so count tens up to the bigger number."
    ),
    "separate-result-unknown": Suit((Form.SUBTRACT,), "Tens leave and are counted back."),
    "join-start-unknown": Suit((Form.SUBTRACT,), "The tens that came are counted back off."),
    "compare-smaller-unknown-more": Suit(
        (Form.SUBTRACT,), "The bigger number is some tens more, so count back to the smaller."
    ),
    "compare-smaller-unknown-fewer": Suit((Form.SUBTRACT,), "The tens fewer are counted back."),
    "join-change-unknown": Suit((Form.SOUGHT,), "Count by tens from the start up to the end."),
    "separate-change-unknown": Suit((Form.SOUGHT,), "From what is left, tens lead to the start."),
    "part-unknown": Suit((Form.SOUGHT,), "Count by tens from the known part up to the whole."),
    "compare-difference-unknown-more": Suit(
        (Form.SOUGHT,), "Count by tens from the smaller number up to the bigger."
    ),
    "compare-difference-unknown-fewer": Suit(
        (Form.SOUGHT,), "The tens from the smaller number to the bigger tell how many fewer."
    ),
}
REFUSES = refusals()


def rule(form: Form, a: int, b: int, limit: int) -> bool:
    """Whether b is tens up to 100, hundreds, 15 or 25, or 5 from a multiple of 5.

    Source: skip-counting by 5, 10 and 100, CCSS-M 2.NBT.2; bounds our own design.
    """
    if form is Form.SOUGHT:
        a, b = b, a - b
    if b % 10 == 0:
        return b <= 100 or b % 100 == 0
    return b in (15, 25) or (b == 5 and a % 5 == 0)


def reason(form: Form, a: int, b: int) -> str:
    """Why these numbers call for skip-counting."""
    if form is Form.SOUGHT:
        return f"From {b} to {a} it is {_described(a - b)}."
    if b == 5:
        return f"{a} is a number you say when you count by fives, so 5 is one jump."
    return f"{b} is {_described(b)}."


def jumps(form: Form, a: int, b: int) -> Walk | None:
    """Up to ten hops, hundreds first, then tens, then a five."""
    sought = form is Form.SOUGHT
    size = a - b if sought else b
    if size % 5 or (size == 5 and (b if sought else a) % 5):
        return None
    hops = [
        _HOP[place_name(part)]
        for part in places(size)
        for _ in range(part // _HOP[place_name(part)][0])
    ]
    if len(hops) > MAX_HOPS:
        return None
    back = "back " if form is Form.SUBTRACT else ""
    sign = -1 if back else 1
    cause = f"to count up toward {a}" if sought else f"because {b} is {_described(b)}"
    if hops == [_HOP["ones"]]:
        cause = "because I count by fives"
    moves = [
        Move(sign * step, why, f"From {{at}}, jump {back}{{size}} more. I land on {{to}}.")
        for step, why in hops
    ]
    first = f"From {{at}}, jump {back}{{size}} {cause}. I land on {{to}}."
    moves[0] = moves[0]._replace(says=first)
    if len(hops) > 1 and hops[-1] != hops[-2]:
        last = f"From {{at}}, jump {back}the last {{size}}. I land on {{to}}."
        moves[-1] = moves[-1]._replace(says=last)
    return Walk(b if sought else a, moves)


def _described(size: int) -> str:
    words = []
    for part in places(size):
        unit = _HOP[place_name(part)][0]
        count = part // unit
        name = {100: "hundred", 10: "ten", 5: "five"}[unit]
        words.append(f"{count} {name}{'' if count == 1 else 's'}")
    return ("just " if words in (["1 ten"], ["1 five"], ["1 hundred"]) else "") + listed(words)
