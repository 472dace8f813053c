"""Finds the words of a pack that make a plan break a law, and says what to write instead."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from storybank import tellings
from storybank.located import At, Faults, ListAt, MappingAt
from storybank.model.words import Theme
from storybank.theme_check._instead import INSTEAD
from storybank.theme_check._plans import Fault, Judged, judged_plans

_FOLLOWING = ("answer-frame", "answer-sentence", "given", "question")
"""Faults of a whole story that mostly follow from another of it, and are then not said."""

_TOLD = (
    "one", "many", "keeps", "plain", "prep", "before", "after", "each", "frame", "rest", "reason",
    "first", "second", "span", "verb", "setting",
)  # fmt: skip
_ORDER = ("acts", "kinds", "compare", "times", "goal", "occasion", "holders", "setting", "things")
_NAMES = {
    "acts": "act",
    "kinds": "kinds",
    "compare": "comparison",
    "holders": "holder",
    "things": "thing",
}
_QUOTED = re.compile(r'"([^"]*)"')
_SLOT = re.compile(r"\{\w+\}")
_WORD = re.compile(r"[\w'\u2019-]+|\|")
_ARTICLES = ("a", "an", "the")


@dataclass(frozen=True, slots=True)
class Suspect:
    """A text of a part of the plan: the part as a message names it, and the text with its line."""

    part: str
    key: str
    text: At


def note(theme: Theme, content: Any, faults: Faults) -> None:
    """Notes each law that a plan of the pack breaks, once for each line to blame and check."""
    judged = list(judged_plans(theme))
    clean = _clean(judged) if any(one.faults for one in judged) else {}
    found: dict[int, dict[str, str]] = {}
    for one in judged:
        for fault in _leading(one.faults):
            suspect = _blamed(one, fault, content, clean)
            by_check = found.setdefault(suspect.text.line, {})
            if fault.check not in by_check:
                by_check[fault.check] = _said(one, fault, suspect)
    for line, by_check in found.items():
        for check in [one for one in by_check if one not in _FOLLOWING] or list(by_check)[:1]:
            faults.add(line, by_check[check])


def _leading(faults: Sequence[Fault]) -> Sequence[Fault]:
    return [fault for fault in faults if fault.check not in _FOLLOWING] or faults


def _said(judged: Judged, fault: Fault, suspect: Suspect) -> str:
    text = f'"{suspect.text}"' if "{" in suspect.text else suspect.text
    message = fault.message[0].upper() + fault.message[1:]
    return (
        f'{suspect.part} makes a sentence that no story may have, "{judged.sentence(fault.at)}" '
        f"({judged.level}). {message} {INSTEAD[fault.check]}; here stands `{suspect.key}: {text}`."
    )


def _clean(judged: Sequence[Judged]) -> dict[str, str]:
    """The sentences of each level without any fault, joined: what is told there is not to blame."""
    sentences: dict[str, dict[str, bool]] = {}
    for one in judged:
        by_sentence = sentences.setdefault(one.level, {})
        places = {fault.at for fault in one.faults}
        for at, sentence in enumerate((*one.story.sentences, one.story.answer_sentence)):
            good = not places & {at, -1}
            by_sentence[sentence] = good and by_sentence.get(sentence, True)
    return {
        level: _spaced(" | ".join(sentence for sentence, good in by_sentence.items() if good))
        for level, by_sentence in sentences.items()
    }


def _blamed(judged: Judged, fault: Fault, content: Any, clean: Mapping[str, str]) -> Suspect:
    """The text with most of the words that the message quotes.

    Of equals one that stands in no sentence without fault, then the one with most words in the
    sentence, then the first: acts before kinds, and these before what is told beside them.
    """
    quoted = _QUOTED.findall(fault.message.split(" as in ")[0])
    about = {word for text in quoted for word in _words(text)}
    sentence = _spaced(judged.sentence(fault.at))

    def weight(suspect: Suspect) -> tuple[int, bool, int]:
        pieces = [piece for piece in _pieces(suspect) if _spaced(piece).strip()]
        said = [piece for piece in pieces if _spaced(piece) in sentence]
        words = [word for piece in said for word in _words(piece)]
        doubtful = any(_spaced(piece) not in clean[judged.level] for piece in said)
        return len(about.intersection(words)), doubtful, len(words)

    return max(_suspects(judged, content), key=weight)


def _suspects(judged: Judged, content: Any) -> Iterator[Suspect]:
    scene_id = judged.plan.scene.partition("/")[2]
    scene = content["scenes"][scene_id]
    parts = _parts(judged)
    for under in _ORDER:
        if under == "setting":
            yield Suspect(f'the setting of "{scene_id}"', under, scene[under])
        elif under == "things":
            for name in _things(judged, scene, parts):
                what = f'the thing "{name}"'
                yield from _texts(content[under][name], what, "")
        elif under in ("goal", "occasion"):
            if under in scene:
                yield from _texts(scene[under], f'the {under} of "{scene_id}"', "")
        elif under == "times":
            for item in scene.get(under, ()):
                if (under, str(item["first"])) in parts:
                    yield from _texts(item, f'the times of "{scene_id}"', "")
        else:
            for name in (name for kind, name in parts if kind == under):
                what = f'the {_NAMES[under]} "{name}" of "{scene_id}"'
                yield from _texts(scene[under][name], what, "")


def _parts(judged: Judged) -> list[tuple[str, str]]:
    """The parts of the plan: the key they stand under and their id; of times the first."""
    situation, _, telling = judged.plan.telling.partition("/")
    needs = tellings.get(situation, telling).needs
    ids = judged.plan.detail.rpartition(":")[0].split("+")
    held = 2 if needs.get("compare") == "places" else int("holder" in needs)
    under = ["holders"] * held
    under += [key for key, need in (("acts", "act"), ("kinds", "kinds")) if need in needs]
    under += [key for key in ("compare", "times") if key in needs]
    return list(zip(under, ids, strict=True))


def _things(judged: Judged, scene: MappingAt, parts: list[tuple[str, str]]) -> list[str]:
    """The things told of: that of the plan, and those that are kinds of a whole."""
    names = [judged.plan.thing]
    for under, name in parts:
        if under == "kinds":
            sides = (scene[under][name]["first"], scene[under][name]["second"])
            names += [str(side["thing"]) for side in sides if "thing" in side]
    return list(dict.fromkeys(names))


def _texts(node: Any, part: str, key: str) -> Iterator[Suspect]:
    """The texts below a node that stand in stories."""
    if isinstance(node, MappingAt):
        for name, value in node.items():
            yield from _texts(value, part, str(name))
    elif isinstance(node, ListAt):
        for item in node:
            yield from _texts(item, part, key)
    elif isinstance(node, At) and key in _TOLD:
        yield Suspect(part, key, node)


def _pieces(suspect: Suspect) -> list[str]:
    """The pieces of a text that can stand in a sentence: between slots, or each form of a verb."""
    text = str(suspect.text)
    return text.split() if suspect.key == "verb" else _SLOT.split(text)


def _words(text: str) -> list[str]:
    return _WORD.findall(text.lower())


def _spaced(text: str) -> str:
    """The words in lower case with blanks around, without articles: those change in a story."""
    return f" {' '.join(word for word in _words(text) if word not in _ARTICLES)} "
