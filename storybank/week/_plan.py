"""What a teacher wishes for a week: the plan, every default filled in."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from storybank.model.week import PARTS
from storybank.people import Roster

CHOOSE = "any"
NO_STRATEGY = "none"
NO_WAY = (CHOOSE, NO_STRATEGY)
"""What a day may have in place of a strategy."""
DAYS = (
    "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday",
    "day-1", "day-2", "day-3", "day-4", "day-5",
)  # fmt: skip
USUAL_PARTS = {"review": 1, "model": 2, "together": 2, "alone": 4, "home": 2, "exit": 1}
MOST_OF_A_PART = 12
WARM_UPS = (1, 5, 10, 100)
_PLAIN = {"steps": 1, "addends": 2}
"""What is no kind of story of its own."""


@dataclass(frozen=True, slots=True)
class DayPlan:
    """The wishes for one day.

    `strategy` is an id, `none`, or `any` where the child is to choose. `parts` says how many
    problems each part has, `again` how often the problems of a part were renewed. `pages` are
    further kinds of page to be made of its problems, `request` further wishes about the stories,
    by the names of `Request`.
    """

    name: str
    strategy: str = NO_STRATEGY
    situations: tuple[str, ...] = ()
    goal: str | None = None
    warm_up: tuple[int, ...] = (10,)
    parts: Mapping[str, int] = field(default_factory=lambda: dict(USUAL_PARTS))
    again: Mapping[str, int] = field(default_factory=dict)
    pages: tuple[str, ...] = ()
    request: Mapping[str, Any] = field(default_factory=dict)

    @property
    def title(self) -> str:
        """The day as it is printed."""
        return self.name.replace("-", " ").capitalize()

    @property
    def chooses(self) -> bool:
        """Whether it is the day on which the child chooses the strategy."""
        return self.strategy == CHOOSE

    @property
    def one_level(self) -> bool:
        """Whether its stories can be told at one level only, so that all groups get the same."""
        return any(map(self.has_kind, ("steps", "addends", "extra_number", "missing")))

    def has_kind(self, key: str) -> bool:
        """Whether a kind of story of its own is wished, by its name in `Request`."""
        return self.request.get(key, _PLAIN.get(key)) not in (_PLAIN.get(key), None, False, ())

    def to_json(self) -> dict[str, Any]:
        """The wishes with the keys of a plan."""
        return {
            "strategy": self.strategy,
            "situations": list(self.situations),
            "goal": self.goal,
            "warm_up": list(self.warm_up),
            **{part: self.parts[part] for part in PARTS},
            "again": dict(self.again),
            "pages": list(self.pages),
            **self.request,
        }


@dataclass(frozen=True, slots=True)
class Plan:
    """The wishes for a week; `seed` None draws one.

    `groups` are the vocabularies, a group each; `before` are strategies of earlier weeks, which
    the first day may review. `people` is how many children the stories are about; `request`
    holds for all days.
    """

    title: str
    theme: tuple[str, ...]
    days: tuple[DayPlan, ...]
    seed: int | None = None
    groups: tuple[str, ...] = ("level-4",)
    people: int = 8
    before: tuple[str, ...] = ()
    request: Mapping[str, Any] = field(default_factory=dict)

    @property
    def taught(self) -> tuple[str, ...]:
        """The strategies that the days of the week teach, in their order."""
        named = [one.strategy for one in self.days]
        return tuple(dict.fromkeys(name for name in named if name not in NO_WAY))

    def earlier(self, day: DayPlan) -> tuple[str, ...]:
        """The strategies taught before a day, the latest first, without its own."""
        before = self.days[: self.days.index(day)]
        names = [one.strategy for one in reversed(before) if one.strategy not in NO_WAY]
        names += reversed(self.before)
        return tuple(dict.fromkeys(name for name in names if name != day.strategy))

    def to_json(self) -> dict[str, Any]:
        """The plan with its keys, of files only their names."""
        named = ("names", "names_from", "translations", "standards")
        return {
            "title": self.title,
            "theme": [_base_name(one) for one in self.theme],
            "seed": self.seed,
            "groups": [_base_name(one) for one in self.groups],
            "people": self.people,
            "before": list(self.before),
            **{
                key: _shown(value) if key in named else value for key, value in self.request.items()
            },
            "days": {day.name: day.to_json() for day in self.days},
        }


def _shown(value: Any) -> str:
    """A file's name without its folder; of a class list that was given as such its name."""
    return value.id if isinstance(value, Roster) else _base_name(str(value))


def _base_name(name: str) -> str:
    """A file's name without its folder; an id as it is."""
    return name.replace("\\", "/").rsplit("/", 1)[-1]
