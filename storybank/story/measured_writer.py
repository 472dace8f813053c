"""Writes the sentences of a measured story, with gaps for people and numbers."""

import re
from dataclasses import dataclass

from storybank.model.measures import ADJECTIVES, BE, UNITS, Clause, Growth, Measured, Whole, later
from storybank.model.words import Verb
from storybank.story.gaps import Gap, Sentence, tidied
from storybank.tellings import Pattern

_SLOTS = re.compile(r"(\{\w+\})")
_BEHIND = "|".join(dict.fromkeys(word for pair in ADJECTIVES.values() for word in pair))
_AMOUNT = re.compile(rf" ?(?:for )?\{{n\}}(?P<behind> (?:{_BEHIND})\b)?(?P<of> of \{{it\}})?")
_PHRASE = re.compile(r"\b(?:a|an) ((?:(?!(?:and|at|for|from|in|of|off|on|or|to|with)\b)[\w-]+ ?)+)")
_COMPARED = ("more", "less")


@dataclass(frozen=True, slots=True)
class Told:
    """What a measured story is told of: the thing in a unit, its act, and which two are compared.

    `x` and `y` are what has the quantity ("a red ribbon"), None where it is a child.
    """

    thing: Measured
    unit: str
    x: str | None
    y: str | None = None
    act: Growth | None = None

    @property
    def detail(self) -> str:
        """The unit with what was chosen, joined."""
        chosen = (self.x if self.y else None, self.act.id if self.act else None)
        return "+".join([self.unit, *(one for one in chosen if one)])


