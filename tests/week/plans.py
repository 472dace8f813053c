"""Plans for the tests: a good one, and bad ones each with what must be said of it."""

PARTS = ("review", "model", "together", "alone", "home", "exit")

GOOD = """\
title: Five days of tens
theme: [autumn-harvest, autumn-market]
seed: 3
groups: [level-2, level-3, level-4]
people: 6
days:
  monday:
    strategy: tens-then-ones
  tuesday:
    strategy: next-ten-first
    warm_up: [1, 10]
  wednesday:
    strategy: friendly-then-compensate
  thursday:
    strategy: count-up
    warm_up: [5]
  friday:
    strategy: any
    warm_up: [100]
"""

SHORT = """\
theme: winter-days
seed: 3
days:
  monday: {strategy: count-up}
  tuesday: {strategy: none, situations: [both-parts-unknown]}
  wednesday: {strategy: split-tens-and-ones}
"""


def changed(old: str, new: str, plan: str = GOOD) -> str:
    """A plan with one place changed, which must be there."""
    assert plan.count(old) >= 1, old
    return plan.replace(old, new, 1)


BAD = {
    "no such theme": (changed("autumn-market]", "autumn-fair]"), "line 2", "autumn-fair"),
    "no theme": (changed("theme: [autumn-harvest, autumn-market]\n", ""), "line 1", '"theme"'),
    "key misspelt": (changed("people:", "peple:"), "line 5", 'Did you mean "people"?'),
    "key of a day misspelt": (
        changed("    warm_up: [1, 10]", "    warmup: [1, 10]"), "line 11", '"warm_up"',
    ),
    "no such day": (changed("  thursday:", "  thursdy:"), "line 14", 'Did you mean "thursday"?'),
    "day twice": (changed("  tuesday:", "  monday:"), "line 9", "monday"),
    "day twice, once with a capital": (
        changed("  tuesday:", "  Monday:"), "line 9", 'is written in line 7 too, as "monday"',
    ),
    "list of names not there": (changed("people: 6", "names_from: ours"), "line 5", '"ours"'),
    "file of names not there": (
        changed("people: 6", "names_from: ours.csv"), "line 5", "no such file",
    ),
    "two days": (
        SHORT.replace("  wednesday: {strategy: split-tens-and-ones}\n", ""), "line 4", "3 to 5",
    ),
    "no such strategy": (changed("count-up", "count-upp"), "line 15", 'Did you mean "count-up"?'),
    "no such situation": (
        changed("    warm_up: [5]", "    situations: [join-result]"), "line 16", "join-result",
    ),
    "no such level": (changed("level-3", "level-5"), "line 4", "level-5"),
    "own vocabulary among groups": (changed("level-3", "mine.yaml"), "line 4", "only group"),
    "counting by sevens": (changed("warm_up: [5]", "warm_up: [7]"), "line 16", "1, 5, 10, 100"),
    "too many problems": (
        changed("    warm_up: [5]", "    alone: 40"), "line 16", "from 0 to 12",
    ),
    "a number in words": (changed("people: 6", "people: six"), "line 5", '"six" is no whole'),
    "a seed below zero": (changed("seed: 3", "seed: -3"), "line 3", "whole number"),
    "a list where one value stands": (
        changed("strategy: count-up", "strategy: [count-up, doubles]"), "line 15", "one value",
    ),
    "nothing below a day": (
        changed("  thursday:\n    strategy: count-up\n    warm_up: [5]\n", "  thursday:\n"),
        "line 14", "nothing below it",
    ),
    "no part has a problem": (
        changed("    warm_up: [5]", "\n".join(f"    {part}: 0" for part in PARTS)),
        "line 14", "no problem in any part",
    ),
    "class list not there": (changed("people: 6", "names: class.txt"), "line 5", "class.txt"),
    "two lists of names": (
        changed("people: 6", "names_from: own\nnames: plan.yaml"), "line 5", "both given",
    ),
    "within out of range": (changed("people: 6", "within: 2000"), "line 5", "5 to 1000"),
    "not a plan at all": ("- monday\n- tuesday\n", "line 1", "keys with values"),
    "an anchor": (changed("title: Five", "title: &a Five"), "line 1", "anchor"),
    "an empty list": (changed("groups: [level-2, level-3, level-4]", "groups: []"), "line 4",
                      "empty"),
}  # fmt: skip
"""What is wrong, the plan, the line named and a word of the message."""

UNMET = {
    "a strategy with too few numbers": (
        SHORT.replace("count-up}", "count-up, within: 20, alone: 12, together: 12, home: 12}"),
        "Monday", "strategy count-up",
    ),
    "a strategy that does not suit": (
        SHORT.replace("count-up}", "count-up, situations: [whole-unknown]}"),
        "Monday", "does not suit",
    ),
    "nothing to choose from": (
        "theme: winter-days\nseed: 3\ndays:\n  monday: {strategy: none}\n"
        "  tuesday: {strategy: none}\n  wednesday: {strategy: any}\n",
        "Wednesday", "no day teaches one",
    ),
    "too many pairs of parts": (
        SHORT.replace("[both-parts-unknown]}", "[both-parts-unknown], alone: 12, home: 12}"),
        "Tuesday", "largest count possible",
    ),
}  # fmt: skip
"""What cannot be met, the plan, the day named and a word of the wish."""
