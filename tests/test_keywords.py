"""Keywords: in a mixed set no word tells the operation; with none, no story uses one.

Source of the rule: our own design (a word in 4 problems or more has at most 75% of them with one
operation). That comparisons keep their word: CCSS-M Table 1 words them "more" and "fewer".
"""

import re
from collections import Counter

import pytest

from storybank import Request, make_set, situations, tellings, themes, vocabulary

WORD = re.compile(r"\b(more|fewer|left|altogether|in all|total)\b")
PLAIN = [one.id for one in situations.in_grade_order() if one.family != "compare"]


def leaning(request: Request) -> tuple[list[str], list[str]]:
    """The words that lean to one operation in the texts of a set, and its notes."""
    made = make_set(request)
    told: Counter[tuple[str, str]] = Counter()
    for problem in made.problems:
        if problem.solution.operation:
            for word in set(WORD.findall(problem.text)):
                told[word, problem.solution.operation] += 1
    words = []
    for word in {word for word, _ in told}:
        counts = told[word, "+"], told[word, "-"]
        if sum(counts) >= 4 and max(counts) > 0.75 * sum(counts):
            words.append(word)
    return sorted(words), list(made.notes)


@pytest.mark.parametrize("level", vocabulary.ids())
@pytest.mark.parametrize("seed", range(12))
def test_no_word_gives_the_operation_away(level: str, seed: int) -> None:
    for count in (12, 24):
        words, notes = leaning(
            Request(situation=PLAIN, vocabulary=level, count=count, seed=seed, strategy=["any"])
        )
        assert not words, (words, notes)


@pytest.mark.parametrize("seed", range(12))
def test_where_it_cannot_be_kept_it_is_said(seed: int) -> None:
    """Only compares: more goes with addition in one, fewer with subtraction in the other."""
    asked = ["compare-bigger-unknown-more", "compare-smaller-unknown-fewer"]
    words, notes = leaning(Request(situation=asked, count=10, seed=seed))
    assert words == ["fewer", "more"]
    for word in words:
        assert any(f'The word "{word}" stands in 5 problems' in note for note in notes)


@pytest.mark.parametrize("level", vocabulary.ids())
@pytest.mark.parametrize("situation", PLAIN)
def test_with_none_no_story_uses_a_keyword(level: str, situation: str) -> None:
    for theme in ("autumn-harvest", "spring-garden", "summer-shore", "winter-days"):
        wish = Request(
            theme=[theme],
            situation=[situation],
            vocabulary=level,
            keywords="none",
            count=6,
            seed=1,
            strategy=["any"],
        )
        for problem in make_set(wish).problems:
            assert not WORD.search(problem.text), problem.text


def test_two_fifths_of_the_tellings_that_are_no_comparisons_use_none() -> None:
    told = [one for name in PLAIN for one in tellings.of(name)]
    plain = [one for one in told if not words_of(one)]
    assert len(plain) >= 0.4 * len(told), (len(plain), len(told))


def words_of(telling: tellings.Telling) -> set[str]:
    slots = [slot for pattern in (*telling.sentences, *telling.questions) for slot in pattern]
    texts = [f"{slot.present} {slot.past} {slot.more}" for slot in slots]
    return {word for text in texts for word in WORD.findall(text)}


@pytest.mark.parametrize("situation", situations.ids())
def test_there_are_several_ways_to_tell_each_situation(situation: str) -> None:
    """At least five at levels 3 and 4, three at levels 1 and 2, in the four seasons' packs."""
    from storybank.story import plans_for

    for level, least in (("level-1", 3), ("level-2", 3), ("level-3", 5), ("level-4", 5)):
        pack = vocabulary.get(level)
        told = {
            name
            for theme in map(themes.get, themes.ids())
            for scene in theme.scenes.values()
            for thing in scene.things
            for name in plans_for(theme, scene, thing, situation, pack)
        }
        assert len(told) >= least, (level, sorted(told))
