"""What the plan asked and what the week holds, counted afresh from the finished problems."""

from collections import Counter
from collections.abc import Iterator, Sequence

from storybank import strategies
from storybank.model import Problem
from storybank.model.week import PARTS, Day, Kept
from storybank.week._choosing import fits
from storybank.week._plan import DayPlan, Plan

_WEEK = "The week"
_PARTS = {
    "review": "problems to look back",
    "model": "problems worked aloud",
    "together": "problems together",
    "alone": "problems on their own",
    "home": "problems at home",
    "exit": "exit tickets",
}


def kept(plan: Plan, days: Sequence[Day]) -> tuple[Kept, ...]:
    """A row for each wish of the plan."""
    rows = [row for wish, day in zip(plan.days, days, strict=True) for row in _day(plan, wish, day)]
    problems = [one for day in days for one in day.problems]
    triples = Counter(numbers for one in problems for numbers in _numbers(one))
    texts = Counter(text for one in problems for text in _texts(one))
    rows += [
        _row(_WEEK, "the same three numbers again", 0, sum(n - 1 for n in triples.values())),
        _row(_WEEK, "the same text again", 0, sum(n - 1 for n in texts.values())),
    ]
    if len(plan.groups) > 1:
        told = sum(
            tuple(one.vocabulary for one in problem.levels) == plan.groups
            or (wish.one_level and problem.vocabulary == plan.groups[0])
            for wish, day in zip(plan.days, days, strict=True)
            for problem in day.problems
        )
        rows.append(_row(_WEEK, f"stories told for {', '.join(plan.groups)}", len(problems), told))
    return tuple(rows)


def _day(plan: Plan, wish: DayPlan, day: Day) -> Iterator[Kept]:
    for part in PARTS:
        asked = 0 if part == "review" and not plan.earlier(wish) else wish.parts[part]
        held = len(day.parts[part].problems) if part in day.parts else 0
        if asked or held:
            yield _row(day.name, _PARTS[part], asked, held)
    new = [one for part, made in day.parts.items() if part != "review" for one in made.problems]
    limits = {
        one.code: made.request["within"] for made in day.parts.values() for one in made.problems
    }
    if wish.chooses:
        yield from _choices(day, new, limits)
    elif wish.strategy != "none":
        held = sum(1 for one in new if _calls_for(wish.strategy, one, limits[one.code]))
        yield _row(
            day.name,
            f"numbers that call for: {strategies.get(wish.strategy).title}",
            len(new),
            held,
        )
    if wish.situations:
        held = sum(1 for one in new if _first_situation(one) in wish.situations)
        yield _row(day.name, f"situations {', '.join(wish.situations)}", len(new), held)
    yield from _kinds(wish, day, new)
    most = max(limits.values())
    largest = max(max(numbers) for one in day.problems for numbers in _numbers(one))
    yield Kept(day.name, "largest number", f"up to {most}", str(largest), largest <= most)
    if wish.warm_up:
        asked_by = ", ".join(map(str, wish.warm_up))
        held_by = ", ".join(str(one) for one in dict.fromkeys(one.by for one in day.counts))
        met = set(wish.warm_up) == {one.by for one in day.counts}
        yield Kept(day.name, "warm-up, counting by", asked_by, held_by, met)
    if "review" in day.parts:
        yield _review(plan, wish, day)


def _review(plan: Plan, wish: DayPlan, day: Day) -> Kept:
    """Whether all that is looked back at was taught on an earlier day, or in an earlier week."""
    earlier = plan.earlier(wish)
    told: list[str] = []
    too_soon: list[str] = []
    for name in sorted({one.strategy or "" for one in day.parts["review"].problems}):
        title = strategies.get(name).title if name else "no strategy"
        (told if name in earlier else too_soon).append(title)
    given = "; ".join(told)
    if too_soon:
        lack = f"not taught before {day.name}: {', '.join(too_soon)}"
        given = f"{given}; {lack}" if given else lack
    return Kept(day.name, "review of earlier strategies", "earlier ones", given, not too_soon)


def _choices(day: Day, new: Sequence[Problem], limits: dict[str, int]) -> Iterator[Kept]:
    """The row for the problems to choose a way for; what is reviewed is not among them."""
    by_code = {one.code: one for one in day.problems}
    right = sum(
        fits(one.way.id, by_code[one.code], limits[one.code])
        and not (one.beside and fits(one.way.id, by_code[one.beside], limits[one.beside]))
        for one in day.choices
    )
    yield _row(
        day.name, "numbers that call for one way and not for the one beside", len(new), right
    )


def _kinds(wish: DayPlan, day: Day, new: Sequence[Problem]) -> Iterator[Kept]:
    """The wishes for a kind of story of its own."""
    held = {
        "steps": ("problems of two steps", [len(one.steps) == 2 for one in new]),
        "addends": (
            "sums of so many addends",
            [len(one.numbers) - 1 == wish.request.get("addends") for one in new],
        ),
        "units": ("stories with a unit", [one.story.unit is not None for one in new]),
        "number_sets": (
            "stories with these number sets",
            [len(one.number_sets) == len(wish.request.get("number_sets", ())) for one in new],
        ),
        "extra_number": ("stories with an extra number", [bool(one.extra) for one in new]),
        "missing": ("stories with a number left out", [one.missing is not None for one in new]),
    }
    for key, (said, found) in held.items():
        if wish.has_kind(key):
            yield _row(day.name, said, len(new), sum(found))


def _calls_for(strategy: str, problem: Problem, limit: int) -> bool:
    """Whether the numbers call for a strategy, of two steps those of each."""
    return all(fits(strategy, one, limit) for one in problem.steps or (problem,))


def _first_situation(problem: Problem) -> str:
    return problem.steps[0].situation if problem.steps else problem.situation


def _numbers(problem: Problem) -> list[tuple[int, ...]]:
    """The numbers of a problem in order of size: step by step, or of each of its number sets."""
    if problem.steps:
        return [tuple(number for one in problem.steps for number in sorted(one.numbers.values()))]
    sets = [one.numbers for one in problem.number_sets] or [problem.numbers]
    return [tuple(sorted(one.values())) for one in sets]


def _texts(problem: Problem) -> set[str]:
    """The texts of a problem, each once: two levels may tell it alike."""
    return {one.text for one in (problem.levels or (problem,))}


def _row(day: str, wish: str, asked: int, given: int) -> Kept:
    return Kept(day, wish, str(asked), str(given), asked == given)
