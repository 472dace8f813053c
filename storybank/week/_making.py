"""Makes a week of its plan: one cast, one theme, no numbers twice, earlier strategies again."""

import secrets
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import islice
from typing import Any

from storybank import counting, luck, situations, themes, vocabulary
from storybank.coverage import coverage
from storybank.errors import NoNumbersError, RequestError, StorybankError
from storybank.model import Problem, ProblemSet
from storybank.model.counting import Count
from storybank.model.week import PARTS, Chosen, Day, Week
from storybank.problem_set import Series
from storybank.request import Request
from storybank.version import VERSION
from storybank.week._choosing import choosing
from storybank.week._fields import without_kinds
from storybank.week._kept import kept
from storybank.week._plan import CHOOSE, NO_STRATEGY, NO_WAY, DayPlan, Plan
from storybank.week._words import goal_of, way_of, words_of_the_day

Report = Callable[[str], None]
_WARM_UPS_A_DAY = 2
_SMALL = 20
_COUNTED_IN_GRADE_1, _COUNTED = 120, 1000
"""How far children count: CCSS-M 1.NBT.1 and 2.NBT.2."""
_SEED_BITS = 62


def make_week(plan: Plan, report: Report | None = None) -> Week:
    """The week that `plan` asks for: the same plan with the same seed gives the same week.

    A part that is renewed (`again`) is made after all others, so that they stay as they are.
    `report` is called with the name of each day before it is made. Raises RequestError with day
    and wish where the plan cannot be met, and PackError or NamesError as `make_set` does.
    """
    if plan.seed is None:
        plan = replace(plan, seed=secrets.randbelow(1_000_000))
    making = _Making(plan)
    for day in plan.days:
        if report is not None:
            report(day.title)
        making.day(day)
    for day in plan.days:
        making.renew(day)
    return making.week()


class _Making:
    """The making of one week, day after day."""

    def __init__(self, plan: Plan) -> None:
        assert plan.seed is not None
        self.plan = plan
        several = len(plan.groups) > 1
        self.series = Series(
            levels=plan.groups if several else (), cast=plan.people, seed=plan.seed
        )
        self.made: dict[str, dict[str, ProblemSet]] = {}
        self.choices: dict[tuple[str, str], tuple[Chosen, ...]] = {}

    def day(self, day: DayPlan) -> None:
        """Makes the parts of a day: today's problems as one set, then what is reviewed."""
        wanted = {part: day.parts[part] for part in PARTS if part != "review"}
        with _Named(day, f"{_amounts(wanted)} ({_strategy(day)})"):
            parts = self.parts(day, wanted, "first")
        review = day.parts["review"]
        earlier = self.plan.earlier(day)
        if review and earlier:
            with _Named(day, f"review {review} ({', '.join(earlier)})"):
                parts["review"] = self.reviewed(day, review, earlier, "first")
        self.made[day.name] = {part: parts[part] for part in PARTS if part in parts}

    def renew(self, day: DayPlan) -> None:
        """Makes the parts again that are to be renewed, once for each time."""
        parts = self.made[day.name]
        for time in range(1, max(day.again.values(), default=0) + 1):
            for part in [one for one in parts if day.again.get(one, 0) >= time]:
                count = len(parts[part].problems)
                with _Named(day, f"{part} {count}, renewed ({_strategy(day)})"):
                    if part == "review":
                        found = self.reviewed(day, count, self.plan.earlier(day), f"again/{time}")
                    else:
                        found = self.parts(day, {part: count}, f"again/{time}/{part}")[part]
                parts[part] = found

    def parts(self, day: DayPlan, wanted: Mapping[str, int], key: str) -> dict[str, ProblemSet]:
        """Today's problems, dealt out to the parts in order; a part of none is left out."""
        count = sum(wanted.values())
        if not count:
            return {}
        request = replace(self.request(day, key), situation=day.situations)
        if day.chooses:
            return self.chosen(day, wanted, request)
        named = CHOOSE if day.strategy == NO_STRATEGY else day.strategy
        # Sums of several addends know no strategy to ask for.
        strategy = () if day.has_kind("addends") else (named,)
        made = self.series.make(
            replace(request, strategy=strategy, count=count), side_by_side=not day.one_level
        )
        return _dealt_out(made, wanted)

    def chosen(
        self, day: DayPlan, wanted: Mapping[str, int], request: Request
    ) -> dict[str, ProblemSet]:
        """The parts of the day on which the child chooses, in pairs."""
        ways = self.plan.taught or self.plan.before
        found = {}
        for part, count in wanted.items():
            if count:
                seed = _seed(f"{request.seed}/{part}")
                wish = replace(request, seed=seed)
                made, chosen = choosing(self.series, wish, ways, count, plain=part == "exit")
                found[part] = made
                self.choices[day.name, part] = chosen
                turn = (count + 1) // 2 % max(1, len(ways))
                ways = (*ways[turn:], *ways[:turn])
        return found

    def reviewed(self, day: DayPlan, count: int, earlier: Sequence[str], key: str) -> ProblemSet:
        """Problems of earlier strategies, the latest of them first."""
        plain = replace(day, request=without_kinds(day.request))
        request = self.request(plain, f"review/{key}")
        sets = [
            self.series.make(
                replace(request, strategy=(name,), count=1, seed=_seed(f"{request.seed}/{at}"))
            )
            for at, name in enumerate(_in_turn(earlier, count))
        ]
        problems = tuple(one.problems[0] for one in sets)
        return replace(sets[0], problems=problems)

    def request(self, day: DayPlan, key: str) -> Request:
        """What holds for all stories of a day."""
        wishes: dict[str, Any] = {**self.plan.request, **day.request}
        if "number_sets" in day.request:
            wishes.pop("within", None)
        return Request(
            theme=self.plan.theme,
            vocabulary=self.plan.groups[0 if day.one_level else -1],
            seed=_seed(f"{self.plan.seed}/{day.name}/{key}"),
            **wishes,
        )

    def week(self) -> Week:
        """The week, once all days are made."""
        days: list[Day] = []
        for at, day in enumerate(self.plan.days):
            parts = self.made[day.name]
            numbers = _numbers(days[-1].problems if days else _problems(parts))
            with _Named(day, f"warm_up {', '.join(map(str, day.warm_up))}"):
                counts = self.warm_up(day, numbers)
            days.append(
                Day(
                    name=day.title,
                    number=at + 1,
                    way=None if day.strategy in NO_WAY else way_of(day.strategy),
                    goal=day.goal or goal_of(day, _problems(parts)),
                    words=words_of_the_day(day, parts, self.plan.taught),
                    counts=counts,
                    parts=parts,
                    pages=day.pages,
                    choices=tuple(
                        one for part in parts for one in self.choices.get((day.name, part), ())
                    ),
                )
            )
        packs = [themes.get(name).header.title for name in self.plan.theme]
        notes = [note for day in days for made in day.parts.values() for note in made.notes]
        ways = self.plan.taught + tuple(n for n in self.plan.before if n not in self.plan.taught)
        return Week(
            title=self.plan.title,
            themes=tuple(packs),
            seed=self.plan.seed or 0,
            groups=tuple(self.group_ids()),
            days=tuple(days),
            cast=tuple(one.name for one in self.series.people),
            ways=tuple(map(way_of, ways)),
            kept=kept(self.plan, days),
            coverage=coverage([one for day in days for one in day.problems]),
            plan=self.plan.to_json(),
            version=VERSION,
            notes=tuple(dict.fromkeys(notes)),
        )

    def warm_up(self, day: DayPlan, numbers: Sequence[int]) -> tuple[Count, ...]:
        """The counts of a day, which begin at numbers of yesterday's stories."""
        if not day.warm_up:
            return ()
        within = day.request.get("within", self.plan.request.get("within", 100))
        to = _COUNTED_IN_GRADE_1 if within <= _SMALL and max(day.warm_up) < 100 else _COUNTED
        count = 1 if len(day.warm_up) > 1 else _WARM_UPS_A_DAY
        return tuple(
            one
            for by in day.warm_up
            for one in counting.warm_ups(
                (by,), numbers, to, f"{self.plan.seed}/{day.name}/{by}", count
            )
        )

    def group_ids(self) -> Iterator[str]:
        for name in self.plan.groups:
            yield vocabulary.find(name).id


