"""Writes the sentences of a story, pattern by pattern, with gaps for people and numbers."""

import re
from collections.abc import Callable

from storybank.model.words import Act, Holder, Scene, Side, Verb, Wording
from storybank.story.gaps import Gap, Sentence, pieces_of, tidied
from storybank.story.parts import Parts
from storybank.tellings import Pattern

_TOLD_AGAIN = (
    "a",
    "b",
    "holder",
    "holder2",
    "holder3",
    "act",
    "keeps",
    "first",
    "second",
    "question",
)
"""What is worded differently when it is told again."""
_COUNTED = ("{n}", "{things}")
_ARTICLE = re.compile(r"\b(?:a|an)\b")
_ARTICLE_NOUN = re.compile(r"\b(?:a|an) (\w+)")
_WHENCE = re.compile(r" (?:from|out of) \{holder\}$")
_WHOLE_WITHOUT = ("pick", "take")
"""Verbs that say enough in a question without the place that the story has told."""


class Writer:
    """Writes sentence after sentence and remembers what has been mentioned."""

    def __init__(self, parts: Parts, scene: Scene, tense: str, plain: bool) -> None:
        self.parts = parts
        self.scene = scene
        self.past = tense == "past"
        self.plain = plain
        self.said = dict.fromkeys(_TOLD_AGAIN, False)
        self.out: list[str | Gap] = []
        self.told_nouns: frozenset[str] = frozenset()
        self.act_again = False

    def sentence(self, pattern: Pattern) -> Sentence:
        self.out = []
        for slot in pattern:
            if slot.kind in ("text", "tense"):
                self.put(slot.past if self.past else slot.present)
            elif slot.kind == "number":
                self.number(slot.role, slot.more, slot.noun)
            elif slot.kind in ("be", "was"):
                self.be(slot.role, past=self.past or slot.kind == "was")
            elif slot.kind == "act":
                self.act(slot.role, slot.more)
            else:
                self.plain_slot(slot.kind)
        merged: list[str | Gap] = []
        for piece in self.out:
            if isinstance(piece, str) and merged and isinstance(merged[-1], str):
                merged[-1] += piece
            else:
                merged.append(piece)
        if merged and isinstance(merged[0], str) and merged[0]:
            merged[0] = merged[0][0].upper() + merged[0][1:]
        return tuple(merged)

    def turn_to(self, parts: Parts) -> None:
        """Goes on with the parts of a further step; its act has not been told of yet."""
        self.act_again = parts.act is not None and parts.act == self.parts.act
        if parts.act != self.parts.act and self.parts.act is not None:
            self.told_nouns = frozenset(_ARTICLE_NOUN.findall(self.wording().frame))
            self.said["act"] = False
        self.parts = parts

    def put(self, text: str) -> None:
        self.out.append(text)

    def plain_slot(self, kind: str) -> None:
        assert self.parts.kinds or not kind.startswith(("first", "second"))
        if kind == "who":
            self.who(subject=True)
        elif kind == "things":
            self.put(self.parts.noun.many)
        elif kind == "name":
            self.who(subject=False)
        elif kind == "other":
            self.said["b"] = True
            self.out.append(Gap("b"))
        elif kind == "holder":
            self.put(self.holder_phrase("holder"))
        elif kind in ("in", "in2", "in3"):
            which = {"in": "holder", "in2": "holder2", "in3": "holder3"}[kind]
            holder = self.place(which)
            self.put(f"{holder.prep} {self.holder_phrase(which)}")
        elif kind in ("ask act", "did act"):
            self.past = self.past or kind == "did act"
            self.ask_act()
        elif kind == "keeps":
            self.keeps()
        elif kind == "occasion both":
            self.occasion()
        else:
            self.put(self.words_for(kind))

    def words_for(self, kind: str) -> str:
        """The words of any other slot."""
        parts, scene = self.parts, self.scene
        words: dict[str, Callable[[], str]] = {
            "thing": lambda: parts.noun.bare,
            "first": lambda: self.side("first").many,
            "second": lambda: self.side("second").many,
            "first after": lambda: self.placed("first", self.side("first").after),
            "second after": lambda: self.placed("second", self.side("second").after),
            "first each": lambda: self.placed("first", self.side("first").each),
            "second each": lambda: self.placed("second", self.side("second").each),
            "reason": lambda: scene.goal.reason if scene.goal else "",
            "goal base": lambda: scene.goal.verb.base if scene.goal else "",
            "goal": lambda: self.finite(scene.goal.verb) if scene.goal else "",
            "compare": lambda: self.finite(self.comparing()),
            "compare base": lambda: self.comparing().base,
            "setting": lambda: scene.setting,
            "time1": lambda: parts.times.first if parts.times else "",
            "time2": lambda: parts.times.second if parts.times else "",
            "span": lambda: parts.times.span if parts.times else "",
            "so": lambda: "So " if self.wording().frame.startswith("{n}") else "",
        }
        return words[kind]()

    def place(self, which: str) -> Holder:
        parts = self.parts
        held = {"holder": parts.holder, "holder2": parts.holder2, "holder3": parts.holder3}[which]
        assert held is not None
        return held

    def side(self, which: str) -> Side:
        kinds = self.parts.kinds
        assert kinds is not None
        side = {"first": kinds.first, "second": kinds.second, "third": kinds.third}[which]
        assert side is not None
        return side

    def placed(self, which: str, text: str) -> str:
        """What a side is like; a place told again is "on the shelf", not "on a shelf"."""
        assert self.parts.kinds is not None
        again, self.said[which] = self.said[which], True
        if not again or self.parts.kinds.way != "place" or " the " in text:
            return text
        preposition, _, place = text.partition(" ")
        return f"{preposition} the {_ARTICLE.sub('', place).lstrip()}"

    def comparing(self) -> Verb:
        assert self.parts.compare is not None and self.parts.compare.verb is not None
        return self.parts.compare.verb

    def finite(self, verb: Verb) -> str:
        return verb.past if self.past else verb.s

    def somebody(self) -> bool:
        """Whether the holder is somebody such as a baker, told by a phrase and not by name."""
        holder = self.parts.holder
        return holder is not None and holder.kind == "person" and holder.one is not None

    def who(self, *, subject: bool) -> None:
        if self.somebody():
            self.put(self.holder_phrase("holder"))
            return
        again = self.said["a"] and not self.said["b"]
        self.said["a"] = True
        self.out.append(Gap("he" if subject and again else "a"))

    def holder_phrase(self, which: str) -> str:
        holder = self.place(which)
        name = holder.later if self.said[which] else holder.first
        self.said[which] = True
        return name(self.plain, beside=self.parts.holder2 is not None)

    def noun(self, which: str) -> tuple[str, str]:
        if which == "things":
            return self.parts.noun.bare, self.parts.noun.many
        return self.side(which).bare, self.side(which).many

    def number(self, role: str, more: str, which: str) -> None:
        one, many = self.noun(which)
        if more == "of":
            one, more = many, "of the"
        extra = f"{more} " if more else ""
        self.out.append(Gap("number", role, f"{extra}{one}", f"{extra}{many}"))

    def be(self, role: str, *, past: bool) -> None:
        one, many = ("was", "were") if past else ("is", "are")
        self.out.append(Gap("agree", role, one, many))

    def wording(self) -> Wording:
        act = self.parts.act
        assert isinstance(act, Act)
        return act.plain if self.plain and act.plain else act.wording

    def act(self, role: str, more: str) -> None:
        wording = self.wording()
        by_things = wording.frame.startswith("{n}")
        for piece in pieces_of(self.frame(wording)):
            if piece == "{n}":
                continue
            if piece == "{things}":
                self.quantity(role, "more" if self.act_again else more)
            elif piece == "{verb}" and by_things and not self.past and role != "some":
                self.out.append(Gap("agree", role, wording.verb.s, wording.verb.base))
            elif piece == "{verb}" and by_things and not self.past:
                self.put(wording.verb.base)
            elif piece == "{verb}":
                self.put(self.finite(wording.verb))
            else:
                self.frame_slot(piece)
        self.said["act"] = True

    def frame(self, wording: Wording) -> str:
        """The frame of the act; from the question on without a place that needs no saying again."""
        again = self.said["question"] and not self.plain
        if again and wording.verb.base in _WHOLE_WITHOUT:
            return _WHENCE.sub("", wording.frame)
        return wording.frame

    def quantity(self, role: str, more: str) -> None:
        if role == "some":
            self.put(" ".join(word for word in ("some", more, self.parts.noun.many) if word))
        else:
            self.number(role, more, "things")

    def fixed(self, text: str) -> str:
        """The fixed words of a frame; told again, "for a cake" becomes "for the cake".

        So does a noun that the act of an earlier step has told.
        """
        if self.said["act"]:
            return _ARTICLE.sub("the", text)
        told = self.told_nouns
        return _ARTICLE_NOUN.sub(lambda m: f"the {m[1]}" if m[1] in told else m[0], text)

    def frame_slot(self, piece: str) -> None:
        if piece == "{who}":
            self.who(subject=True)
        elif piece == "{name}":
            self.who(subject=False)
        elif piece == "{other}":
            self.plain_slot("other")
        elif piece == "{holder}":
            self.put(self.holder_phrase("holder"))
        else:
            self.put(self.fixed(piece))

    def ask_act(self) -> None:
        wording = self.wording()
        self.said["question"] = True
        pieces = [piece for piece in pieces_of(self.frame(wording)) if piece not in _COUNTED]
        by_things = wording.frame.startswith("{n}")
        asked: list[str] = []
        if by_things:
            asked = [
                (wording.verb.past if self.past else wording.verb.base) if p == "{verb}" else p
                for p in pieces
            ]
        else:
            asked = ["did " if self.past else "does "]
            asked += [
                wording.verb.base if p == "{verb}" else "{name}" if p == "{who}" else p
                for p in pieces
            ]
        asked[0] = asked[0].lstrip(" ")
        before = len(self.out)
        for piece in asked:
            self.frame_slot(piece)
        self.out[before:] = tidied(self.out[before:])

    def keeps(self) -> None:
        """Where a person has the things; told again, "in a bag" becomes "in the bag"."""
        holder = self.parts.holder
        assert holder is not None and holder.keeps is not None
        self.put(_ARTICLE.sub("the", holder.keeps) if self.said["keeps"] else holder.keeps)
        self.said["keeps"] = True

    def occasion(self) -> None:
        occasion = self.scene.occasion
        assert occasion is not None
        self.who(subject=True)
        self.put(" and ")
        self.plain_slot("other")
        self.put(f" {occasion.verb.past if self.past else occasion.verb.base} {occasion.rest}")
