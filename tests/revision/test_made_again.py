"""Stories made again in their places: another one, other numbers, another level, moved, removed."""

import re
from collections import Counter

import pytest
from revision.kinds import CLASS, KINDS, request
from revision.laws import faults, numbers
from test_keywords import WORD

from storybank import Request, situations, vocabulary
from storybank.model import Problem
from storybank.revision import Revised, changes_of, revise

ONE_STEP = [kind for kind in KINDS if kind not in ("fact families", "pair")]


def changed(asked: Request, *texts: str) -> Revised:
    return revise(asked, changes_of(texts))


def done(revised: Revised) -> bool:
    return not any("was not done" in note for note in revised.notes)


def way(problem: Problem) -> tuple:
    return tuple(one.situation for one in problem.steps) or (problem.situation,)


@pytest.mark.parametrize("kind", ONE_STEP)
def test_a_swap_gives_another_story_for_the_same_wishes(kind: str) -> None:
    asked = request(kind, 3)
    before = revise(asked).problem_set.problems
    for place, old in enumerate(before):
        revised = changed(asked, f"swap-{place + 1}")
        assert done(revised), revised.notes
        new = revised.problem_set.problems[place]
        assert way(new) == way(old) and new.unknown == old.unknown
        assert new.text != old.text and list(numbers(new)) != list(numbers(old))
        if revised.problem_set.request["strategy"] != ["any"] and not new.steps:
            assert new.strategy == old.strategy
        assert new.vocabulary == old.vocabulary
        assert (bool(new.extra), bool(new.missing), len(new.number_sets), len(new.levels)) == (
            bool(old.extra), bool(old.missing), len(old.number_sets), len(old.levels),
        )  # fmt: skip
        assert new.story.unit is None or kind in ("lengths", "money", "minutes", "points")
        others = [at for at in range(len(before)) if at != place]
        assert [revised.problem_set.problems[at] for at in others] == [before[at] for at in others]


@pytest.mark.parametrize("kind", ["any", "class list", "two steps", "three addends", "level-2"])
def test_what_was_swapped_never_comes_back(kind: str) -> None:
    asked, seen = request(kind, 2), set()
    for often in range(8):
        revised = changed(asked, *["swap-2"] * often, "swap-1")
        assert done(revised), revised.notes
        story = revised.problem_set.problems[1]
        assert not seen & {story.text, *numbers(story)}
        seen |= {story.text, *numbers(story)}


def test_a_pair_keeps_its_numbers() -> None:
    asked = request("pair")
    before, after = revise(asked), changed(asked, "swap-1")
    old, new = before.problem_set.problems[0], after.problem_set.problems[0]
    assert sorted(new.numbers.values()) == sorted(old.numbers.values()) and new.text != old.text
    refused = changed(asked, "numbers-1")
    assert refused.notes == (
        "numbers-1 was not done: the numbers of this set were named. Swap the story, or name "
        "others.",
    )


@pytest.mark.parametrize("seed", range(6))
def test_the_children_of_a_class_stay_in_their_place(seed: int) -> None:
    asked = request("class list", seed)
    before = revise(asked).problem_set.problems
    for place, old in enumerate(before):
        for kind in ("swap", "numbers"):
            revised = changed(asked, f"{kind}-{place + 1}")
            assert revised.problem_set.problems[place].story.people == old.story.people
    more = changed(asked, "swap-2", "more").problem_set.problems[-1]
    told = Counter(name for one in before for name in one.story.people)
    assert len(before) == 8 and set(more.story.people) <= {one.name for one in CLASS.people}
    assert max(told[name] for name in more.story.people) <= min(told.values()) + 1


@pytest.mark.parametrize("kind", ONE_STEP)
def test_other_numbers_leave_the_story(kind: str) -> None:
    asked, told = request(kind, 4), 0
    before = revise(asked).problem_set.problems
    for place, old in enumerate(before):
        revised = changed(asked, f"numbers-{place + 1}")
        new = revised.problem_set.problems[place]
        if not done(revised):
            assert revised.notes == (
                f"numbers-{place + 1} was not done: no other numbers are left for this story. "
                "Swap it for another story.",
            )
            assert new == old
            continue
        told += 1
        assert new.story.without_numbers == old.story.without_numbers
        if 1 not in (*new.story.given, *old.story.given):
            assert re.sub(r"\d+", "9", new.text) == re.sub(r"\d+", "9", old.text)
        assert new.story.answer_frame == old.story.answer_frame
        assert not set(numbers(new)) & set(numbers(old))
        for one, other in zip(new.levels, old.levels, strict=True):
            assert one.story.without_numbers == other.story.without_numbers
    assert told > len(before) / 2


