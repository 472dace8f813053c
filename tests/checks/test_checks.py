"""Every check passes the golden problems and catches its own spoiled samples."""

from dataclasses import replace

import pytest
from checks.golden import GOLDEN, PEOPLE, THEME, Named, context_for

from storybank import checks, vocabulary
from storybank.checks import _closed, _grammar, _spoiling
from storybank.checks._lexicon import lexicon
from storybank.checks._line import read_line
from storybank.checks.articles import article_for
from storybank.errors import RequestError
from storybank.model import Problem

JOIN = GOLDEN["join, level 4"]
DOUBLES = GOLDEN["whole, doubles, level 3"]


@pytest.mark.parametrize("name", GOLDEN)
def test_golden_problems_pass_all_checks(name: str) -> None:
    problem = GOLDEN[name]
    assert checks.judge(problem, context_for(problem)) == ()


def test_golden_problems_cover_families_and_levels() -> None:
    assert {one.vocabulary for one in GOLDEN.values()} == set(vocabulary.ids())
    families = {one.situation.split("-")[0] for one in GOLDEN.values()}
    assert families == {"join", "separate", "whole", "part", "both", "compare"}


@pytest.mark.parametrize("check_id", checks.ids())
def test_each_check_catches_its_own_spoiled_samples(check_id: str) -> None:
    check = checks.get(check_id)
    assert check.TITLE
    caught = 0
    for name, problem in GOLDEN.items():
        context = context_for(problem)
        assert check.judge(problem, context) == [], name
        for spoiled in check.spoil(problem):
            assert spoiled != problem
            messages = check.judge(spoiled, context)
            assert messages, f"{check_id} lets pass {spoiled} made from {name}"
            assert set(messages) <= set(checks.judge(spoiled, context))
            caught += 1
    assert caught, f"{check_id} has no sample that it must catch"


def told(text: str, problem: Problem = JOIN) -> Problem:
    """The problem with another first sentence."""
    return _spoiling.with_sentences(problem, (text, *problem.story.sentences[1:]))


FAULTY = (
    ("Nia had 46 apple in a basket.", "number-and-noun"),
    ("Nia had 1 apples in a basket.", "number-and-noun"),
    ("Nia had 46 more.", "number-and-noun"),
    ("Nia had 46 red apple in a basket.", "number-and-noun"),
    ("Nia had 46 leave in a basket.", "number-and-noun"),
    ("Nia had an basket.", "articles"),
    ("Nia had apple.", "bare-nouns"),
    ("Nia had apples in basket.", "bare-nouns"),
    ("Nia picked up a apples.", "bare-nouns"),
    ("Nia picked up some apple.", "bare-nouns"),
    ("There was 46 apples in a basket.", "agreement"),
    ("There were 1 apple in a basket.", "agreement"),
    ("There were a apple in a basket.", "agreement"),
    ("Nia have 46 apples.", "agreement"),
    ("Nia and Omar has 46 apples.", "agreement"),
    ("The other apples is red.", "agreement"),
    ("The apples in a crate is red.", "agreement"),
    ("46 leaves falls to the ground.", "agreement"),
    ("So 1 leaf fall to the ground.", "agreement"),
    ("Nia taken 46 apples.", "agreement"),
    ("Nia 46 apples.", "agreement"),
    ("Nia picked up 46 apples but need 60 apples for the party.", "agreement"),
    ("But needed 60 apples for the party.", "agreement"),
    ("Had 46 apples.", "agreement"),
    ("Nia has 46 apples.", "tense"),
    ("Nia had 46 apples, and she has a basket.", "tense"),
    ("He had 46 apples.", "pronouns"),
    ("They had 46 apples.", "pronouns"),
    ("Nia had a basket, and it had 46 apples.", "pronouns"),
    ("nia had 46 apples.", "known-words"),
    ("Nia had 46 Apples.", "capitals"),
    ("there were 46 apples.", "capitals"),
    ("Nia had 46 apples", "marks"),
    ("Nia had 46 apples!", "marks"),
    ("Nia had 1,046 apples.", "marks"),
    ("Nia  had 46 apples.", "marks"),
    ("Nia had 46 apples .", "marks"),
    ("46 apples were in a basket.", "marks"),
    ("Nia had had 46 apples.", "doubled-words"),
    ("Nia had 46 apples in the the basket.", "doubled-words"),
    ("Nia had forty apples.", "number-words"),
    ("Nia had a dozen apples.", "number-words"),
    ("Both crates had 46 apples.", "number-words"),
    ("Nia had much apples.", "many-and-fewer"),
    ("Nia had 46 less apples.", "many-and-fewer"),
    ("If Nia had 46 apples, she helped.", "plain-forms"),
    ("Nia had not 46 apples.", "plain-forms"),
    ("46 apples were picked.", "plain-forms"),
    ("Nia had 46 snowmen.", "known-words"),
    ("Nia's basket had 46 apples.", "known-words"),
    ("Quentin had 46 apples.", "known-words"),
    ("Nia had 46 apples in a basket in the orchard on the farm.", "density"),
    ("Nia had 46 apples and had a crate and had a basket.", "density"),
    ("Nia had a basket and 46 red apples and 5 pears and 6 leaves and a crate.", "length"),
)


@pytest.mark.parametrize(("text", "check_id"), FAULTY)
def test_a_faulty_sentence_is_caught(text: str, check_id: str) -> None:
    problem = told(text)
    assert checks.get(check_id).judge(problem, context_for(problem)), text


