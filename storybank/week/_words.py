"""What a day is about, in words: its goal for a child, its words with plain meanings."""

from collections.abc import Mapping, Sequence

from storybank import asked, situations, strategies
from storybank.model import BankWord, Problem, ProblemSet
from storybank.model.week import Way
from storybank.week._plan import DayPlan

_WORDS_AT_MOST = 6
_THINGS_AT_MOST = 2
_CHOOSE = "I can look at the numbers and choose a good way."
_KINDS = {
    "steps": "I can solve stories with two steps.",
    "addends": "I can add three numbers and look for two that go well together.",
    "extra_number": "I can find the numbers that I need in a story.",
    "missing": "I can say what else I need to know.",
}
_UNITS = {
    "lengths": "how long or how tall things are",
    "money": "money",
    "minutes": "how long things take",
    "points": "points",
}
_PAIR = {
    "addend": "a number that is added",
    "friendly pair": "two numbers that make a ten together",
}
_FAMILIES = {
    "join": "more come",
    "separate": "some go",
    "parts": "parts make a whole",
    "compare": "we compare two numbers",
}


def way_of(strategy: str) -> Way:
    """A strategy in the words of a week."""
    one = strategies.get(strategy)
    return Way(one.id, one.title, one.in_short, one.teacher, one.i_can, one.at_home)


def goal_of(day: DayPlan, problems: Sequence[Problem]) -> str:
    """The goal of a day as "I can ...": that of its strategy, or of its kind of story."""
    if day.chooses:
        return _CHOOSE
    if day.strategy != "none":
        return strategies.get(day.strategy).i_can
    for kind, goal in _KINDS.items():
        if day.has_kind(kind):
            return goal.replace("three", "four") if day.request.get("addends") == 4 else goal
    if day.has_kind("units"):
        kinds = [text for kind, text in _UNITS.items() if kind in asked.units(day.request["units"])]
        return f"I can solve stories about {_joined(kinds)}."
    told = dict.fromkeys(_FAMILIES[situations.get(one.situation).family] for one in problems)
    return f"I can solve stories in which {_joined(list(told))}."


def words_of_the_day(
    day: DayPlan, parts: Mapping[str, ProblemSet], taught: Sequence[str]
) -> tuple[BankWord, ...]:
    """The words of a day, each once: of its strategies, mathematics words, things of the stories.

    They are those of the plainest group.
    """
    named = taught if day.chooses else () if day.strategy == "none" else (day.strategy,)
    found: dict[str, BankWord] = {}
    for name in named:
        words = list(strategies.get(name).words.items())
        for word, meaning in words[:1] if day.chooses else words:
            found.setdefault(word, BankWord(word, None, meaning))
    if day.has_kind("addends"):
        found.update({word: BankWord(word, None, meaning) for word, meaning in _PAIR.items()})
    bank = [
        entry
        for made in parts.values()
        for problem in made.problems
        for entry in (problem.levels[0] if problem.levels else problem).story.word_bank
    ]
    for entry in bank:
        if entry.one is None:
            found.setdefault(entry.word, entry)
    of_stories = not day.chooses
    things = {one.word: one for one in bank if one.one is not None and of_stories}
    kept = list(found.values())[: _WORDS_AT_MOST - min(len(things), _THINGS_AT_MOST)]
    return (*kept, *list(things.values())[: _WORDS_AT_MOST - len(kept)])


def _joined(texts: Sequence[str]) -> str:
    if len(texts) < 2:
        return "".join(texts)
    return f"{', '.join(texts[:-1])} or {texts[-1]}"
