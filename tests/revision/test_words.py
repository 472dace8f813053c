"""A teacher's own words: good ones are taken without a word, each fault is said in plain terms."""

import json
import re
from importlib.resources import files

import jsonschema
import pytest
from revision.kinds import CLASS, request

from storybank import Request
from storybank.cleaning import clean_text
from storybank.documents import Layout, kinds
from storybank.finished import set_from_json
from storybank.model import Problem
from storybank.revision import Revised, Told, Words, changes_of, revise

SCHEMA = json.loads(
    files("storybank").joinpath("documents", "set_schema.json").read_text(encoding="utf-8")
)
GAINS = Request(
    theme=["winter-days"], situation=["join-result-unknown"], strategy=["any"], count=1, seed=4
)
GIVES = Request(
    names=CLASS, situation=["separate-result-unknown"], strategy=["any"], count=8, seed=2
)


def reworded(asked: Request, text: str, answer: str = "", place: int = 1) -> Revised:
    return revise(asked, changes_of([f"words-{place}-1"]), [Words(text, answer)])


def told(asked: Request, text: str, answer: str = "", place: int = 1) -> Told:
    return reworded(asked, text, answer, place).stories[place - 1]


def laws(one: Told) -> list[str]:
    return [fault.text for fault in one.faults if fault.law]


def ours(asked: Request, place: int = 1) -> Problem:
    return revise(asked).problem_set.problems[place - 1]


KINDS = (
    "any", "two steps", "three addends", "lengths", "number sets", "extra number", "missing",
    "both parts", "class list", "level-1", "level-2", "level-3", "level-4", "fact families",
)  # fmt: skip


@pytest.mark.parametrize("kind", KINDS)
def test_our_own_text_has_no_fault_and_is_the_same_story(kind: str) -> None:
    asked = request(kind, 3)
    for place, problem in enumerate(revise(asked).problem_set.problems, 1):
        for text in (problem.text, f"\n  {problem.text.replace('. ', '.  ')} \r\n"):
            one = told(asked, text, place=place)
            assert one.faults == ()
            assert one.problem == one.made == problem


@pytest.mark.parametrize("kind", KINDS)
def test_a_number_that_is_gone_is_named(kind: str) -> None:
    asked = request(kind, 3)
    problem = ours(asked)
    number = problem.story.given[0]
    text = re.sub(rf"\b{number}\b", "some", problem.text, count=1)
    assert laws(told(asked, text))[0] == (
        f"The number {number} is missing. Nobody can find the answer without it."
    )


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != "both parts"])
def test_the_answer_is_not_to_be_given_away(kind: str) -> None:
    asked = request(kind, 3)
    problem = ours(asked)
    *begin, question = problem.story.sentences
    text = " ".join([*begin, f"Now it is {problem.answer}.", question])
    said = f"The answer, {problem.answer}, is given away in the story."
    if problem.answer in problem.story.given:
        said = f"The number {problem.answer} stands in the story once too often."
    assert laws(told(asked, text))[0] == said


def test_a_number_that_was_changed_is_named_with_what_to_do() -> None:
    problem = ours(GAINS)
    one, other = problem.story.given
    assert laws(told(GAINS, problem.text.replace(f"{one} ", "98 "))) == [
        f"The number {one} has become 98, and the answer and the key still work with {one}. Put "
        f"{one} back, or ask for other numbers first."
    ]
    *begin, question = problem.story.sentences
    more = " ".join([*begin, "It was 99 days ago.", question])
    assert laws(told(GAINS, more))[0] == (
        "The number 99 stands in the story, and the key knows nothing of it."
    )
    twice = " ".join([*begin, f"Once more, that was {other}.", question])
    assert laws(told(GAINS, twice))[0] == (
        f"The number {other} stands in the story once too often."
    )


def test_numbers_that_children_are_to_find_or_ask_for_are_not_told() -> None:
    asked = request("missing", 3)
    problem = ours(asked)
    assert problem.missing is not None
    *begin, question = problem.story.sentences
    text = " ".join([*begin, f"That was {problem.missing.number}.", question])
    assert laws(told(asked, text))[0] == (
        f"The number {problem.missing.number} is told, and children are to ask for it."
    )
    asked = request("two steps", 3)
    problem = ours(asked)
    *begin, question = problem.story.sentences
    text = " ".join([*begin, f"So there were {problem.hidden}.", question])
    assert laws(told(asked, text))[0] == (
        f"The number {problem.hidden} is told, which children are to find in the first step."
    )
    asked = request("extra number", 3)
    problem = ours(asked)
    number = problem.extra[0].number
    text = re.sub(rf"\b{number}\b", "some", problem.text)
    assert laws(told(asked, text)) == [
        f"The number {number} is missing, and the key says that it is not needed."
    ]


