"""Solves a measured story: a change, two that are compared, or parts of a whole."""

from .amounts import AMOUNT, COSTING, HAVING, Claim, claims, is_measured
from .reading import Reading, solve, with_unit
from .words import CannotRead

__all__ = ["is_measured", "read_measured"]

_WHOLE = (
    "in all", "in all on monday and tuesday", "that day", "that weekend", "on monday and tuesday",
    "on saturday and sunday",
)  # fmt: skip


def read_measured(text: str) -> Reading:
    """The reading of a story in which every number is an amount in the same unit.

    Raises CannotRead where the story is not understood or a number is left over.
    """
    *told, ask = claims(text)
    amounts = [one for one in told if one.number is not None]
    unit = amounts[0].unit if amounts else ""
    if ask.unit and ask.unit != unit:
        raise CannotRead(f"told in {unit} and asked in {ask.unit}")
    if len(amounts) != 2:
        raise CannotRead(f"{len(amounts)} amounts are told")
    if ask.than or any(one.than for one in told):
        return with_unit(_compared(amounts, ask), unit)
    if _changes(told, ask):
        return with_unit(_changed(told, amounts, ask), unit)
    return with_unit(_parts(amounts, ask), unit)


def _same(one: tuple[str, ...], two: tuple[str, ...]) -> bool:
    """Whether two names can mean the same: a paper chain, the chain; not red and blue ribbons."""
    return (
        bool(one and two) and one[-1] == two[-1] and (set(one) <= set(two) or set(two) <= set(one))
    )


def _compared(amounts: list[Claim], ask: Claim) -> Reading:
    if ask.than:
        return _difference(amounts, ask)
    alone = [one for one in amounts if not one.than]
    against = [one for one in amounts if one.than and one.way]
    if len(alone) != 1 or len(against) != 1:
        raise CannotRead("not one amount and one difference")
    plain, told = alone[0], against[0]
    known, other = plain.subject, ask.subject
    pair = (told.subject, told.than)
    if _same(known, other) or not any(_same(other, one) for one in pair):
        raise CannotRead(f"asked of {other}, told of {known} and {pair}")
    if not any(_same(known, one) for one in pair):
        raise CannotRead(f"{known} is not compared")
    bigger = pair[0] if told.way == "up" else pair[1]
    word = "more" if told.way == "up" else "fewer"
    n, d = str(plain.number), str(told.number)
    if _same(other, bigger):
        name = f"compare-bigger-unknown-{word}"
        return solve(name, n, "+", d, "?") if word == "more" else solve(name, "?", "-", d, n)
    name = f"compare-smaller-unknown-{word}"
    return solve(name, "?", "+", d, n) if word == "more" else solve(name, n, "-", d, "?")


def _difference(amounts: list[Claim], ask: Claim) -> Reading:
    mine = [one for one in amounts if _same(one.subject, ask.subject)]
    theirs = [one for one in amounts if _same(one.subject, ask.than)]
    if len(mine) != 1 or len(theirs) != 1 or mine == theirs or not ask.way:
        raise CannotRead("it is not told of each once")
    one, two = mine[0].number or 0, theirs[0].number or 0
    if (one > two) != (ask.way == "up"):
        raise CannotRead(f"{one} against {two} is not {ask.way}")
    word = "more" if ask.way == "up" else "fewer"
    low, high = sorted((one, two))
    return solve(f"compare-difference-unknown-{word}", str(low), "+", "?", str(high))


def _changes(told: list[Claim], ask: Claim) -> bool:
    """Whether something is done to a quantity that is told or asked of as a state."""
    acts = [one for one in (*told, ask) if not one.state and one.way]
    states = [one for one in (*told, ask) if one.state and one.verb not in COSTING]
    return bool(acts and states)


def _changed(told: list[Claim], amounts: list[Claim], ask: Claim) -> Reading:
    acts = [at for at, one in enumerate(told) if not one.state and one.way]
    if len(acts) != 1:
        raise CannotRead(f"{len(acts)} changes are told")
    act = told[acts[0]]
    sign, name = ("+", "join") if act.way == "up" else ("-", "separate")
    states = [one for one in amounts if one.state]
    after = [one for one in states if one in told[acts[0] :] or "now" in one.when]
    before = [one for one in states if one not in after]
    if len(after) > 1 or len(before) > 1:
        raise CannotRead("two amounts are told of the same time")
    if not all(_told_of(act, one) for one in (*states, *([ask] if ask.state else []))):
        raise CannotRead("what changes is not what is told of")
    looks_back = not {"at first", "before that"}.isdisjoint(ask.when)
    start = str(before[0].number) if before else "?"
    end = str(after[0].number) if after else "?"
    change = str(act.number) if act.number is not None else "?"
    if [start, change, end].count("?") != 1:
        raise CannotRead(f"{start}, {change}, {end}: not one number is missing")
    if change == "?":
        if ask.state or ask.verb != act.verb or ask.way != act.way:
            raise CannotRead("the question does not ask for the change")
        return solve(f"{name}-change-unknown", start, sign, "?", end)
    if not ask.state:
        raise CannotRead("the question asks for an amount that is told")
    if start == "?":
        if not looks_back:
            raise CannotRead("the question does not ask for what was there at first")
        return solve(f"{name}-start-unknown", "?", sign, change, end)
    if looks_back:
        raise CannotRead("asked for what was there at first, which is told")
    return solve(f"{name}-result-unknown", start, sign, change, "?")


def _told_of(act: Claim, state: Claim) -> bool:
    """Whether an act can change the quantity of a state: whose it is, or what it is done to."""
    if state.verb in HAVING:
        return _same(act.subject, state.subject)
    if _same(act.subject, state.subject) or state.subject[-1] in act.text.split():
        return True
    found = AMOUNT.search(act.text)
    return found is not None and not act.text[found.end() :].strip()


def _parts(amounts: list[Claim], ask: Claim) -> Reading:
    wholes = [one for one in amounts if _is_whole(one, amounts)]
    if _is_whole(ask, amounts):
        if wholes or _label(amounts[0]) == _label(amounts[1]):
            raise CannotRead("the whole is told, or the parts are the same")
        first, second = amounts
        return solve("whole-unknown", str(first.number), "+", str(second.number), "?")
    if len(wholes) != 1:
        raise CannotRead(f"{len(wholes)} wholes are told")
    (part,) = [one for one in amounts if one is not wholes[0]]
    if _label(part) == _label(ask):
        raise CannotRead("asked for the part that is told")
    return solve("part-unknown", str(part.number), "+", "?", str(wholes[0].number))


def _label(claim: Claim) -> tuple[str, ...]:
    """What makes a part that part: its time, or what it is called."""
    return claim.when or claim.subject


def _is_whole(claim: Claim, amounts: list[Claim]) -> bool:
    if any(when in _WHOLE for when in claim.when) or "whole" in claim.subject:
        return True
    if claim.verb == "pay" and " and " in claim.text:
        return True
    told_of_parts = any(one.subject[-1:] == ("part",) for one in amounts)
    return told_of_parts and claim.subject[-1:] != ("part",)
