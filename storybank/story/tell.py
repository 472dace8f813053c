"""Tells a story: fills the gaps of a skeleton with people and numbers."""

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING

from storybank.model import Situation, Story, Triple
from storybank.people import Person
from storybank.story.gaps import Gap, Sentence
from storybank.story.plans import Plan

if TYPE_CHECKING:
    from storybank.story.addends import SumPlan

BLANK = "___"
EXTRA = "extra"
"""The role of a number that is not needed: it stands in the text and is not given."""


def numbers_told(situation: Situation, triple: Triple) -> Mapping[str, int]:
    """The numbers by role, with the one asked for also under `answer`.

    For both-parts-unknown also one pair of parts, as an example for the answer sentence.
    """
    if situation.both_parts:
        part = max(1, triple.c // 2 - 1)
        return {"whole": triple.c, "part1": part, "part2": triple.c - part}
    numbers = dict(zip(situation.roles, (triple.a, triple.b, triple.c), strict=True))
    return {**numbers, "answer": numbers[situation.unknown]}


def tell(plan: "Plan | SumPlan", people: Sequence[Person], numbers: Mapping[str, int]) -> Story:
    """The finished sentences of a plan.

    `people` are as many as the plan's skeleton asks for; `numbers` are those of `numbers_told`.
    """
    skeleton = plan.skeleton
    given: list[int] = []
    sentences = [
        _sentence(sentence, people, numbers, skeleton.pronouns, given)
        for sentence in skeleton.sentences
    ]
    answer = _sentence(skeleton.answer, people, numbers, False, [])
    frame = _filled(skeleton.answer, people, False, _blank)
    without_numbers = tuple(
        [
            _filled(sentence, people, skeleton.pronouns, _some)
            for sentence in skeleton.sentences[: -skeleton.questions]
        ]
    )
    told = " ".join(sentences[: -skeleton.questions])
    asked = " ".join(sentences[-skeleton.questions :])
    return Story(
        telling=plan.telling.split("/", 1)[1],
        people=tuple(person.name for person in people),
        sentences=tuple(sentences),
        text=f"{told}\n{asked}" if skeleton.own_line else f"{told} {asked}",
        given=tuple(given),
        answer_sentence=answer,
        answer_frame=frame,
        word_bank=skeleton.word_bank,
        talk_frames=skeleton.talk_frames,
        support=skeleton.support,
        without_numbers=without_numbers,
        unit=skeleton.unit,
    )


def asked(sentence: Sentence, people: Sequence[Person]) -> str:
    """A question without numbers, with the names of the people."""
    return _filled(sentence, people, False, _some)


def _sentence(
    sentence: Sentence,
    people: Sequence[Person],
    numbers: Mapping[str, int],
    pronouns: bool,
    given: list[int],
) -> str:
    out = []
    for piece in sentence:
        if isinstance(piece, str):
            out.append(piece)
        elif piece.kind == "number":
            number = numbers[piece.role]
            if piece.role != EXTRA:
                given.append(number)
            out.append(f"{number} {piece.one if number == 1 else piece.many}")
        elif piece.kind == "agree":
            out.append(piece.one if numbers[piece.role] == 1 else piece.many)
        else:
            out.append(_person(piece, people, pronouns, first=not out))
    return "".join(out)


def _person(gap: Gap, people: Sequence[Person], pronouns: bool, *, first: bool) -> str:
    if gap.kind == "b":
        return people[1].name
    person = people[0]
    if gap.kind == "he" and pronouns and person.pronoun:
        return person.pronoun.capitalize() if first else person.pronoun
    return person.name


def _filled(
    sentence: Sentence, people: Sequence[Person], pronouns: bool, amount: Callable[[Gap], str]
) -> str:
    """A sentence without its numbers, in whose places `amount` says what stands."""
    out = []
    for piece in sentence:
        if isinstance(piece, str):
            out.append(piece)
        elif piece.kind == "number":
            out.append(amount(piece))
        elif piece.kind == "agree":
            out.append(piece.many)
        else:
            out.append(_person(piece, people, pronouns, first=not out))
    return "".join(out)


def _blank(gap: Gap) -> str:
    return f"{BLANK} {gap.many}"


def _some(gap: Gap) -> str:
    """Some leaves; of a difference only more or fewer leaves."""
    return gap.many if gap.role.endswith("difference") else f"some {gap.many}"