GOOD = (
    "At first, Nia had 46 apples in a basket.",
    "Nia had 1 apple.",
    "Nia had a red apple.",
    "There was 1 apple in a crate.",
    "There was 1 red apple and 46 pears in a crate.",
    "Then 46 leaves fell to the ground.",
    "The other apples were red.",
    "The apples in a crate were red.",
    "In the morning, Nia picked up 46 apples.",
    "Nia had 46 apples, but she needed a basket.",
    "There were 46 apples, and 7 of the apples were red.",
    "Nia had 46 apples left.",
    "Nia had 46 apples in a basket but needed 60 apples for the party.",
    "Of these, 46 apples were red.",
    "The leaves fell to the ground.",
)
BY_LINE = (
    "agreement", "articles", "bare-nouns", "capitals", "density", "doubled-words",
    "helping-verbs", "known-words", "many-and-fewer", "marks", "number-and-noun", "number-words",
    "plain-forms", "pronouns", "tense",
)  # fmt: skip


@pytest.mark.parametrize("text", GOOD)
def test_a_good_sentence_passes(text: str) -> None:
    again = "Then Nia picked up 38 more apples."
    problem = _spoiling.with_sentences(JOIN, (text, again, JOIN.story.question))
    for check_id in BY_LINE:
        assert checks.get(check_id).judge(problem, context_for(problem)) == [], check_id


def test_words_with_two_readings_are_told_apart() -> None:
    words = lexicon(THEME)
    verbs = {
        "Nia rested.": [], "Nia had 46 leaves left.": ["had"],
        "The leaves fell to the ground.": ["fell"], "How many leaves are left?": ["are"],
    }  # fmt: skip
    for text, expected in verbs.items():
        text = text.replace("Nia", "\u023a")
        line = read_line(text, text.endswith("?"), words)
        assert [line.low(verb.at) for verb in _grammar.verbs(line)] == expected, text
    assert "left" in _closed.lists()["two_readings"]


def test_a_or_an_goes_by_sound() -> None:
    # From memory, as in any American dictionary.
    assert [article_for(word) for word in ("apple", "pear", "hour", "unicorn", "uniform")] == [
        "an", "a", "an", "a", "a",
    ]  # fmt: skip


def test_the_verdict_does_not_depend_on_names_or_numbers_but_the_message_tells_them() -> None:
    context = context_for(JOIN)
    bad = told("Nia had 46 apple in a basket.")
    other = replace(bad, story=replace(
        bad.story, people=("Tove",),
        sentences=tuple(one.replace("Nia", "Tove").replace("she", "Tove").replace("46", "57")
                        for one in bad.story.sentences)))  # fmt: skip
    check = checks.get("number-and-noun")
    (first,), (second,) = check.judge(bad, context), check.judge(other, context)
    assert "Nia had 46 apple" in first and "Tove had 57 apple" in second
    assert check.judge(JOIN, context) == []
    assert check.judge(bad, context) == [first]


def test_a_pronoun_needs_the_person_it_belongs_to() -> None:
    check = checks.get("pronouns")
    assert check.judge(JOIN, context_for(JOIN)) == []
    for pronoun in ("he", None):
        assert check.judge(JOIN, context_for(JOIN, people=(Named("Nia", pronoun),)))
    assert check.judge(JOIN, context_for(JOIN, people=()))
    two = _spoiling.with_sentences(JOIN, ("Nia and Omar had 46 apples.", *JOIN.story.sentences[1:]))
    two = replace(two, story=replace(two.story, people=("Nia", "Omar")))
    assert check.judge(two, context_for(two)) == []
    other = (Named("Nia", "she"), Named("Omar", "she"))
    assert check.judge(two, context_for(two, people=other))


def test_a_name_from_a_class_list_counts_as_one_word_and_has_no_limit() -> None:
    name = "Maria-Antonia de la Torre"
    renamed = replace(JOIN, story=replace(
        JOIN.story, people=(name,), text=JOIN.text.replace("Nia", name),
        sentences=tuple(one.replace("Nia", name) for one in JOIN.story.sentences),
        answer_sentence=JOIN.story.answer_sentence.replace("Nia", name),
        answer_frame=JOIN.story.answer_frame.replace("Nia", name)))  # fmt: skip
    people = (Named(name, "she"),)
    loose = context_for(renamed, people=people, names_are_listed=False)
    assert checks.judge(renamed, loose) == ()
    strict = context_for(renamed, people=people, names_are_listed=True)
    assert all("letters" in message for message in checks.judge(renamed, strict))
    assert checks.judge(renamed, strict)


def test_a_letter_that_stands_for_a_name_is_no_name_in_a_text() -> None:
    problem = told("\u023a had 46 apples in a basket.")
    assert checks.get("marks").judge(problem, context_for(problem))


def test_a_pair_that_the_teacher_named_need_not_fit() -> None:
    tens = replace(DOUBLES, strategy="tens-then-ones")
    given, fits = checks.get("given"), checks.get("strategy")
    for check in (given, fits):
        assert check.judge(tens, context_for(tens, asked_pair=False))
        assert check.judge(tens, context_for(tens, asked_pair=True)) == []


def test_the_limit_is_that_of_the_context() -> None:
    check = checks.get("numbers")
    assert check.judge(JOIN, context_for(JOIN, limit=84)) == []
    assert check.judge(JOIN, context_for(JOIN, limit=83))
    assert checks.get("solution").judge(JOIN, context_for(JOIN, limit=85))


def test_messages_come_in_the_order_of_the_checks() -> None:
    problem = replace(told("Nia have 46 apple."), code="", related_facts=())
    found = checks.judge(problem, context_for(problem))
    ordered = [text for name in checks.ids()
               for text in checks.get(name).judge(problem, context_for(problem))]  # fmt: skip
    assert list(found) == ordered and len(found) > 3


def test_an_unknown_check_is_named_with_the_valid_ones() -> None:
    with pytest.raises(RequestError, match='no check "gramar"'):
        checks.get("gramar")
    assert len(PEOPLE) == 4
