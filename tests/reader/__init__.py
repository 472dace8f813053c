"""An independent reader of addition and subtraction stories; of two steps: two_steps.py.

It shares no code and no word list with the generator it judges. A story is cut into clauses
(clauses.py), each clause into who, what, where and when (statements.py, asked.py, tails.py), each
counted thing into a fact (facts_from.py); then what happens (world.py), what belongs together
(parts.py) or what is set side by side (compare.py) decides what the question asks.
"""

import re
from contextlib import suppress

from .apart import keep_apart
from .asked import ends_unit, question
from .beside import leave_beside
from .clauses import split
from .compare import compare, goal, is_comparison
from .facts import STATES, Clause, Fact
from .facts_from import facts_of
from .measured import is_measured, read_measured
from .memory import Memory
from .parts import both, parts
from .reading import Reading, numbered, with_unit
from .statements import statement
from .words import CannotRead, Token, number, sentences
from .world import change

__all__ = ["CannotRead", "Reading", "read"]


def read(text: str, *, extra: bool = False) -> Reading:
    """What a story tells and asks: situation equation, situation, answer and unit.

    With `extra` a number of a thing that nobody asks about is left out; else it is refused.

    Raises CannotRead, with the reason, where the story is not understood.
    """
    if is_measured(text):
        with suppress(CannotRead):
            return read_measured(text)
    facts, asks, units, beside = _told(text, extra)
    reading = decide(facts, asks)
    _every_number_told(text, facts, beside)
    return with_unit(reading, units[0])


def told(text: str) -> tuple[list[Fact], list[tuple[Clause, Fact]], list[str]]:
    """What a story tells, what it asks, and the units asked for. Raises CannotRead."""
    return _told(text, extra=False)[:3]


def _told(text: str, extra: bool) -> tuple[list[Fact], list[tuple[Clause, Fact]], list[str], int]:
    """The same, and how many numbers were left out as not asked about."""
    memory = Memory()
    facts: list[Fact] = []
    asks: list[tuple[Clause, Fact]] = []
    units: list[str] = []
    pending: list[tuple[Clause, list[Token]]] = []
    for n, tokens in enumerate(sentences(text)):
        for span in split(tokens, n):
            if span.asks:
                pending.append((question(span), span.toks))
            elif pending and span.link in ("before", "after") and pending[-1][0].sentence == n:
                pending[-1][0].flags.add("§start" if span.link == "before" else "§end")
                facts.extend(facts_of(statement(span), memory))
            else:
                facts.extend(facts_of(statement(span), memory))
    for clause, tokens in pending:
        found = [f for f in facts_of(clause, memory) if f.thing.count is None]
        if not found:
            raise CannotRead("the question asks about nothing the reader can find")
        asks.append((clause, found[0]))
        units.append(_unit(tokens))
    if not asks:
        raise CannotRead("no question that asks how many")
    facts, beside = leave_beside(facts, [a for _, a in asks]) if extra else (facts, 0)
    facts, marked = keep_apart(facts, [a for _, a in asks])
    asks = [(c, a) for (c, _), a in zip(asks, marked, strict=True)]
    return facts, asks, units, beside


def decide(facts: list[Fact], asks: list[tuple[Clause, Fact]]) -> Reading:
    ask = asks[0][1]
    if any(c.modal in ("could", "can", "might", "may") for c, _ in asks):
        return both(facts, [a for _, a in asks])
    if len(asks) > 1:
        raise CannotRead("two questions")
    if "not" in ask.flags:
        raise CannotRead("asks how many do not")
    if is_comparison(facts, ask):
        return compare(facts, ask)
    if any(f.kind == "goal" for f in numbered(facts)):
        return goal(facts, ask)
    if _asks_the_rest(facts, ask):
        return parts(facts, ask)
    try:
        return change(facts, ask)
    except CannotRead as no_change:
        try:
            return parts(facts, ask)
        except CannotRead as no_parts:
            raise CannotRead(f"no change: {no_change}; no parts: {no_parts}") from no_parts


def _asks_the_rest(facts: list[Fact], ask: Fact) -> bool:
    """True where a rest is told by what it is like, and the question names it by that."""
    rests = [f for f in facts if f.thing.rest and f.count is None and f.kind in STATES]
    asked = {*ask.thing.words, *ask.traits}
    return any(set(f.traits) & asked for f in rests if f.traits)


def _every_number_told(text: str, facts: list[Fact], beside: int) -> None:
    told = len(re.findall(r"\d+", text))
    used = len([f for f in numbered(facts) if f.thing.digits])
    if told != used + beside:
        raise CannotRead(f"{told} numbers in the text, {used} of them read")


def _unit(tokens: list[Token]) -> str:
    words: list[str] = []
    start = next(n for n, t in enumerate(tokens) if t.low == "how") + 2
    for k in range(start, len(tokens)):
        if ends_unit(tokens, k, len(tokens), bool(words)):
            break
        if tokens[k].low not in ("more", "fewer", "less") and number(tokens[k].low) is None:
            words.append(tokens[k].text)
    return " ".join(words)
