"""Tens, then ones: break apart the second number only (N10; Beishuizen 1993)."""

from storybank.model import Form
from storybank.strategies._numbers import ones, place_name, places, regroups
from storybank.strategies._steps import Move, Walk, listed
from storybank.strategies._stories import refusals
from storybank.strategies._strategy import Suit
from storybank.strategies._upward import toward

TITLE = "Tens, then ones"
RANK = 4
TEACHER = "The general way: it works for any two numbers, and crossing a ten hardly matters to it."
IN_SHORT = "tens, then ones"
I_CAN = "I can jump the tens first and then the ones."
AT_HOME = "We start at one number on the line. First we jump the tens, and then the ones."
WORDS = {
    "tens": "groups of 10",
    "ones": "single ones, from 0 to 9",
    "jump": "a move along the number line",
}

SUITS = {
    "join-result-unknown": Suit((Form.ADD,), "What comes is added in tens, then in ones."),
    "whole-unknown": Suit((Form.ADD,), "Start at one part and jump on by the other."),
    "separate-start-unknown": Suit((Form.ADD,), "Jump on from what is left by what went."),
    "compare-bigger-unknown-more": Suit((Form.ADD,), "Jump on from the smaller number."),
    "compare-bigger-unknown-fewer": Suit(
        (Form.ADD,), "The bigger number is asked, so jump on although the story says fewer."
    ),
    "separate-result-unknown": Suit((Form.SUBTRACT,), "What goes is taken in tens, then in ones."),
    "join-start-unknown": Suit((Form.SUBTRACT,), "Jump back from the end by what came."),
    "compare-smaller-unknown-more": Suit(
        (Form.SUBTRACT,), "The smaller number is asked, so jump back although the story says more."
    ),
    "compare-smaller-unknown-fewer": Suit((Form.SUBTRACT,), "Jump back by the difference."),
    "join-change-unknown": Suit((Form.SOUGHT,), "Tens toward the end, then ones, are the change."),
    "separate-change-unknown": Suit((Form.SOUGHT,), "Tens, then ones, from what is left."),
    "part-unknown": Suit((Form.SOUGHT,), "Tens, then ones, from the known part to the whole."),
    "compare-difference-unknown-more": Suit(
        (Form.SOUGHT,), "Tens, then ones, from the smaller number up to the bigger."
    ),
    "compare-difference-unknown-fewer": Suit(
        (Form.SOUGHT,), "Tens, then ones, until the smaller number has caught up."
    ),
}
REFUSES = refusals()


def rule(form: Form, a: int, b: int, limit: int) -> bool:
    """Whether a has tens and b has ones that a jump can do; above 100 also tens within hundreds.

    Source: N10 is the general method (Beishuizen 1993); the bounds are our own design.
    """
    if form is Form.SOUGHT:
        a, b, form = b, a - b, Form.ADD
    if a < 10:
        return False
    if b <= 9:
        return a % 10 == 0 or not regroups(form, a, b)
    return b % 10 != 0 or (b > 100 and b % 100 != 0)


def reason(form: Form, a: int, b: int) -> str:
    """Why these numbers can be done by tens, then ones."""
    if form is Form.SOUGHT:
        a, b = b, a - b
        return f"From {a} it is {_described(b)} to {a + b}."
    if b <= 9:
        return f"{b} is only ones, and one jump from {a} does it."
    return f"{b} is {_described(b)}: one jump for each."


def thin(form: Form, a: int, b: int) -> bool:
    """Whether one jump of ones does it all, or so few are left that counting up is nearer."""
    if form is Form.SUBTRACT:
        return min(b, a - b) <= 9
    return (a - b if form is Form.SOUGHT else min(a, b)) <= 9


def jumps(form: Form, a: int, b: int) -> Walk | None:
    """One jump for each place of the second number.

    A one-digit jump must not cross a ten, and a two-digit number is not added to a one-digit
    number: turned round it is easier.
    """
    sought = form is Form.SOUGHT
    start, size = (b, a - b) if sought else (a, b)
    plain = Form.SUBTRACT if form is Form.SUBTRACT else Form.ADD
    if size <= 9 and ones(start) and regroups(plain, start, size):
        return None
    if sought:
        return Walk(start, toward(start, a))
    if form is Form.ADD and a < 10 <= b:
        return None
    back = "back " if form is Form.SUBTRACT else ""
    moves: list[Move] = []
    for part in places(size):
        name = place_name(part)
        if moves:
            cause = f"for the {name}"
        elif part == size:
            cause = f"because {b} is just {name}"
        else:
            cause = f"because {b} is {_described(b)}"
        says = f"From {{at}}, jump {back}{{size}} {cause}. I land on {{to}}."
        moves.append(Move(-part if back else part, f"the {name}", says))
    return Walk(start, moves)


def _described(size: int) -> str:
    return listed([str(part) for part in places(size)])
