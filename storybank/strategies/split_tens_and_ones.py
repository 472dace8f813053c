"""Split tens and ones: break apart both numbers (1010; CCSS-M 2.NBT.6, 2.NBT.7)."""

from storybank.model import Form
from storybank.strategies._numbers import ones, regroups
from storybank.strategies._steps import Line, listed
from storybank.strategies._stories import refusals
from storybank.strategies._strategy import Suit

TITLE = "Split tens and ones"
RANK = 4
TEACHER = "Pays when both numbers have tens and ones and no ten has to be made or broken."
IN_SHORT = "split tens and ones"
I_CAN = "I can split numbers into tens and ones."
AT_HOME = (
    "We split both numbers into tens and ones. We do the tens, then the ones, and put the two "
    "results together."
)
WORDS = {
    "split": "break a number into parts",
    "tens": "groups of 10",
    "ones": "single ones, from 0 to 9",
}

SUITS = {
    "whole-unknown": Suit(
        (Form.ADD,), "Two parts lie side by side, so tens go with tens and ones with ones."
    ),
    "join-result-unknown": Suit((Form.ADD,), "What comes is put with its like: tens, then ones."),
    "separate-start-unknown": Suit(
        (Form.ADD,), "What left and what stayed are put together again place by place."
    ),
    "compare-bigger-unknown-more": Suit((Form.ADD,), "Tens and ones more are added separately."),
    "compare-bigger-unknown-fewer": Suit(
        (Form.ADD,), "Once the child sees who has more, both numbers split the same way."
    ),
    "separate-result-unknown": Suit((Form.SUBTRACT,), "Tens leave from tens, ones from ones."),
    "part-unknown": Suit(
        (Form.SUBTRACT,), "The known part is lifted off the whole, tens and ones by themselves."
    ),
    "join-start-unknown": Suit(
        (Form.SUBTRACT,), "What came is taken off again, tens from tens and ones from ones."
    ),
    "compare-difference-unknown-more": Suit(
        (Form.SUBTRACT,), "Two bars are compared place by place."
    ),
    "compare-difference-unknown-fewer": Suit(
        (Form.SUBTRACT,), "Fewer tens and fewer ones are found one after the other."
    ),
    "compare-smaller-unknown-more": Suit(
        (Form.SUBTRACT,), "The tens and the ones of the difference come off the bigger number."
    ),
    "compare-smaller-unknown-fewer": Suit(
        (Form.SUBTRACT,), "So many tens and so many ones fewer can be seen at a glance."
    ),
}
REFUSES = refusals(
    {
        "join-change-unknown": "The change is one walk from start to end; cutting both ends into "
        "tens and ones leaves no walk to follow.",
        "separate-change-unknown": "Start and end are the same heap at two times, so splitting "
        "both shows two heaps where the story has one.",
    }
)


def rule(form: Form, a: int, b: int, limit: int) -> bool:
    """Whether both numbers are at least 11, b has ones, and the ones do not regroup.

    Source: partial sums / 1010; for taking away only without regrouping (Beishuizen 1993).
    """
    return (
        form is not Form.SOUGHT and a >= 11 and b >= 11 and b % 10 != 0 and not regroups(form, a, b)
    )


def reason(form: Form, a: int, b: int) -> str:
    """Why these numbers call for splitting."""
    if form is Form.ADD:
        return f"The ones {ones(a)} and {ones(b)} make no new ten."
    return f"The ones of {a} are enough to take {ones(b)} away."


def lines(form: Form, a: int, b: int) -> tuple[Line, ...] | None:
    """One line for each place that both numbers have, and one that puts the parts together.

    The last is left out where only the ones are left. Taking away, hundreds and tens stay
    together where the tens alone would not do.
    """
    if min(a, b) < 11 or ones(a) + ones(b) == 0:
        return None
    if form is Form.SUBTRACT and regroups(form, a, b):
        return None
    if form is Form.SUBTRACT and a % 100 < b % 100:
        split = [("tens", a - ones(a), b - ones(b)), ("ones", ones(a), ones(b))]
    else:
        units = (("hundreds", 100), ("tens", 10), ("ones", 1))
        split = [(name, _place(a, unit), _place(b, unit)) for name, unit in units]
    sign, word = ("+", "plus") if form is Form.ADD else ("-", "take away")
    found: list[Line] = []
    parts: list[int] = []
    for name, first, second in split:
        value = first + second if form is Form.ADD else first - second
        if first and second:
            opening = "Then" if found else "First"
            says = (
                f"{opening} I put the {name} with the {name}: {first} {word} {second} is {value}."
                if form is Form.ADD
                else f"{opening} I take {name} from {name}: {first} {word} {second} is {value}."
            )
            found.append(Line(f"{first} {sign} {second} = {value}", says))
        if value:
            parts.append(value)
    answer = a + b if form is Form.ADD else a - b
    if not found:
        return (_together(parts, answer, "I put {} together, because they are different places."),)
    if len(parts) > 1:
        found.append(_together(parts, answer, "Last I put {} together."))
    elif not found[-1].equation.endswith(f" = {answer}"):
        found.append(_together([*parts, 0], answer, "Last I put {} together."))
    return tuple(found)


def _together(parts: list[int], answer: int, says: str) -> Line:
    words = [str(part) for part in parts]
    return Line(f"{' + '.join(words)} = {answer}", f"{says.format(listed(words))} I get {answer}.")


def _place(number: int, unit: int) -> int:
    return number // unit * unit if unit == 100 else number % (10 * unit) // unit * unit
