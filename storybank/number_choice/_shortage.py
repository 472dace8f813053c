"""Says why too few numbers meet a wish, and which single wish, dropped, gives more."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import islice

from storybank import situations, strategies
from storybank.number_choice._supply import distinct_count, distinct_keys, supply
from storybank.number_choice._wish import OPEN, WHOLE_AT_MOST, Wish, suiting

LIMITS = (10, 20, 100, 1000)
WIDE = (OPEN, OPEN, OPEN)
ENOUGH = 2000


def explain_shortage(wish: Wish, wanted: int = 1) -> str:
    """A message for the teacher: how many pairs are left after each wish, and what to change.

    It names the largest count possible where some are left. `wanted` is the count asked for.
    """
    story = situations.get(wish.situation)
    left = distinct_count(supply(wish))
    what = _what(wish)
    if left:
        text = f"Only {_pairs(left)} of numbers for {what}, and {wanted} asked for."
        text += f" The largest count possible is {left}."
    else:
        text = f"No numbers for {what}."
    if story.both_parts:
        return " ".join((text, *_both_parts(wish, left)))
    refusal = strategies.get(wish.strategy).refusal(story) if wish.strategy else None
    if refusal:
        return f"{text} {refusal} {_suited(wish)}"
    stages = ", ".join(_stages(wish))
    advice = " ".join(_advice(wish, left))
    if not advice:
        advice = "No single wish, dropped, gives more: change two or more of them."
    return f"{text} Left after each wish: {stages}. {advice}"


def _pairs(count: int) -> str:
    return "1 pair" if count == 1 else f"{count:,} pairs"


def _what(wish: Wish) -> str:
    strategy = wish.strategy or "any strategy"
    return f"{wish.situation} with {strategy} within {wish.limit}"


def _stages(wish: Wish) -> Iterator[str]:
    plain = Wish(wish.situation, wish.strategy, wish.limit)
    pairs = sum(whole // 2 for whole in range(2, wish.limit + 1))
    yield f"{pairs:,} pairs within {wish.limit}"
    fits = wish.strategy or "some strategy"
    yield f"{_count(plain)} where {fits} fits and the answer is unlike the numbers given"
    if wish.room != plain.room:
        plain = replace(plain, room=wish.room)
        yield f"{_count(plain)} that have room in the story"
    if wish.crossing != "any":
        plain = replace(plain, crossing=wish.crossing)
        word = "regroup" if wish.crossing == "always" else "do not regroup"
        yield f"{_count(plain)} that {word}"
    if wish.diagnose:
        yield f"{_count(wish)} whose known mistakes can be told apart"


def _advice(wish: Wish, left: int) -> Iterator[str]:
    for limit in (limit for limit in LIMITS if limit > wish.limit):
        wider = replace(wish, limit=limit)
        if _more(wider, left):
            what = f"the limit of {wish.limit} (say --within {limit})"
            yield f"Without {what} there are {_count(wider)}."
            break
    single = (
        ("With any strategy (--strategy any)", replace(wish, strategy=None)),
        ("In a story with more room (another theme or scene)", replace(wish, room=WIDE)),
        ("With regrouping as it comes (--crossing any)", replace(wish, crossing="any")),
        ("Without --diagnose", replace(wish, diagnose=False)),
    )
    for words, other in single:
        if other != wish and _more(other, left):
            yield f"{words} there are {_count(other)}."
    names = ", ".join(_telling_apart(wish)) if wish.diagnose else ""
    if names:
        yield f"Mistakes can be told apart here with {names}."


def _telling_apart(wish: Wish) -> Iterator[str]:
    """The other strategies with pairs for diagnosis; numbers to 100 are enough to know."""
    limit = min(wish.limit, 100)
    for name in dict.fromkeys(name for name, _ in suiting(wish.situation, None)):
        if name != wish.strategy and _more(replace(wish, strategy=name, limit=limit), 0):
            yield name


def _suited(wish: Wish) -> str:
    named = strategies.get(wish.strategy) if wish.strategy else None
    suited = [one.id for one in situations.in_grade_order() if named and named.suit(one)]
    return f"It suits {', '.join(suited)}; or leave the choice to --strategy any."


def _both_parts(wish: Wish, left: int) -> Iterator[str]:
    reasons = []
    if wish.strategy:
        yield strategies.get(wish.strategy).refusal(situations.get(wish.situation)) or ""
        reasons.append("ask for --strategy any")
    if wish.crossing == "always":
        yield "It asks for every pair of parts, so nothing regroups."
        reasons.append("leave out --crossing always")
    if wish.diagnose:
        yield "Its answer is a list, so it has no wrong answers to tell apart."
        reasons.append("leave out --diagnose")
    bare = Wish(wish.situation, None, wish.limit)
    if not reasons and left < WHOLE_AT_MOST - 1:
        yield f"The whole goes from 2 to {WHOLE_AT_MOST}, within the limit and the room."
        if _more(bare, left):
            yield f"In a story with more room (another theme or scene) there are {_count(bare)}."
        if wish.limit < WHOLE_AT_MOST:
            yield f"Raise the limit of {wish.limit}, or ask for another situation."
    elif not reasons:
        yield f"The whole goes from 2 to {WHOLE_AT_MOST} at most: ask for another situation too."
    else:
        yield f"To use it, {' and '.join(reasons)}, or ask for another situation."


def _more(wish: Wish, left: int) -> bool:
    return any(True for _ in islice(distinct_keys(supply(wish)), left, None))


def _count(wish: Wish) -> str:
    """How many pairs, in words; beyond 100 no more are counted than a message can use."""
    if wish.limit <= 100:
        return f"{distinct_count(supply(wish)):,}"
    count = sum(1 for _ in islice(distinct_keys(supply(wish)), ENOUGH))
    return f"{count:,}" if count < ENOUGH else f"at least {ENOUGH:,}"
