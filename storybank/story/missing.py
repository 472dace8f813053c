"""A story with one needed number left out: "some apples", and the question that asks for it.

The question is that of another situation of the same family, told of the same events, in which the
number left out is the one asked for.
"""

import re
from dataclasses import replace
from functools import lru_cache

from storybank import situations
from storybank.model import Situation
from storybank.model.words import Range, Scene, Theme
from storybank.story.gaps import Gap, Sentence
from storybank.story.plans import LeftOut, Plan, drafts_for
from storybank.story.skeleton import as_text, within_limits
from storybank.story.word_bank import bases_of
from storybank.vocabulary import Vocabulary

_LEAST = 2  # Some are never one.
_SMALLER_FIRST = "compare-bigger-unknown-fewer"
"""Here the first person told of has fewer; in all other comparisons she has more."""
_NO_SOME = re.compile(r"\bsome \w+(?: \w+)* in all\b")
_DAYS = ("On ", "Today, ")


@lru_cache(maxsize=1 << 12)
def with_missing(
    plan: Plan, theme: Theme, scene: Scene, situation_id: str, pack: Vocabulary
) -> tuple[Plan, ...]:
    """The plan with each of its two given numbers left out in turn, where that can be asked for."""
    situation = situations.get(situation_id)
    found: list[Plan] = []
    if _days(plan):
        return ()
    for role in situation.roles:
        if role == situation.unknown:
            continue
        ask = _question(plan, theme, scene, situation, role, pack)
        sentences = tuple(_without(sentence, role) for sentence in plan.skeleton.sentences)
        if ask is None or sentences == plan.skeleton.sentences:
            continue
        probe = [as_text(one, "Ada", "Ben", "7") for one in sentences]
        if _NO_SOME.search(" ".join(probe)):
            continue
        skeleton = replace(plan.skeleton, sentences=sentences)
        if within_limits(skeleton, probe, bases_of(theme), pack):
            found.append(
                replace(
                    plan,
                    detail=f"{plan.detail}/without {role}",
                    room=_plural(plan.room, situation.roles.index(role)),
                    skeleton=skeleton,
                    left_out=LeftOut(role, ask),
                )
            )
    return tuple(found)


def _plural(room: tuple[Range, Range, Range], at: int) -> tuple[Range, Range, Range]:
    rooms = list(room)
    rooms[at] = max(_LEAST, rooms[at][0]), rooms[at][1]
    return rooms[0], rooms[1], rooms[2]


def _without(sentence: Sentence, role: str) -> Sentence:
    """The sentence with some in place of the number of a role; of a difference only more, fewer."""
    told: list[str | Gap] = []
    for piece in sentence:
        text: str | Gap = piece
        if isinstance(piece, Gap) and piece.role == role:
            some = piece.kind == "number" and role != "difference"
            text = f"some {piece.many}" if some else piece.many
        if told and isinstance(text, str) and isinstance(told[-1], str):
            told[-1] += text
        else:
            told.append(text)
    return tuple(told)


def _question(
    plan: Plan, theme: Theme, scene: Scene, situation: Situation, role: str, pack: Vocabulary
) -> Sentence | None:
    """The question for a role, told of the same events by as many people; None if there is none."""
    events, _, tense = plan.detail.rpartition(":")
    for other in situations.in_grade_order():
        if other.unknown != role or other.family != situation.family:
            continue
        if role == "difference" and other.wording != situation.wording:
            continue
        two = plan.skeleton.people > 1
        turned = two and (other.id == _SMALLER_FIRST) != (situation.id == _SMALLER_FIRST)
        for drafts in drafts_for(theme, scene, plan.thing, other.id, pack).values():
            for draft in drafts:
                told = draft.plan if draft.detail == f"{events}:{tense}" else None
                if told is None or told.skeleton.people != plan.skeleton.people:
                    continue
                if not _days(told):
                    ask = told.skeleton.sentences[-1]
                    return _turned(ask) if turned else ask
    return None


def _days(plan: Plan) -> bool:
    """Whether a story tells of one person on two days."""
    return as_text(plan.skeleton.sentences[0], "Ada", "Ben", "7").startswith(_DAYS)


def _turned(sentence: Sentence) -> Sentence:
    """The sentence with the two people in each other's place."""
    other = {"a": "b", "b": "a"}
    return tuple(
        replace(piece, kind=other.get(piece.kind, piece.kind)) if isinstance(piece, Gap) else piece
        for piece in sentence
    )
