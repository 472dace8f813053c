"""Class lists whose names are words, parts of words or parts of one another stop no set."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from storybank import Request, make_set, people, story, themes, vocabulary
from storybank.finished import judge, own_names, pronouns, renamed
from storybank.model import Problem
from storybank.people import Dealer, Person, Roster
from storybank.situations import ids as situation_ids
from storybank.story import Plan, SumPlan, measured_drafts, plans_for
from storybank.story.gaps import Gap, Sentence
from storybank.vocabulary.measures import with_plain_names
from storybank.vocabulary.names import marked, replacing

LISTS = {
    "openers": "On,she\nIn,he\nHe,he\nShe,she\nThen\nNow,he\nHow,she\nThe,he\nI,she\nAt\nThere,he\n"
    "After,she\nMay,she\nWill,he\nA,he\nAn,she\nEach,he\nSome,she\nThat,he\nSo,she\nLater\n"
    "Next,he\nToday,she\nBefore,he\nMonday,she\nTuesday,he\n",
    "parts": "Ana,she\nAna María,she\nMaría\nAnabel,she\nAna-Lu,he\nLu,he\ne,she\nana,he\nLi Wei\n"
    "Wei\nn,he\ns,she\nE,he\nHow Ana,she\nOn Li,he\n",
    "small": "on,she\nin,he\nhe,he\nshe,she\nthen\nhow,she\nthe,he\ni,she\nthere,he\nmay,she\n"
    "a,he\nan,she\nto,he\nhas,he\nmore,she\napples,he\nleaf\nfew,she\nmany,he\nand,she\nis,she\n",
    "measures": "Longer,she\nFeet,he\nInches,she\nMinutes,he\nMore,she\nFewer\nThan,he\nDollars\n",
}
WISHES = [
    {"strategy": ["any"], "count": 45},
    {"strategy": ["any"], "count": 30, "vocabulary": "level-1"},
    {"strategy": ["any"], "count": 30, "vocabulary": "level-2"},
    {"strategy": ["any"], "count": 30, "vocabulary": "level-3"},
    {"steps": 2, "count": 30},
    {"steps": 2, "count": 15, "vocabulary": "level-1"},
    {"addends": 3, "count": 15},
    {"addends": 4, "count": 10, "vocabulary": "level-1"},
    {"extra_number": True, "strategy": ["any"], "count": 15},
    {"missing": True, "strategy": ["any"], "count": 15},
    {"levels_side_by_side": True, "strategy": ["any"], "count": 20},
    {"number_sets": [20, 100], "count": 8},
    {"fact_families": True, "count": 8},
    {"units": ["any"], "count": 30},
    {"units": ["any"], "count": 15, "vocabulary": "level-1"},
]
ADA, BEN = "\u023a", "\u0243"
"""Stand for the two people: no word of a story holds these letters."""
OPENERS = ("A", "At", "How", "In", "Monday", "On", "So", "Then", "There", "That", "The", "After")


@pytest.mark.parametrize("wish", WISHES, ids=str)
@pytest.mark.parametrize("names", LISTS)
def test_no_class_list_stops_a_set(names: str, wish: dict, tmp_path: Path) -> None:
    path = tmp_path / "class.txt"
    path.write_text(LISTS[names], encoding="utf-8")
    told = set()
    for seed in (1, 2):
        problem_set = make_set(Request(names=str(path), seed=seed, **wish))
        for problem in problem_set.problems:
            told.update(problem.story.people)
            assert judge(problem, problem_set.request) == ()
            _given_back(problem, problem_set.request)
    assert len(told) > 1


def _given_back(problem: Problem, request: dict) -> None:
    """Names of our own list can take every place of the children, and give it back."""
    if not problem.story.people:
        return
    own, _ = own_names(problem, request)
    assert judge(own, request) == (), own.text
    children = [Person(*one) for one in zip(problem.story.people, pronouns(problem), strict=True)]
    assert renamed(own, children) == problem


@pytest.mark.parametrize(("at", "theme"), list(enumerate(themes.ids())))
def test_in_every_sentence_a_child_is_told_from_the_word(at: int, theme: str) -> None:
    level = vocabulary.ids()[at % len(vocabulary.ids())]
    sentences = {
        text
        for plan in _plans(theme, level)
        for sentence in (*plan.skeleton.sentences, plan.skeleton.answer)
        for text in (_filled(sentence, "7"), _filled(sentence, "some"))
    }
    assert len(sentences) > 500
    for text in sorted(sentences):
        for name in OPENERS:
            if name in text or text.startswith((ADA, BEN)):
                for one, other in ((name, "Zoë"), ("zoë", name), (name, f"{name} Li")):
                    told = text.replace(ADA, one).replace(BEN, other)
                    assert replacing({one: ADA, other: BEN})(told) == text
                    for who, mark in sorted(((other, BEN), (one, ADA)), key=_shorter):
                        told = marked(told, who, mark, (one, other, ADA, BEN))
                    assert told == text


def _shorter(named: tuple[str, str]) -> int:
    return -len(named[0])


def _plans(theme_id: str, level: str) -> Iterator[Plan | SumPlan]:
    theme, pack = themes.get(theme_id), vocabulary.get(level)
    for scene in theme.scenes.values():
        for thing in scene.things:
            yield from story.sum_plans(theme, scene, thing, 3, pack)
            for situation in situation_ids():
                for plans in plans_for(theme, scene, thing, situation, pack).values():
                    yield from plans
        for thing in scene.measured:
            for situation in situation_ids():
                for drafts in measured_drafts(theme, scene, thing, situation, pack).values():
                    yield from (draft.plan for draft in drafts if draft.plan is not None)


def _filled(sentence: Sentence, number: str) -> str:
    return "".join(piece if isinstance(piece, str) else _gap(piece, number) for piece in sentence)


def _gap(gap: Gap, number: str) -> str:
    if gap.kind == "number":
        some_more = number == "some" and gap.role.endswith("difference")
        return gap.many if some_more else f"{number} {gap.many}"
    if gap.kind == "agree":
        return gap.many
    return BEN if gap.kind == "b" else ADA


@pytest.mark.parametrize(
    ("text", "name", "marks"),
    [
        ("On Monday, On had 7 eggs.", "On", "On Monday, * had 7 eggs."),
        ("How many eggs did How have?", "How", "How many eggs did * have?"),
        ("The farmer had 7 eggs. The had 9 eggs.", "The", "The farmer had 7 eggs. * had 9 eggs."),
        ("There were 7 eggs. There could have 9.", "There", "There were 7 eggs. * could have 9."),
        ("Then Then gave 7 eggs.\nHow many?", "Then", "Then * gave 7 eggs.\nHow many?"),
        ("On Monday, Monday had 7 eggs.", "Monday", "On Monday, * had 7 eggs."),
        ("e had 7 bananas. Then she gave e 8.", "e", "* had 7 bananas. Then she gave * 8."),
        ("ana had 7 bananas.", "ana", "* had 7 bananas."),
        ("Ana-Lu and Ana had 7.", "Ana-Lu", "* and Ana had 7."),
    ],
)  # fmt: skip
def test_names_are_found_where_they_stand(text: str, name: str, marks: str) -> None:
    assert marked(text, name, "*") == marks
    assert replacing({name: "*"})(text) == marks


def test_a_name_within_a_word_or_another_name_stays_there() -> None:
    told = ["Ana María gave 7 bananas to Ana."]
    assert with_plain_names(told, ("Ana", "Ana María")) == ["Name gave 7 bananas to Name."]
    assert with_plain_names(["e had 7 apples."], ("e",)) == ["Name had 7 apples."]


@pytest.mark.parametrize("name", ["He", "She"])
def test_beside_a_child_who_is_called_like_a_pronoun_names_are_said_again(name: str) -> None:
    roster = Roster("c", "C", (Person(name, "he"), Person("Ben", "he"), Person("Zoë", "she")), True)
    dealer = Dealer(roster, 1)
    for index in range(20):
        for person in (pair := dealer.deal(index, 2)):
            told_of = name in {one.name for one in pair}
            assert (person.pronoun is None) == told_of


def test_a_small_name_that_is_a_word_gets_a_capital_and_a_note() -> None:
    roster = people.read_class_list("a", "on,she\nrobin\nana\nOn\nanna maría\néva\n".encode())
    told = people.with_capitals(roster, {"on"}.__contains__)
    assert [one.name for one in told.people] == ["On", "Robin", "ana", "On", "anna maría", "éva"]
    assert told.people[0].pronoun == "she"
    assert told.notes[-1] == (
        "2 names: written with a capital, since it is a word too (on, robin)."
    )
    plain = people.read_class_list("a", b"Ana\nben\n")
    assert people.with_capitals(plain, {"on"}.__contains__) is plain
