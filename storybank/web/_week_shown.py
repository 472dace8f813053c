"""The days of a finished week as the page shows them."""

from dataclasses import dataclass

from markupsafe import Markup

from storybank import documents
from storybank.documents import Layout
from storybank.documents.week._parts import NAMES, numbered
from storybank.drawings import NORMAL, Drawing, number_strip, to_svg
from storybank.model import Problem
from storybank.model.week import Day, Week
from storybank.web._house import blocks_as_html
from storybank.web._week_fields import WeekFields


@dataclass(frozen=True, slots=True)
class Told:
    """A story of a day: its number on the sheets, and it told for the other groups."""

    number: int | None
    problem: Problem
    others: tuple[Problem, ...]
    equation: Markup
    worked: Markup
    why: str


@dataclass(frozen=True, slots=True)
class PartCard:
    """A part of a day, and the address of the week with other stories in it."""

    name: str
    stories: tuple[Told, ...]
    again: str


@dataclass(frozen=True, slots=True)
class WarmUp:
    """A count: what to say, and its strip filled."""

    says: tuple[str, ...]
    strip: Markup


@dataclass(frozen=True, slots=True)
class DayCard:
    """A day: what it is about, its warm-ups, and its parts in the order of the lesson."""

    day: Day
    warm_ups: tuple[WarmUp, ...]
    parts: tuple[PartCard, ...]


def day_cards(week: Week, fields: WeekFields, layout: Layout) -> list[DayCard]:
    """The days of a week; `fields` are those that it was made of."""
    return [
        DayCard(
            day,
            tuple(
                WarmUp(
                    one.says,
                    _svg(number_strip.strip(one.numbers, one.gaps, filled=True, measures=NORMAL)),
                )
                for one in day.counts
            ),
            tuple(_parts(day, at, fields, layout)),
        )
        for at, day in zip(fields.days, week.days, strict=True)
    ]


def _svg(drawing: Drawing) -> Markup:
    return Markup(to_svg(drawing, standalone=False))


def _parts(day: Day, at: int, fields: WeekFields, layout: Layout) -> list[PartCard]:
    why = {one.code: f"{one.way.title}. {one.why}" for one in day.choices}
    found: dict[str, list[Told]] = {part: [] for part in day.parts}
    for part, number, problem in numbered(day):
        behind = documents.behind(problem, layout)
        found[part].append(
            Told(
                number,
                problem,
                tuple(one for one in problem.levels if one.vocabulary != problem.vocabulary),
                blocks_as_html(behind.equation),
                blocks_as_html(behind.worked),
                why.get(problem.code, ""),
            )
        )
    return [
        PartCard(NAMES[part], tuple(told), fields.once_more(at, part).query)
        for part, told in found.items()
    ]