def test_the_question_comes_last_and_only_there() -> None:
    *begin, question = ours(GAINS).story.sentences
    plain = " ".join(begin)
    said = "The last sentence is no question. End with the question and its question mark."
    early = "A question stands before the end. The story asks once, in its last sentence."
    assert laws(told(GAINS, plain))[0] == said
    assert laws(told(GAINS, f"{plain} {question[:-1]}."))[0] == said
    assert laws(told(GAINS, f"{question} {plain}")) == [early, said]
    assert laws(told(GAINS, f"{plain} {question} {question}"))[0] == early
    only = f"How many are {' and '.join(map(str, ours(GAINS).story.given))}?"
    assert laws(told(GAINS, only))[0] == (
        "The story has one sentence only. Tell first what happens, and then ask."
    )


def test_both_questions_of_all_pairs_stay() -> None:
    asked = request("both parts", 3)
    problem = ours(asked)
    *begin, _, last = problem.story.sentences
    assert laws(told(asked, " ".join([*begin, last])))[0] == (
        "The story ends with two questions, one for each part, each with a question mark."
    )
    whole = problem.numbers["whole"]
    assert laws(told(asked, problem.text, f"There could be {whole} here and 1 there.")) == [
        f"The answer sentence must tell two numbers that make {whole}, as one example."
    ]


@pytest.mark.parametrize("answer", ["There were many.", "There were 3.", "3 and {0} make {0}."])
def test_the_answer_sentence_tells_the_answer(answer: str) -> None:
    problem = ours(GAINS)
    one = told(GAINS, problem.text, answer.format(problem.answer))
    assert laws(one)[0] == (
        f"The answer sentence must tell the answer, {problem.answer}, once and no other number."
    )


def test_a_child_who_is_asked_about_is_told_of() -> None:
    told_of = 0
    for place, problem in enumerate(revise(GIVES).problem_set.problems, 1):
        name = problem.story.people[0]
        text = problem.text.replace(name, "A teacher")
        found = laws(told(GIVES, text, place=place))
        if name in problem.story.answer_sentence:
            told_of += 1
            assert found == [
                f"{name} is not in the story any more, and the answer is about {name}."
            ]
        else:
            assert not found
    assert 0 < told_of < 8


def test_another_child_may_be_told_of() -> None:
    for place, problem in enumerate(revise(GIVES).problem_set.problems, 1):
        old = problem.story.people[0]
        text = problem.text.replace(old, "Zofia")
        answer = problem.story.answer_sentence.replace(old, "Zofia")
        one = told(GIVES, text, answer, place)
        assert one.faults == ()
        assert one.problem.story.people == ("Zofia", *problem.story.people[1:])
        assert one.problem.story.text == text and one.problem.story.answer_sentence == answer


def test_a_word_that_is_not_ours_is_named_once_and_misleads_nobody() -> None:
    asked = Request(
        theme=["animal-friends"], situation=["whole-unknown"], strategy=["any"], count=1, seed=5
    )
    problem = ours(asked)
    thing = next(word.word for word in problem.story.word_bank if word.one)
    text, answer = (
        one.replace(thing, "axolotls") for one in (problem.text, problem.story.answer_sentence)
    )
    assert "axolotls" in text
    assert [fault.text for fault in told(asked, text, answer).faults] == [
        'The word "axolotls" is not on our lists, so the grammar of its sentences was not '
        "checked. Do all children know what is meant?"
    ]


def test_number_words_are_named() -> None:
    problem = ours(GAINS)
    *begin, question = problem.story.sentences
    one = told(GAINS, " ".join([*begin, "It took seven days.", question]))
    assert any('"seven" says a number in words' in text for text in laws(one))


@pytest.mark.parametrize("text", ["", "  \n", "\u200b\x07"])
def test_an_empty_story_is_passed_over_with_a_note(text: str) -> None:
    revised = reworded(GAINS, text)
    assert revised.notes == (
        "words-1-1 was not done: the story is empty. Write it with its question last, or take "
        "ours back.",
    )
    assert revised.problem_set.problems == revise(GAINS).problem_set.problems


def test_a_text_that_is_too_long_is_passed_over_with_a_note() -> None:
    assert reworded(GAINS, "x" * 1201).notes == (
        "words-1-1 was not done: the story has 1,201 letters, and at most 1,200 are taken. Write a "
        "shorter one.",
    )
    assert reworded(GAINS, ours(GAINS).text, "y" * 5000).notes == (
        "words-1-1 was not done: the answer sentence has 5,000 letters, and at most 1,200 are "
        "taken. Write a shorter one.",
    )


def test_what_is_typed_stays_text() -> None:
    problem = ours(GAINS)
    *begin, question = problem.story.sentences
    typed = f"{' '.join(begin)} <script>alert(1)</script>\x00\u202e & \x1b[31mred. {question}"
    one = told(GAINS, typed)
    assert one.problem.text == clean_text(typed, 1200)[0]
    assert "<script>alert(1)</script>" in one.problem.text and "\x1b" not in one.problem.text
    assert clean_text(one.problem.text, 1200) == (one.problem.text, ())


