"""What is printed beside a story is what the vocabulary pack says, and nothing else."""

import re
from dataclasses import replace

import pytest
from documents import samples

from storybank import vocabulary
from storybank.documents import Layout, kinds
from storybank.documents._page import Paragraph, Picture, Table
from storybank.documents._support import bar
from storybank.drawings import NORMAL
from storybank.model import Problem

BY_CODE = {one.code: one for one in samples.PROBLEMS}


def told_with(pack: str, code: str) -> Problem:
    """A sample problem with word bank and talk frames, in a vocabulary pack."""
    problem = BY_CODE[code]
    story = replace(
        problem.story,
        word_bank=samples.WORDS,
        talk_frames=samples.FRAMES,
        support=vocabulary.get(pack).support,
    )
    return replace(problem, vocabulary=pack, story=story)


def printed(problem: Problem) -> set[str]:
    """The kinds of support on the page of one problem."""
    one = replace(samples.sample_set(), problems=(problem,))
    blocks = list(kinds.page("student", one, Layout()).flat())
    tables = [block for block in blocks if isinstance(block, Table)]
    texts = [block.text for block in blocks if isinstance(block, Paragraph)]
    alts = [block.drawing.alt for block in blocks if isinstance(block, Picture)]
    answer = next(block.text for block in blocks
                  if isinstance(block, Paragraph) and block.lead == "Answer:")  # fmt: skip
    cells = {cell for table in tables for row in (table.header, *table.rows) for cell in row}
    frame = problem.story.answer_frame
    found = {
        "word-bank": bool(tables),
        "pictures": any(word.picture and f"{word.picture} {word.word}" in cells
                        for word in samples.WORDS),
        "my-word": "My word" in cells,
        "cognates": "Espa\u00f1ol" in cells,
        "talk-frames": set(samples.FRAMES) <= {re.sub("_{3,}", "___", one) for one in texts},
        "bar": any(alt.startswith("Bar diagram") for alt in alts),
        "started-line": any("placed on it" in alt for alt in alts),
        "answer-frame": answer == frame.replace("___", "_" * 8),
        "sentence-starter": answer == f"{frame.partition('___')[0].strip()} {'_' * 12}",
    }  # fmt: skip
    return {kind for kind, there in found.items() if there}


@pytest.mark.parametrize("pack", vocabulary.ids())
@pytest.mark.parametrize("code", ["V3ZK", "D2KR", "X5CM", "F4MT"])
def test_a_page_prints_the_support_of_its_pack(pack: str, code: str) -> None:
    wanted = set(vocabulary.get(pack).support)
    if code == "D2KR":  # Its frame begins with the blank: there is no beginning to print.
        wanted.discard("sentence-starter")
    assert printed(told_with(pack, code)) == wanted


def test_the_first_pack_supports_and_the_last_does_not() -> None:
    assert len(printed(told_with("level-1", "V3ZK"))) >= 7
    assert printed(told_with("level-4", "V3ZK")) == set()


def test_only_parts_and_comparisons_have_a_bar() -> None:
    with_bar = {one.situation for one in samples.PROBLEMS if bar(one, NORMAL) is not None}
    assert with_bar == {
        "whole-unknown", "compare-difference-unknown-fewer", "compare-bigger-unknown-fewer",
        "part-unknown", "compare-smaller-unknown-more",
    }  # fmt: skip