class _Named:
    """Names day and wish in what is raised inside."""

    def __init__(self, day: DayPlan, wish: str) -> None:
        self.day, self.wish = day, wish

    def __enter__(self) -> None:
        return None

    def __exit__(self, kind: object, error: BaseException | None, trace: object) -> None:
        if isinstance(error, RequestError):
            advice = (
                " Or ask for fewer problems that day, another theme beside this one, or a larger "
                "`within`."
                if isinstance(error, NoNumbersError)
                else ""
            )
            raise RequestError(
                f"{self.day.title} cannot be made as the plan has it: {self.wish}. {error}{advice}"
            ) from error
        if isinstance(error, StorybankError):
            raise type(error)(f"{self.day.title}: {error}") from error


def _dealt_out(made: ProblemSet, wanted: Mapping[str, int]) -> dict[str, ProblemSet]:
    """The problems of a day by part, each in the order in which they were made.

    Where the teacher works aloud stand stories that are mastered first: of two one adds and the
    other is worked in the way that most of the day's others are. The exit ticket has one of the
    next, so that it tells of the strategy and not of the story.
    """
    grades = {one.id: at for at, one in enumerate(situations.in_grade_order())}
    plain = sorted(made.problems, key=lambda one: grades[one.situation])
    ways = Counter(
        _way_to_work(one) for one in plain if _way_to_work(one) != _way_to_work(plain[0])
    )
    if ways:
        most = max(ways.values())
        unlike = next(one for one in plain if ways[_way_to_work(one)] == most)
        plain = [plain[0], unlike, *(one for one in plain[1:] if one is not unlike)]
    first, last = wanted.get("model", 0), wanted.get("exit", 0)
    taken = {"model": plain[:first], "exit": plain[first : first + last]}
    left = iter([one for one in made.problems if one not in plain[: first + last]])
    return {
        part: replace(made, problems=tuple(taken.get(part) or islice(left, count)))
        for part, count in wanted.items()
        if count
    }


def _way_to_work(problem: Problem) -> tuple[str | None, str]:
    return problem.solution.operation, problem.solution.answer_is


def _in_turn(names: Sequence[str], count: int) -> list[str]:
    return [names[at % len(names)] for at in range(count)]


def _seed(key: str) -> int:
    return luck.digest(key) >> (64 - _SEED_BITS)


def _problems(parts: Mapping[str, ProblemSet]) -> tuple[Problem, ...]:
    return tuple(one for made in parts.values() for one in made.problems)


def _numbers(problems: Sequence[Problem]) -> tuple[int, ...]:
    return tuple(number for one in problems for number in one.story.given)


def _amounts(wanted: Mapping[str, int]) -> str:
    return ", ".join(f"{part} {count}" for part, count in wanted.items() if count)


def _strategy(day: DayPlan) -> str:
    named = [f"strategy {day.strategy}"]
    if day.situations:
        named.append(f"situations {', '.join(day.situations)}")
    return ", ".join(named)
