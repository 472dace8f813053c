"""Quantities with a unit: the units there are, and what a theme pack says of a measured thing."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from storybank.model.words import Noun, Range, Verb

LENGTHS, MONEY, MINUTES, POINTS = "lengths", "money", "minutes", "points"
KINDS = (LENGTHS, MONEY, MINUTES, POINTS)
"""The kinds of quantity, in the order in which they are listed."""


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: its plural is its id; plain meaning, picture and translations for the word bank."""

    kind: str
    noun: Noun
    picture: str
    meaning: str
    translations: Mapping[str, str]

    @property
    def id(self) -> str:
        """The plural, as it stands in a set ("inches")."""
        return self.noun.many


_RULER, _NOTE, _COIN, _WATCH, _STAR = (
    "\N{STRAIGHT RULER}",
    "\N{BANKNOTE WITH DOLLAR SIGN}",
    "\N{COIN}",
    "\N{STOPWATCH}",
    "\N{WHITE MEDIUM STAR}",
)
_ALL = (
    Unit(LENGTHS, Noun("an inch", "inches"), _RULER,
         "a short length, about as wide as a bottle cap", {"es": "pulgadas"}),
    Unit(LENGTHS, Noun("a foot", "feet"), _RULER,
         "a length of 12 inches, about as long as a sheet of paper", {"es": "pies"}),
    Unit(LENGTHS, Noun("a centimeter", "centimeters"), _RULER,
         "a very short length, about as wide as a finger", {"es": "cent\u00edmetros"}),
    Unit(LENGTHS, Noun("a meter", "meters"), _RULER,
         "a length of 100 centimeters, about 1 big step",
         {"es": "metros"}),
    Unit(MONEY, Noun("a dollar", "dollars"), _NOTE,
         "money, as much as 100 cents", {"es": "d\u00f3lares"}),
    Unit(MONEY, Noun("a cent", "cents"), _COIN,
         "a little money; 100 cents make 1 dollar", {"es": "centavos"}),
    Unit(MINUTES, Noun("a minute", "minutes"), _WATCH,
         "a short time; 60 minutes make 1 hour", {"es": "minutos"}),
    Unit(POINTS, Noun("a point", "points"), _STAR,
         "what you get when you do well in a game", {"es": "puntos"}),
)  # fmt: skip
UNITS: Mapping[str, Unit] = {unit.id: unit for unit in _ALL}
"""Every unit by its plural."""

ADJECTIVES: Mapping[str, tuple[str, str]] = {
    "long": ("longer", "shorter"),
    "tall": ("taller", "shorter"),
    "high": ("higher", "lower"),
    "wide": ("wider", "narrower"),
}
"""Words behind an amount, each with the words for more and less of it."""


@dataclass(frozen=True, slots=True)
class Compared:
    """A comparing word: behind the unit ("8 inches longer") or `before` it ("8 more points")."""

    word: str
    before: bool = False


OF_KIND: Mapping[str, tuple[Compared, Compared | None]] = {
    LENGTHS: (Compared("farther"), None),
    MONEY: (Compared("more"), Compared("less")),
    MINUTES: (Compared("longer"), Compared("fewer", before=True)),
    POINTS: (Compared("more", before=True), Compared("fewer", before=True)),
}
"""How amounts that somebody does, has or costs are compared; None where no plain word does."""
COMPARING_MORE = frozenset(
    [more for more, _ in ADJECTIVES.values()] + [more.word for more, _ in OF_KIND.values()]
)
COMPARING_LESS = frozenset(
    [less for _, less in ADJECTIVES.values()] + [less.word for _, less in OF_KIND.values() if less]
)


@dataclass(frozen=True, slots=True)
class Clause:
    """How an amount is said: a verb and a frame such as `{who} {verb} {n} off {it}`."""

    verb: Verb
    frame: str


