"""What a teacher asks for: the request, checked and with every default filled in."""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from storybank import (
    asked,
    changes,
    families,
    luck,
    people,
    situations,
    standards,
    steps,
    strategies,
    translations,
    vocabulary,
)
from storybank.asked import Pair as Pair
from storybank.errors import RequestError, unknown_value
from storybank.model import Situation
from storybank.people.tables import base_name
from storybank.request._numbered import check_numbered as check_numbered
from storybank.request._values import Request as Request
from storybank.request._values import Settled as Settled
from storybank.themes import selection
from storybank.translations import Translations
from storybank.vocabulary import Vocabulary
from storybank.vocabulary.measures import is_familiar

DEFAULT_STRATEGY = "friendly-then-compensate"
ANY = "any"
KEYWORDS = ("mixed", "none")
NO_LANGUAGE = "none"
WITHIN = (5, 1000)
COUNT = (1, 2000)


def settle(request: Request, seed: int) -> Settled:
    """The request checked and completed; `seed` is used where it names none.

    Raises RequestError, PackError or NamesError, saying what to change.
    """
    changes.check_kinds(
        {
            "fact-families": request.fact_families,
            "number-sets": bool(request.number_sets),
            "extra-number": request.extra_number,
            "missing": request.missing,
            "steps 2": request.steps == 2,
            f"addends {request.addends}": request.addends > 2,
            "units": bool(request.units),
        }
    )
    number_sets = changes.limits(request.number_sets, WITHIN, request.within)
    changes.check(
        number_sets=bool(number_sets),
        extra_number=request.extra_number,
        missing=request.missing,
        pair=bool(request.pair),
        diagnose=request.diagnose,
        side_by_side=request.levels_side_by_side,
    )
    if number_sets:
        request = replace(request, within=number_sets[0])
    step_pairs, most = steps.asked(
        (request.steps, request.addends),
        (_unique(request.situation), _unique(request.then), _unique(request.strategy)),
        request.within,
        {
            "pair": bool(request.pair),
            "crossing": request.crossing != "any",
            "diagnose": request.diagnose,
            "levels_side_by_side": request.levels_side_by_side,
        },
    )
    within = _number("within", most if request.within is None else request.within, WITHIN)
    count = _number("count", request.count, COUNT)
    named = _unique(request.strategy)
    if not named:
        open_wish: object = request.situation or request.within is not None or request.pair
        open_wish = open_wish or request.fact_families or step_pairs or request.addends != 2
        open_wish = open_wish or request.units
        named = (ANY,) if open_wish else (DEFAULT_STRATEGY,)
    if ANY in named and len(named) > 1:
        raise RequestError(
            f"The strategies {', '.join(named)} cannot be asked for together: any stands for all "
            "of them. Leave any out, or ask for it alone."
        )
    pairs = tuple(asked.pair(text) for text in request.pair)
    told = _unique(request.situation)
    for situation_id in told:
        situations.get(situation_id)
    chosen = tuple(one.id for one in situations.in_grade_order() if not told or one.id in told)
    units = asked.units(_unique(request.units))
    if units:
        chosen = asked.measurable(chosen, told)
    if pairs:
        chosen = asked.situations_for(pairs, chosen, bool(told))
    if request.fact_families:
        families.check(count, pairs)
        chosen = families.situations_for(chosen, bool(told))
    chosen, left_out = changes.situations_for(
        chosen,
        bool(told),
        number_sets=bool(number_sets),
        extra_number=request.extra_number,
        missing=request.missing,
    )
    if request.addends != 2:
        chosen = steps.OF_SUMS
    if step_pairs:
        step_pairs = steps.taught_by(step_pairs, named, bool(told or request.then))
        chosen = tuple(dict.fromkeys(one for pair in step_pairs for one in pair))
    strategies_for = _strategies_for(chosen, named, bool(told))
    if request.fact_families:
        strategies_for = families.strategies_for(strategies_for, named)
    without = selection.subjects(_unique(request.without))
    festivals = selection.festivals(_unique(request.festivals))
    packs, notes = selection.chosen(_unique(request.theme), without, festivals)
    if units:
        asked.measured(packs, without, units)
    allow, forbid = _unique(request.allow), _unique(request.forbid)
    pack = vocabulary.find(request.vocabulary)
    limits = vocabulary.switched(pack, allow, forbid)
    names, roster = _roster(request)
    seed = seed if request.seed is None else luck.checked_seed(request.seed)
    crossing = asked.crossing(request.crossing)
    return Settled(
        themes=packs,
        without=without,
        festivals=festivals,
        situations=tuple(dict.fromkeys(one for one, _ in step_pairs)) or tuple(strategies_for),
        strategies=named,
        strategies_for=strategies_for,
        within=within,
        count=count,
        vocabulary=limits,
        allow=allow,
        forbid=forbid,
        pairs=pairs,
        crossing=crossing,
        crossings=_crossings(crossing, count, seed, request.fact_families),
        diagnose=request.diagnose,
        keywords=_keywords(request.keywords),
        side_by_side=_levels(limits) if request.levels_side_by_side else (),
        home_languages=_languages(request.home_language),
        translations_from=None if request.translations is None else Path(request.translations).name,
        translations=_translations(request.translations),
        standards=None if request.standards is None else standards.read(Path(request.standards)),
        names=names,
        names_from=request.names_from and base_name(request.names_from),
        roster=roster,
        seed=seed,
        number_sets=number_sets,
        extra_number=request.extra_number,
        missing=request.missing,
        notes=(*notes, *left_out, *vocabulary.unchanged(pack, limits, allow, forbid)),
        fact_families=request.fact_families,
        step_pairs=step_pairs,
        small=bool(step_pairs) and request.within is None,
        addends=request.addends,
        units=units,
    )