def test_words_that_say_the_same_have_no_fault() -> None:
    asked = Request(
        theme=["animal-friends"], situation=["whole-unknown"], strategy=["any"], count=6, seed=5
    )
    quiet = 0
    for place, problem in enumerate(revise(asked).problem_set.problems, 1):
        for old, new in (
            ("There were", "At first, there were"),
            (" altogether?", " in all?"),
            (" and ", " and also "),
            (" in all?", "?"),
        ):
            text = problem.text.replace(old, new, 1)
            if text != problem.text:
                answer = problem.story.answer_sentence.replace(old[:-1], new[:-1])
                one = told(asked, text, answer, place)
                assert not laws(one), (text, laws(one))
                quiet += not one.faults
    assert quiet


@pytest.mark.parametrize("level", ["level-1", "level-2", "level-3"])
def test_the_question_keeps_its_own_line(level: str) -> None:
    problem = ours(request(level, 3))
    assert "\n" in problem.text
    one = told(request(level, 3), problem.text.replace("\n", " "))
    assert one.problem.text == problem.text and one.faults == ()


def test_numbers_in_another_order_are_given_in_that_order() -> None:
    asked = Request(number_sets=[20, 100], situation=["whole-unknown"], count=1, seed=6)
    problem = ours(asked)
    one, other = problem.story.given
    text = re.sub(r"\d+", lambda found: str(other if int(found[0]) == one else one), problem.text)
    new = told(asked, text)
    assert new.problem.story.given == (other, one) and not laws(new)
    assert [sets.given for sets in new.problem.number_sets] == [
        (sets.given[1], sets.given[0]) for sets in problem.number_sets
    ]


def test_number_sets_take_the_answer_sentence() -> None:
    asked = Request(number_sets=[20, 100], situation=["whole-unknown"], count=1, seed=6)
    problem = ours(asked)
    new = told(asked, problem.text, f"So it is {problem.answer}.").problem
    assert [one.answer_sentence for one in new.number_sets] == [
        f"So it is {one.answer}." for one in problem.number_sets
    ]


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize(
    "added",
    [
        "That was 46.",
        "46 of them stood in a 12-page book.",
        "Mr. Tan paid $3.50! No marks at all",
    ],
)
def test_any_text_makes_pages_and_comes_back(kind: str, added: str) -> None:
    asked = request(kind, 3)
    *begin, question = ours(asked).story.sentences
    made = reworded(asked, " ".join([*begin, added, question]), "I do not know.").problem_set
    new = made.problems[0]
    assert added in new.text.replace("\n", " ")
    assert not re.search(r"\d", " ".join(new.story.without_numbers))
    for name in kinds.ids():
        kinds.page(name, made, Layout(pages=(name,)))
    jsonschema.validate(made.to_json(), SCHEMA, cls=jsonschema.Draft202012Validator)
    assert set_from_json(made.to_json(), "").to_text() == made.to_text()


def test_the_first_reading_of_a_launch_page_holds_no_number() -> None:
    problem = ours(GAINS)
    one, other = problem.story.given
    new = told(
        GAINS, f"{one} birds sat on the snow. Later came {other}. How many birds sat there then?"
    ).problem
    assert new.story.without_numbers == ("Some birds sat on the snow.", "Later came some.")
    asked = Request(situation=["compare-bigger-unknown-more"], strategy=["any"], count=1, seed=1)
    problem = ours(asked)
    small, more = problem.numbers["smaller"], problem.numbers["difference"]
    new = told(asked, f"Ada had {small} pens. Bo had {more} more pens. How many had Bo?").problem
    assert new.story.without_numbers == ("Ada had some pens.", "Bo had more pens.")


def test_a_title_ends_no_sentence() -> None:
    problem = ours(GAINS)
    *begin, question = problem.story.sentences
    new = told(GAINS, " ".join([*begin, "Mrs. Diaz saw them.", question])).problem
    assert new.story.sentences == (*begin, "Mrs. Diaz saw them.", question)


def test_our_words_come_back() -> None:
    before = revise(GAINS).problem_set
    words = [Words(ours(GAINS).text.replace("There", "Then there"))]
    assert revise(GAINS, changes_of(["words-1-1", "plain-1"]), words).stories[0].words is None
    again = revise(GAINS, changes_of(["words-1-1", "swap-1"]), words)
    assert again.stories[0].words is None and again.problem_set.problems != before.problems
    without = revise(GAINS, changes_of(["words-1-1"]))
    assert without.problem_set.problems == before.problems
    assert without.notes == (
        "Story 1 was told in words of your own. They stand in no address, so it is told in ours.",
    )


def test_stories_at_four_levels_are_not_reworded() -> None:
    revised = reworded(request("side by side"), "It snowed. How many?")
    assert revised.notes == (
        "words-1-1 was not done: it stands at four levels of English. Change its words in Word, or "
        "make a set at one level.",
    )
