"""The request of a teacher, and the same checked and with every default filled in."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from storybank import people, standards, themes
from storybank.asked import Pair
from storybank.model.words import Theme
from storybank.themes import selection
from storybank.translations import Translations
from storybank.vocabulary import Vocabulary


@dataclass(frozen=True, slots=True)
class Request:
    """A wish for a set of problems; what is left out is filled in by `settle`.

    `theme`, `situation` and `strategy` are ids (`strategy` also `any`), `within` the largest
    number, `pair` texts such as "46 + 38", `crossing` always, never, any or a percentage of
    problems that regroup, `names` a class list (its file, or what
    `people.read_class_list` gives), `names_from` a list of names by name, `seed`
    any whole number; the same seed gives the same set. `keywords` is `none` for stories that use
    none of more, left, in all ... outside comparisons, or `mixed`; with `levels_side_by_side`
    each story is told at all four levels of English. `home_language` are the languages whose words
    the word bank prints, `translations` a file of a teacher's own. `standards` is a file with a
    state's own codes, which then stand in place of those of the Common Core.

    `number_sets` are 2 to 4 limits, such as 10, 20, 100: each story is told with a set of numbers
    to each. With `extra_number` it has a number that is not needed; with `missing` one that is
    needed is left out.

    `units` are kinds of measured quantity to tell of: lengths, money, minutes, points, or `any`.

    `vocabulary` is the id of a pack or the name of a file with one's own; `allow` and `forbid`
    name rules of it that are to be as loose as at level 4, or as plain as at level 1. `without`
    names subjects that no story is to tell of, `festivals` observances whose packs may be used
    though `theme` does not name them. With `fact_families` every four stories share three
    numbers, a scene and its people; `count` counts stories and is a multiple of four.

    With `steps` 2 the situations are those of the first step, and `then` those of the second;
    within 20 and with single-digit parts unless `within` is given. With `addends` 3 or 4 a whole
    of so many parts is asked for.
    """

    theme: Sequence[str] = ()
    without: Sequence[str] = ()
    festivals: Sequence[str] = ()
    strategy: Sequence[str] = ()
    situation: Sequence[str] = ()
    within: int | None = None
    count: int = 12
    vocabulary: str = "level-4"
    allow: Sequence[str] = ()
    forbid: Sequence[str] = ()
    pair: Sequence[str] = ()
    crossing: str = "any"
    diagnose: bool = False
    keywords: str = "mixed"
    levels_side_by_side: bool = False
    number_sets: Sequence[int] = ()
    extra_number: bool = False
    missing: bool = False
    home_language: Sequence[str] = ()
    translations: str | Path | None = None
    standards: str | Path | None = None
    names: str | Path | people.Roster | None = None
    names_from: str | None = None
    seed: int | None = None
    fact_families: bool = False
    steps: int = 1
    then: Sequence[str] = ()
    addends: int = 2
    units: Sequence[str] = ()


@dataclass(frozen=True, slots=True, eq=False, repr=False)
class Settled:
    """A request that can be tried: ids are valid, defaults filled in, names read.

    `strategies_for` gives for each situation the strategies to practise there; an empty tuple
    stands for any. `crossings` says of each problem whether it regroups: always, never or any.
    `step_pairs` are the situations of both steps of problems of two steps, `small` whether their
    parts are single digits.
    """

    themes: tuple[str, ...]
    without: tuple[str, ...]
    festivals: tuple[str, ...]
    situations: tuple[str, ...]
    strategies: tuple[str, ...]
    strategies_for: dict[str, tuple[str, ...]]
    within: int
    count: int
    vocabulary: Vocabulary
    allow: tuple[str, ...]
    forbid: tuple[str, ...]
    pairs: tuple[Pair, ...]
    crossing: str
    crossings: tuple[str, ...]
    diagnose: bool
    keywords: str
    side_by_side: tuple[Vocabulary, ...]
    home_languages: tuple[str, ...]
    translations_from: str | None
    translations: Translations
    standards: "standards.Mapping | None"
    names: str | None
    names_from: str | None
    roster: people.Roster
    seed: int
    number_sets: tuple[int, ...] = ()
    extra_number: bool = False
    missing: bool = False
    notes: tuple[str, ...] = ()
    fact_families: bool = False
    step_pairs: tuple[tuple[str, str], ...] = ()
    small: bool = False
    addends: int = 2
    units: tuple[str, ...] = ()

    def theme(self, theme_id: str) -> Theme:
        """The pack of that id without the subjects that are switched off."""
        return selection.without(themes.get(theme_id), frozenset(self.without))

    def scene_keys(self) -> tuple[str, ...]:
        """The keys of all scenes that may be told, pack by pack."""
        return tuple(
            f"{name}/{scene}"
            for name in self.themes
            for scene in (self.theme(name).scenes if self.without else themes.scene_ids(name))
        )

    def to_json(self) -> dict[str, Any]:
        """The request with the keys of the set format; some stand there only where asked for."""
        return {**self._plain_to_json(), **self._steps_to_json()}

    def _steps_to_json(self) -> dict[str, Any]:
        if self.addends > 2:
            return {"addends": self.addends}
        if not self.step_pairs:
            return {}
        return {"steps": 2, "then": list(dict.fromkeys(then for _, then in self.step_pairs))}

    def _plain_to_json(self) -> dict[str, Any]:
        return {
            "theme": list(self.themes),
            "without": list(self.without),
            "festivals": list(self.festivals),
            "strategy": list(self.strategies),
            "situation": list(self.situations),
            "within": self.within,
            "count": self.count,
            "vocabulary": self.vocabulary.id,
            "allow": list(self.allow),
            "forbid": list(self.forbid),
            "pair": [str(pair) for pair in self.pairs],
            "crossing": self.crossing,
            "diagnose": self.diagnose,
            "keywords": self.keywords,
            "levels_side_by_side": bool(self.side_by_side),
            "number_sets": sorted(self.number_sets),
            "extra_number": self.extra_number,
            "missing": self.missing,
            "home_language": list(self.home_languages),
            "translations": self.translations_from,
            "standards": self.standards and self.standards.name,
            "names": self.names,
            "names_from": self.names_from,
            "seed": self.seed,
            **({"fact_families": True} if self.fact_families else {}),
            **({"units": list(self.units)} if self.units else {}),
        }