def test_where_no_other_numbers_are_left_it_is_said() -> None:
    asked = Request(within=5, situation=["whole-unknown"], count=1, seed=1)
    texts = ["numbers-1"] * 12
    revised = changed(asked, *texts)
    assert revised.notes == (
        "numbers-1 was not done: no other numbers are left for this story. Swap it for another "
        "story.",
    )
    tried = [changed(asked, *texts[:often]).problem_set.problems[0] for often in range(12)]
    assert 1 < len({tuple(numbers(one)) for one in tried}) < 12


def test_where_no_other_story_is_left_it_is_said() -> None:
    asked = Request(within=5, situation=["whole-unknown"], count=2, seed=1)
    texts = ["swap-1"] * 12
    revised = changed(asked, *texts, "more", "renew-1-2")
    reason = "left that meets all wishes with numbers that were not used yet."
    assert revised.notes == (
        f"swap-1 was not done: no other story is {reason}",
        f"more was not done: no story is {reason}",
        f"renew-1-2 was not done: at 1, 2, no other story is {reason}",
    )
    assert not list(faults(revised, asked))


def test_a_level_changes_the_english_only() -> None:
    told: Counter[tuple[str, str]] = Counter()
    for own in vocabulary.ids():
        for seed in range(3):
            asked = Request(strategy=["any"], vocabulary=own, count=6, seed=seed)
            before = revise(asked).problem_set.problems
            for place, old in enumerate(before):
                for level in vocabulary.ids():
                    revised = changed(asked, f"level-{place + 1}-{level}")
                    new = revised.problem_set.problems[place]
                    if not done(revised):
                        assert new == old
                        continue
                    told[own, level] += 1
                    assert new.vocabulary == level and new.code == old.code
                    kept = ("numbers", "situation", "scene", "strategy", "solution", "answer")
                    for name in kept:
                        assert getattr(new, name) == getattr(old, name), name
                    assert sorted(new.story.given) == sorted(old.story.given)
                    if new.story.people != old.story.people:
                        assert len(new.story.people) == len(old.story.people)
                        (note,) = revised.notes
                        assert note.startswith(f"Story {place + 1}: ") and "letters at" in note
                    assert not list(faults(revised, asked)), new.text
    for level in vocabulary.ids():
        assert (level, level) not in told
        assert sum(number for (_, to), number in told.items() if to == level) > 10, told


def test_another_level_is_kept_by_what_is_made_after_it() -> None:
    asked, found = Request(strategy=["any"], count=8, seed=2), 0
    for place in range(1, 9):
        level = f"level-{place}-level-1"
        if not done(changed(asked, level)):
            continue
        found += 1
        for after in (f"swap-{place}", f"numbers-{place}"):
            revised = changed(asked, level, after)
            assert done(revised) or after.startswith("numbers"), revised.notes
            assert revised.problem_set.problems[place - 1].vocabulary == "level-1"
    assert found


@pytest.mark.parametrize(
    ("kind", "said"),
    [
        ("two steps", "stories of this kind are told at one level only. Look at another story, "),
        ("three addends", "stories of this kind are told at one level only."),
        ("extra number", "stories of this kind are told at one level only."),
        ("missing", "stories of this kind are told at one level only."),
        ("number sets", "a story with several sets of numbers is told at one level only."),
        ("fact families", "the four stories of a fact family are told alike, so all stay at one "),
        ("side by side", "it stands at all four levels of English already."),
    ],
)
def test_kinds_that_are_told_at_one_level_are_refused_it(kind: str, said: str) -> None:
    revised = changed(request(kind), "level-1-level-2")
    (note,) = revised.notes
    assert note.startswith(f"level-1-level-2 was not done: {said}")
    assert revised.problem_set.problems == revise(request(kind)).problem_set.problems


def test_no_keyword_comes_in_with_a_level() -> None:
    for seed in range(4):
        asked = Request(strategy=["any"], keywords="none", count=8, seed=seed)
        for level in vocabulary.ids():
            texts = [f"level-{place}-{level}" for place in range(1, 9)]
            for problem in changed(asked, *texts).problem_set.problems:
                if situations.get(problem.situation).family != "compare":
                    assert not WORD.search(problem.text), problem.text


def leaning(problems: tuple[Problem, ...]) -> set[str]:
    told: Counter[tuple[str, str]] = Counter()
    for problem in problems:
        if problem.solution.operation:
            found = set(WORD.findall(problem.text))
            told.update((word, problem.solution.operation) for word in found)
    words = {word for word, _ in told}
    return {
        word
        for word in words
        if told[word, "+"] + told[word, "-"] >= 4
        and max(told[word, "+"], told[word, "-"]) > 0.75 * (told[word, "+"] + told[word, "-"])
    }


PLAIN = [one.id for one in situations.in_grade_order() if one.family != "compare"]


