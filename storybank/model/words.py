"""What a theme pack gives: things, holders, acts, kinds and scenes, with their word forms."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from storybank.model.measures import Measured

Range = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Noun:
    """A noun with both forms; `one` carries its article ("an apple")."""

    one: str
    many: str

    @property
    def bare(self) -> str:
        """The singular without its article ("apple")."""
        return self.one.split(" ", 1)[1]


@dataclass(frozen=True, slots=True)
class Thing:
    """A thing that is counted: forms, plain meaning, picture (an emoji or none), translations.

    `subjects` are those that a teacher can switch off, such as sweets.
    """

    id: str
    noun: Noun
    picture: str | None
    meaning: str
    translations: Mapping[str, str] = field(default_factory=dict)
    subjects: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Verb:
    """The four forms of a verb."""

    base: str
    s: str
    past: str
    participle: str


@dataclass(frozen=True, slots=True)
class Holder:
    """Who or what can have the things of a scene, and how many of each.

    `kind` is `person` (a named child, or, with `one`, somebody such as a baker), or `place`
    (a container or place, with `one` such as "a crate" and the preposition `prep`). `keeps` tells
    where a person has the things ("in a basket"). `alone` is what a place is called where no
    other of its kind is told of ("a tree" for "a tall tree" that stands by a short one).
    """

    id: str
    kind: str
    one: str | None
    prep: str | None
    keeps: str | None
    room: Mapping[str, Range]
    plain: str | None
    alone: str | None = None

    def later(self, plain: bool, *, beside: bool) -> str:
        """The holder as named after its first mention ("the crate")."""
        first = self.first(plain, beside=beside)
        article, _, rest = first.partition(" ")
        return f"the {rest}" if article in ("a", "an") else first

    def first(self, plain: bool, *, beside: bool) -> str:
        """The holder as named at its first mention ("a crate"), in plainer words if asked.

        `beside` says that another holder is told of too, so that both need their full names.
        """
        if plain and self.plain:
            return self.plain
        return (self.one if beside or self.alone is None else self.alone) or ""


@dataclass(frozen=True, slots=True)
class Wording:
    """How an act is said: a verb and a frame such as `{who} {verb} up {n} {things}`."""

    verb: Verb
    frame: str


@dataclass(frozen=True, slots=True)
class Act:
    """Something that happens in a scene: it gives its holder more of a thing, or less.

    `effect` is `gain` or `lose`; `holders` and `things` are the ids it can happen to, `range`
    the numbers plausible in one act, `plain` its plainer twin for the first two levels.
    """

    id: str
    effect: str
    holders: tuple[str, ...]
    things: tuple[str, ...]
    range: Range
    wording: Wording
    plain: Wording | None


@dataclass(frozen=True, slots=True)
class Side:
    """One of two kinds: said before the noun ("red"), after `are`, for one ("each ... is")."""

    before: str | None
    after: str
    each: str
    noun: Noun
    picture_of: str | None = None

    @property
    def many(self) -> str:
        """The kind as a plural noun phrase ("red apples")."""
        return f"{self.before} {self.noun.many}" if self.before else self.noun.many

    @property
    def bare(self) -> str:
        """The kind as a singular noun phrase without article ("red apple")."""
        return f"{self.before} {self.noun.bare}" if self.before else self.noun.bare


@dataclass(frozen=True, slots=True)
class Kinds:
    """Two kinds that make a whole: by `color`, `sort`, `state`, `size`, `place` or another way."""

    id: str
    way: str
    thing: str
    whole: Noun
    first: Side
    second: Side
    holders: tuple[str, ...]
    range: Range
    third: Side | None = None
    """A third kind, for stories of three parts."""

    @property
    def described(self) -> bool:
        """Whether both kinds are told by a word before the noun ("red apples")."""
        return self.first.before is not None and self.second.before is not None

    @property
    def sorted(self) -> bool:
        """Whether the kinds are two things under a covering noun (apples and pears)."""
        return self.first.picture_of is not None and self.second.picture_of is not None

    def answers(self, need: str) -> bool:
        """Whether the kinds are `described`, `sorted`, `named` (either of these) or `placed`."""
        if need == "described":
            return self.described
        if need == "sorted":
            return self.sorted
        return (self.described or self.sorted) == (need == "named")


@dataclass(frozen=True, slots=True)
class Comparison:
    """A way two are compared: two people by a verb, or two places."""

    id: str
    verb: Verb | None
    holders: tuple[str, ...]
    things: tuple[str, ...]
    range: Range


@dataclass(frozen=True, slots=True)
class Goal:
    """What somebody needs or wants a number of things for; `range` is a plausible number."""

    verb: Verb
    reason: str
    holders: tuple[str, ...]
    things: tuple[str, ...]
    range: Range


@dataclass(frozen=True, slots=True)
class Occasion:
    """What somebody is doing in the scene ("helps with the apple harvest").

    `things` are those that belong to it: it opens no story of another thing.
    """

    verb: Verb
    rest: str
    things: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Times:
    """Two times in their order, and the span that covers both."""

    first: str
    second: str
    span: str
    acts: tuple[str, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Scene:
    """A scene: the things in it, who holds them, what happens, how they differ.

    `subjects` are those that a teacher can switch off, such as birthdays.
    """

    id: str
    theme: str
    title: str
    setting: str
    occasion: Occasion | None
    things: tuple[str, ...]
    holders: Mapping[str, Holder]
    acts: tuple[Act, ...]
    kinds: tuple[Kinds, ...]
    compare: tuple[Comparison, ...]
    goal: Goal | None
    times: tuple[Times, ...]
    subjects: tuple[str, ...] = ()
    measured: Mapping[str, "Measured"] = field(default_factory=dict)

    @property
    def key(self) -> str:
        """The scene's id among the scenes of all packs."""
        return f"{self.theme}/{self.id}"


@dataclass(frozen=True, slots=True)
class Gloss:
    """The plain meaning of a word that is no counted thing, with translations."""

    word: str
    forms: tuple[str, ...]
    meaning: str
    picture: str | None
    translations: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Header:
    """The first document of a pack: what a list shows."""

    id: str
    title: str
    season: str
    months: tuple[int, ...]
    climate: str
    observance: str | None
    sources: str
    read_by: str


@dataclass(frozen=True, slots=True, eq=False)
class Theme:
    """A whole theme pack."""

    header: Header
    things: Mapping[str, Thing]
    words: tuple[Gloss, ...]
    scenes: Mapping[str, Scene]