@dataclass(frozen=True, slots=True)
class Growth:
    """Something that makes a quantity larger (`gain`) or smaller (`lose`).

    `some` is the frame without an amount ("cuts a piece off"), `range` the amounts plausible at
    one time, by unit; `plain_frame` and `plain_some` are the same in plainer words.
    """

    id: str
    effect: str
    clause: Clause
    some: str
    range: Mapping[str, Range]
    plain_frame: str | None = None
    plain_some: str | None = None

    def told(self, plain: bool) -> tuple[Clause, str]:
        """The clause and the frame without an amount, in plainer words if asked."""
        if not plain:
            return self.clause, self.some
        frame = self.plain_frame or self.clause.frame
        return Clause(self.clause.verb, frame), self.plain_some or self.some


@dataclass(frozen=True, slots=True)
class Whole:
    """Two parts of a quantity.

    `first` and `second` name the parts (`the red part`), or, of what somebody does, its times
    (`on Monday`). `opening` is a frame that tells of both; `whole` names the whole, or is a
    clause of its own (`{who} {verb} {n} for a hat and a kite`). `range` bounds each part by unit.
    """

    first: str
    second: str
    opening: Clause | None
    whole: str | None
    clause: Clause | None
    range: Mapping[str, Range]


@dataclass(frozen=True, slots=True)
class Measured:
    """Something of a scene that is measured, with all that can be told of it.

    `one` is what has the quantity ("a ribbon"), or None where it is a named child. `is_` is the
    word behind the amount ("long"); then the verb is to be. `some` is the frame of an amount
    that is not told ("has some money"). `pair` are two that can be compared, `rivals` says that
    two children can be. `word` is explained in the word bank by `meaning` and `picture`. `sizes`
    names the source of the ranges.
    """

    id: str
    kind: str
    one: str | None
    adjective: str | None
    clause: Clause
    units: Mapping[str, Range]
    some: str | None = None
    acts: tuple[Growth, ...] = ()
    pair: tuple[str, str] | None = None
    rivals: bool = False
    whole: Whole | None = None
    word: str | None = None
    meaning: str | None = None
    picture: str | None = None
    translations: Mapping[str, str] = field(default_factory=dict)
    subjects: tuple[str, ...] = ()
    sizes: str = "common knowledge"

    @property
    def compared(self) -> tuple[Compared, Compared | None]:
        """The words for more and for less of the quantity."""
        if self.adjective is not None:
            more, less = ADJECTIVES[self.adjective]
            return Compared(more), Compared(less)
        return OF_KIND[self.kind]

    @property
    def verbs(self) -> tuple[Verb, ...]:
        """The verbs of its clauses, to be apart."""
        clauses = [self.clause, *(act.clause for act in self.acts)]
        if self.whole is not None and self.whole.clause is not None:
            clauses.append(self.whole.clause)
        found = [clause.verb for clause in clauses if clause.verb != BE]
        if self.opening_verb is not None:
            found.append(self.opening_verb)
        return tuple(found)

    @property
    def phrases(self) -> tuple[str, ...]:
        """Everything that is told of it in words, frames with their slots."""
        found = [self.one, self.clause.frame, self.some, *(self.pair or ())]
        for act in self.acts:
            found += [act.clause.frame, act.some, act.plain_frame, act.plain_some]
        if self.whole is not None:
            whole = self.whole
            found += [whole.first, whole.second, whole.whole]
            found += [part.frame for part in (whole.opening, whole.clause) if part is not None]
        return tuple(text for text in found if text)

    @property
    def opening_verb(self) -> Verb | None:
        """The verb of what tells of both parts."""
        opening = self.whole.opening if self.whole is not None else None
        return opening.verb if opening is not None and opening.verb != BE else None


BE = Verb("be", "is", "was", "been")


def kind_of(unit: str | None) -> str | None:
    """The kind of quantity that a unit measures; None for none."""
    return UNITS[unit].kind if unit is not None and unit in UNITS else None


def later(phrase: str, beside: str | None = None) -> str:
    """A thing once it has been told of: a paper chain is then the chain.

    Where one of the same name is told of `beside` it, it keeps its full name.
    """
    words = phrase.split()
    same = beside is not None and beside.split()[-1] == words[-1]
    return (
        f"the {words[-1]}" if words[0] in ("a", "an") and len(words) == 3 and not same else phrase
    )