@pytest.mark.parametrize("seed", range(6))
def test_swapped_stories_keep_the_balance_of_keywords(seed: int) -> None:
    asked = Request(situation=PLAIN, strategy=["any"], count=12, seed=seed)
    texts: list[str] = []
    for place in (1, 4, 7, 10, 2, 12):
        texts += [f"swap-{place}", f"numbers-{place}"]
        made = changed(asked, *texts).problem_set
        assert not leaning(made.problems), made.notes


def test_where_the_balance_is_lost_it_is_said_with_what_to_do() -> None:
    found = 0
    for seed in range(3):
        asked = Request(situation=PLAIN, strategy=["any"], count=24, seed=seed)
        before = revise(asked).problem_set.problems
        texts = [
            f"remove-{place}"
            for place, one in reversed(list(enumerate(before, 1)))
            if one.solution.operation == "+"
        ]
        made = changed(asked, *texts).problem_set
        words = leaning(made.problems)
        noted = {note.split('"')[1] for note in made.notes if "children could go by" in note}
        assert words == noted, made.notes
        found += len(words)
        for note in made.notes:
            if "children could go by" in note:
                assert note.endswith("Swap one of these, or ask for one story more.")
    assert found


def fours(revised: Revised) -> list[tuple[Problem, ...]]:
    problems = revised.problem_set.problems
    return [problems[at : at + 4] for at in range(0, len(problems), 4)]


@pytest.mark.parametrize("seed", range(5))
@pytest.mark.parametrize("names", [None, CLASS])
def test_a_fact_family_is_swapped_as_one(seed: int, names: object) -> None:
    asked = request("fact families", seed, names=names)
    (first, second), revised = fours(revise(asked)), changed(asked, "swap-6")
    one, other = fours(revised)
    assert one == first and done(revised)
    assert not {problem.text for problem in other} & {problem.text for problem in second}
    (shared,) = {key for problem in other for key in numbers(problem)}
    assert shared not in {key for problem in (*first, *second) for key in numbers(problem)}
    assert len({problem.scene for problem in other}) == 1
    assert [problem.family for problem in other] == [2] * 4
    cast = max((problem.story.people for problem in other), key=len)
    assert all(problem.story.people == cast[: len(problem.story.people)] for problem in other)
    assert not list(faults(revised, asked))


def test_a_family_in_another_order_is_still_about_the_same_people() -> None:
    for seed in range(4):
        asked = request("fact families", seed)
        revised = changed(asked, "down-5", "down-6", "swap-5")
        assert done(revised), revised.notes
        other = fours(revised)[1]
        cast = max((problem.story.people for problem in other), key=len)
        assert all(one.story.people == cast[: len(one.story.people)] for one in other)
        assert len({key for problem in other for key in numbers(problem)}) == 1


def test_a_family_that_is_torn_apart_is_not_swapped() -> None:
    asked = request("fact families")
    revised = changed(asked, "down-4", "swap-1")
    assert revised.notes == (
        "swap-1 was not done: the four stories of a fact family are swapped together, and here "
        "they do not stand together any more. Undo what was moved or removed first.",
    )
    assert [one.family for one in revised.problem_set.problems] == [1, 1, 1, 2, 1, 2, 2, 2]
    assert not list(faults(revised, asked))
    removed = changed(asked, "remove-1", "remove-1", "remove-1", "remove-1", "swap-2")
    assert done(removed) and [one.family for one in removed.problem_set.problems] == [1] * 4
    assert changed(asked, "more").notes == (
        "more was not done: fact families come in fours. Ask for a larger count instead.",
    )


def test_stories_are_moved_and_removed_and_more_are_told() -> None:
    asked = request("any")
    before = revise(asked).problem_set.problems
    moved = changed(asked, "down-1", "up-3").problem_set.problems
    assert moved == (before[1], before[2], before[0], *before[3:])
    removed = changed(asked, "remove-2", "remove-2").problem_set.problems
    assert removed == (before[0], *before[3:])
    more = changed(asked, "more", "more").problem_set.problems
    assert more[:8] == before and len(more) == 10
    assert changed(asked, "up-1", "down-8", "swap-9", "remove-100").notes == (
        "up-1 was not done: it is the first story already.",
        "down-8 was not done: it is the last story already.",
        "swap-9 was not done: there is no story 9, the last one is 8.",
        "remove-100 was not done: there is no story 100, the last one is 8.",
    )


def test_the_last_story_stays() -> None:
    revised = changed(request("any", count=2), "remove-1", "remove-1")
    assert len(revised.problem_set.problems) == 1
    assert revised.notes == (
        "remove-1 was not done: it is the only story that is left. Swap it instead.",
    )


def test_some_are_renewed_though_others_cannot_be() -> None:
    asked = Request(within=5, situation=["whole-unknown", "part-unknown"], count=2, seed=1)
    before = revise(asked).problem_set.problems
    revised = changed(asked, "renew-1-2")
    assert done(revised)
    after = revised.problem_set.problems
    assert all(one.text != other.text for one, other in zip(before, after, strict=True))