class MeasuredWriter:
    """Writes sentence after sentence and remembers who and what has been mentioned."""

    def __init__(self, told: Told, tense: str, plain: bool) -> None:
        self.told = told
        self.plain = plain
        self.thing = told.thing
        self.noun = UNITS[told.unit].noun
        self.past = tense == "past"
        self.said = {"a": False, "b": False}
        self.named: set[str] = set()
        self.seen: set[str] = set()
        self.out: list[str | Gap] = []

    def sentence(self, pattern: Pattern) -> Sentence:
        """The sentence of a pattern."""
        self.out = []
        for slot in pattern:
            if slot.kind in ("text", "tense"):
                self.put(slot.past if self.past else slot.present)
            elif slot.kind in ("ask", "asked"):
                self.asks(slot.noun, past=self.past or slot.kind == "asked")
            elif slot.kind in ("how", "how was"):
                self.put(f"How {self.thing.adjective} ")
                self.put(f"{self.finite(BE, past=self.past or slot.kind == 'how was')} ")
                self.subject(slot.noun, pronoun=False)
            elif slot.kind == "opening":
                assert self.whole.opening is not None
                self.clause(self.whole.opening, "x", None, past=self.past)
            elif slot.kind == "some":
                self.some(slot.noun)
            else:
                self.says(slot.noun, slot.role, past=self.past or slot.kind == "was")
        merged: list[str | Gap] = []
        for piece in tidied(self.out):
            if isinstance(piece, str) and merged and isinstance(merged[-1], str):
                merged[-1] += piece
            else:
                merged.append(piece)
        if isinstance(merged[0], str) and merged[0]:
            merged[0] = merged[0][0].upper() + merged[0][1:]
        return tuple(merged)

    def put(self, text: str) -> None:
        """Fixed words; "a hat" that has been told of becomes "the hat"."""

        def named(match: re.Match[str]) -> str:
            phrase = match[1].rstrip()
            if phrase in self.seen:
                return f"the {match[1]}"
            self.seen.add(phrase)
            return match[0]

        self.out.append(_PHRASE.sub(named, text))

    @property
    def act(self) -> tuple[Clause, str]:
        assert self.told.act is not None
        return self.told.act.told(self.plain)

    @property
    def whole(self) -> Whole:
        assert self.thing.whole is not None
        return self.thing.whole

    def amount(self, role: str, *, before: str = "", behind: str = "") -> Gap:
        """The gap for an amount, with a comparing or describing word before or behind the unit."""
        first, last = (f"{before} " if before else ""), (f" {behind}" if behind else "")
        one, many = self.noun.bare, self.noun.many
        return Gap("number", role, f"{first}{one}{last}", f"{first}{many}{last}")

    def says(self, what: str, role: str, *, past: bool) -> None:
        """An amount of x, y, a part or the whole; a comparison; or an act."""
        thing = self.thing
        behind = thing.adjective or ""
        if what in _COMPARED:
            self.compares(what, role, past=past)
        elif what == "act":
            self.clause(self.act[0], "x", self.amount(role), past=past)
        elif what in ("first", "second") and self.by_times:
            when = self.whole.first if what == "first" else self.whole.second
            answers = role == "answer"
            self.put("" if answers else f"{when}, ")
            self.clause(thing.clause, "x", self.amount(role, behind=behind), past=past)
            self.put(f" {when}" if answers else "")
        elif what == "whole" and self.whole.clause is not None:
            self.clause(self.whole.clause, "x", self.amount(role), past=past)
        else:
            self.clause(thing.clause, what, self.amount(role, behind=behind), past=past)
            if what == "whole" and self.by_times:
                # "That day" points back, and where the whole is given nothing has been told yet.
                back = role != "answer" and self.span.startswith("that ")
                self.put(" in all" if back else f" {self.span}")

    def compares(self, what: str, role: str, *, past: bool) -> None:
        more, less = self.thing.compared
        word = more if what == "more" else less
        assert word is not None
        where = {"before": word.word} if word.before else {"behind": word.word}
        frame = self.thing.clause.frame
        if not word.before:
            frame = frame.replace("for {n}", "{n}")
        self.clause(
            Clause(self.thing.clause.verb, frame), "x", self.amount(role, **where), past=past
        )
        self.put(" than ")
        self.subject("y", pronoun=False)

    def some(self, what: str) -> None:
        if what == "act":
            self.clause(Clause(self.act[0].verb, self.act[1]), "x", None, past=self.past)
        else:
            assert self.thing.some is not None
            self.clause(Clause(self.thing.clause.verb, self.thing.some), "x", None, past=self.past)

    @property
    def span(self) -> str:
        """Both times together; at the plain levels it is shorter to say in all."""
        return "in all" if self.plain else self.whole.whole or "in all"

    @property
    def by_times(self) -> bool:
        """Whether the parts are times at which somebody does something."""
        whole = self.thing.whole
        return whole is not None and whole.clause is None and self.thing.one is None

    def asks(self, what: str, *, past: bool) -> None:
        """The question for an amount, without its mark."""
        clause, side = self.thing.clause, what
        behind, before, after = self.thing.adjective or "", "", ""
        if what in _COMPARED:
            more, less = self.thing.compared
            word = more if what == "more" else less
            assert word is not None
            before, behind = (word.word, "") if word.before else ("", word.word)
            side = "x"
        elif what == "act":
            clause, side, behind = self.act[0], "x", ""
        elif what in ("first", "second") and self.by_times:
            side = "x"
            after = f" {self.whole.first if what == 'first' else self.whole.second}"
        elif what == "whole" and self.whole.clause is not None:
            clause, side, behind = self.whole.clause, "x", ""
        elif what == "whole" and self.by_times:
            side, after = "x", f" {self.span}"
        match = _AMOUNT.search(clause.frame)
        assert match is not None
        behind = behind or (match["behind"] or "").strip()
        self.put(" ".join(word for word in ("How many", before, self.noun.many, behind) if word))
        if match["of"]:
            self.put(" of ")
            self.subject("x", pronoun=False)
        frame = _AMOUNT.sub("", clause.frame, count=1)
        if clause.verb == BE:
            self.put(f" {self.finite(BE, past=past)} ")
            self.subject(side, pronoun=False)
            self.put(frame.split("{verb}", 1)[1])
        else:
            self.put(" did " if past else " does ")
            self.clause(Clause(clause.verb, frame), side, None, past=past, asked=True)
        if what in _COMPARED:
            self.put(" than ")
            self.subject("y", pronoun=False)
        self.put(after)

    def finite(self, verb: Verb, *, past: bool) -> str:
        return verb.past if past else verb.s

    def clause(
        self, clause: Clause, side: str, amount: Gap | None, *, past: bool, asked: bool = False
    ) -> None:
        """A clause with its subject, and the amount where there is one."""
        for piece in _SLOTS.split(clause.frame):
            if piece == "{verb}":
                verb = clause.verb
                self.put(verb.base if asked else self.finite(verb, past=past))
            elif piece == "{n}":
                assert amount is not None
                self.out.append(amount)
            elif piece == "{who}":
                if side in ("x", "y") and self.thing.one is None and self.told.x is None:
                    self.subject(side, pronoun=not asked)
                else:
                    self.person("a", pronoun=not asked)
            elif piece == "{it}":
                self.subject(side, pronoun=False)
            elif piece == "{other}":
                self.person("b", pronoun=False)
            elif piece == "{name}":
                self.person("a", pronoun=False)
            elif piece:
                self.put(piece)

    def subject(self, side: str, *, pronoun: bool) -> None:
        """What has the quantity: x or y, a part, or the whole."""
        told = self.told
        if side == "y" and told.y is None:
            self.person("b", pronoun=False)
            return
        phrase = told.y if side == "y" else told.x
        if side in ("first", "second") and self.thing.whole is not None:
            phrase = self.whole.first if side == "first" else self.whole.second
        elif side == "whole" and self.thing.whole is not None:
            phrase = self.whole.whole or phrase
        if phrase is None:
            self.person("a", pronoun=pronoun)
        elif side in self.named:
            self.put(later(phrase, told.x if side == "y" else told.y))
        else:
            if side in ("x", "y"):
                self.named.add(side)
            self.put(phrase)

    def person(self, which: str, *, pronoun: bool) -> None:
        again = self.said["a"] and not self.said["b"]
        self.said[which] = True
        self.out.append(Gap("he" if which == "a" and pronoun and again else which))