def _crossings(wish: str, count: int, seed: int, by_family: bool) -> tuple[str, ...]:
    """The wish of each problem; the four stories of a family regroup together, or none does."""
    each = families.STORIES if by_family else 1
    return tuple(one for one in asked.crossings(wish, count // each, seed) for _ in range(each))


def _unique(values: Sequence[str]) -> tuple[str, ...]:
    if isinstance(values, str):
        values = (values,)
    return tuple(dict.fromkeys(values))


def _number(name: str, value: int, bounds: tuple[int, int]) -> int:
    if not bounds[0] <= value <= bounds[1]:
        raise RequestError(
            f"--{name} is {value}, which is out of range. "
            f"Choose a whole number from {bounds[0]} to {bounds[1]}."
        )
    return value


def _strategies_for(
    chosen: Sequence[str], named: tuple[str, ...], told: bool
) -> dict[str, tuple[str, ...]]:
    if named == (ANY,):
        return dict.fromkeys(chosen, ())
    wished = [strategies.get(name) for name in named]
    found: dict[str, tuple[str, ...]] = {}
    for name in chosen:
        situation = situations.get(name)
        suiting = tuple(one.id for one in wished if one.suit(situation) is not None)
        if suiting:
            found[name] = suiting
        elif told:
            raise RequestError(_refused(situation, wished))
    for one in wished:
        if not any(one.id in suiting for suiting in found.values()):
            raise RequestError(_refused(situations.get(chosen[0]), [one]))
    return found


def _refused(situation: Situation, wished: Sequence[strategies.Strategy]) -> str:
    reasons = " ".join(f"{one.id}: {one.refusal(situation)}" for one in wished)
    better = [one.id for one in strategies.by_rank() if one.suit(situation) is not None]
    instead = f"Strategies that suit it: {', '.join(better)}, or any." if better else "Ask for any."
    return f"The situation {situation.id} does not suit the strategy asked for. {reasons} {instead}"


def _levels(limits: Vocabulary) -> tuple[Vocabulary, ...]:
    if not limits.shipped:
        raise RequestError(
            f"Levels side by side are {', '.join(vocabulary.ids())} as they stand, and the "
            f"vocabulary asked for is {limits.id} with rules of its own. Leave out "
            "--levels-side-by-side, or --allow, --forbid and a vocabulary file."
        )
    return tuple(vocabulary.get(name) for name in vocabulary.ids())


def _languages(codes: Sequence[str]) -> tuple[str, ...]:
    found = _unique(codes)
    for code in found:
        if code != NO_LANGUAGE and not translations.is_language(code):
            raise RequestError(
                f'--home-language is "{code}". Write the two or three small letters of ISO 639 '
                f"(es, vi, ht, ar ...), or {NO_LANGUAGE} for no column."
            )
    return found


def _translations(path: str | Path | None) -> Translations:
    return {} if path is None else translations.read(Path(path))


def _keywords(text: str) -> str:
    if text not in KEYWORDS:
        raise RequestError(unknown_value("choice of keywords", text, KEYWORDS))
    return text


def _roster(request: Request) -> tuple[str | None, people.Roster]:
    if request.names is not None and request.names_from is not None:
        raise RequestError(
            "--names and --names-from were both given. Choose one: a class list, or a list by name."
        )
    if request.names is not None:
        named = request.names
        read = named if isinstance(named, people.Roster) else people.read_class_list(named)
        roster = people.with_capitals(read, is_familiar)
        return roster.id, roster
    if request.names_from is not None:
        return None, people.with_capitals(people.named_list(request.names_from), is_familiar)
    return None, people.own_list()
