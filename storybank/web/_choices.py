"""What there is to choose from, in the words of the trade, as the form shows it."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from markupsafe import Markup

from storybank import people, situations, strategies, themes, vocabulary
from storybank.documents import kinds
from storybank.drawings import SMALL, to_svg, worked
from storybank.model import Form, Situation
from storybank.model.words import Header
from storybank.themes import seasons, selection
from storybank.web._house import House

UNITS = ("lengths", "money", "minutes", "points")
_FAMILIES = {
    ("join", "none"): "Join: some more come",
    ("separate", "none"): "Separate: some go away",
    ("parts", "none"): "Put together, take apart",
    ("compare", "more"): "Compare, told with “more”",
    ("compare", "fewer"): "Compare, told with “fewer”",
}


@dataclass(frozen=True, slots=True)
class ThemeChoice:
    """A theme of the form."""

    id: str
    title: str
    season: str
    observance: str | None
    own: bool = False


@dataclass(frozen=True, slots=True)
class StrategyChoice:
    """A strategy of the form, with the sentence that says when it pays and a small example."""

    id: str
    title: str
    teacher: str
    sum: str
    drawing: Markup | None
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Cell:
    """A kind of story of the grid: what is not known, the grade, and the equation as told."""

    id: str
    unknown: str
    grade: str
    equation: str


def theme_choices(
    house: House, *, observances: bool
) -> tuple[tuple[str, tuple[ThemeChoice, ...]], ...]:
    """The themes in groups: her own, this season's, the others, those of an observance."""
    heads = themes.headers()
    best = seasons.best_first(heads, house.today())
    free = [one for one in best if one.observance is None]
    rest = [one for one in heads if one.observance is None and one not in free]
    tied = sorted(
        (one for one in heads if one.observance is not None), key=lambda one: one not in best
    )
    groups = [
        ("Your own", tuple(ThemeChoice(name, name, "", None, True) for name in house.own_themes())),
        ("This season", _theme_choices(free)),
        ("Other seasons", _theme_choices(rest)),
    ]
    if observances:
        groups.append(("Holidays and observances", _theme_choices(tied)))
    return tuple((name, found) for name, found in groups if found)


def _theme_choices(heads: Sequence[Header]) -> tuple[ThemeChoice, ...]:
    return tuple(ThemeChoice(one.id, one.title, one.season, one.observance) for one in heads)


def festival_choices(*, observances: bool) -> tuple[str, ...]:
    """The observances whose themes may be used among all others; none where they are hidden."""
    tied = {one.observance for one in themes.headers() if one.observance is not None}
    return tuple(sorted(tied)) if observances else ()


@cache
def strategy_choices() -> tuple[StrategyChoice, ...]:
    """The strategies, the simplest first."""
    return tuple(map(_strategy_choice, strategies.by_rank()))


def _strategy_choice(strategy: strategies.Strategy) -> StrategyChoice:
    form, a, b = _example(strategy)
    solution = strategy.solve(form, a, b, 100)
    assert solution is not None
    drawing = worked(strategy.id, solution, measures=SMALL)
    sign = "+" if form is Form.ADD else "\N{MINUS SIGN}"
    if form is Form.ADD and solution.a is not None and solution.b is not None:
        a, b = solution.a, solution.b  # As it is solved, so that the drawing shows the sum.
    asked = f"{b} + ? = {a}" if form is Form.SOUGHT else f"{a} {sign} {b}"
    return StrategyChoice(
        id=strategy.id,
        title=strategy.title,
        teacher=strategy.teacher,
        sum=asked,
        drawing=None if drawing is None else Markup(to_svg(drawing, standalone=False)),
        lines=solution.lines if drawing is None else (),
    )


def _example(strategy: strategies.Strategy) -> tuple[Form, int, int]:
    """Numbers that call for a strategy and show it well.

    Best are those that can be drawn, in jumps of which no two are alike by chance.
    """
    forms = dict.fromkeys(form for suit in strategy.suits.values() for form in suit.forms)
    found: dict[tuple[bool, bool], tuple[Form, int, int]] = {}
    for form in forms:
        for a in (*range(34, 80), *range(12, 34), *range(6, 12)):
            for b in (*range(18, 50), *range(9, 18), 7, 6, 8, 5, 4, 3, 2, 1):
                if (form is not Form.ADD and b >= a) or (form is Form.ADD and a + b > 100):
                    continue
                if strategy.id not in strategies.fitting(form, a, b, 100):
                    continue
                solution = strategy.solve(form, a, b, 100)
                if solution is None or (strategy.thin and strategy.thin(form, a, b)):
                    continue
                sizes = [abs(jump.by) for jump in solution.jumps]
                drawn = worked(strategy.id, solution, measures=SMALL) is not None
                shows = (drawn, len(sizes) != 2 or len(set(sizes)) == 2)
                if shows == (True, True):
                    return form, a, b
                found.setdefault(shows, (form, a, b))
    return max(found.items())[1]


@cache
def situation_grid() -> tuple[tuple[str, tuple[Cell, ...]], ...]:
    """The kinds of story, row by row, in each the easier grade first."""
    rows: dict[str, list[Cell]] = {}
    for one in situations.in_grade_order():
        name = _FAMILIES.get((one.family, one.wording), one.family.capitalize())
        rows.setdefault(name, []).append(Cell(one.id, _unknown(one), one.grade, _equation(one)))
    order = [name for name in _FAMILIES.values() if name in rows]
    return tuple((name, tuple(rows[name])) for name in (*order, *(set(rows) - set(order))))


def _equation(situation: Situation) -> str:
    """The equation as told, with small numbers in it."""
    small = {"A": "8", "B": "5", "C": "13", "-": "\N{MINUS SIGN}"}
    return "".join(small.get(one, one) for one in situation.situation_equation)


def _unknown(situation: Situation) -> str:
    told = situation.title.partition(":")[2].partition(",")[0].strip()
    return told or situation.title


@cache
def rule_choices() -> tuple[tuple[str, str], ...]:
    """The rules of a level that can be switched, with what they say."""
    return tuple((one.id, one.title) for one in vocabulary.RULES)


@cache
def level_choices() -> tuple[tuple[str, str], ...]:
    """The levels of English, with what each is for."""
    titles = ((name, vocabulary.get(name).title) for name in vocabulary.ids())
    return tuple((name, title.partition(": ")[2] or title) for name, title in titles)


def own_level(house: House) -> str:
    """The level of English of her own that her settings name, or nothing."""
    named = house.usual_request.get("vocabulary")
    return Path(named).stem if named and named not in vocabulary.ids() else ""


@cache
def page_choices() -> tuple[tuple[str, str], ...]:
    """The kinds of page."""
    return tuple((name, one.TITLE) for name, one in kinds.kinds().items())


@cache
def name_choices() -> tuple[tuple[str, str], ...]:
    """Our lists of names."""
    return tuple((name, people.named_list(name).title) for name in people.rosters())


def subject_choices() -> tuple[str, ...]:
    """The subjects that can be left out."""
    return selection.SUBJECTS
