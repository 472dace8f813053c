"""Sentences of two steps and of sums through link-grammar (Sleator & Temperley 1991).

Names are replaced first: link-grammar takes "Tala" for a sum of money.
"""

import re
from collections.abc import Callable

import pytest
from language.link_parser import judge

from storybank import Request, make_set, vocabulary
from storybank.model import Problem

ACCEPTED = re.compile(
    r"\b(birdhouse|clothespin|pinecone|pinwheel|sailboat|beanbag)s?\b|\bshelves\b|\btea bags?\b"
)
"""Words that the dictionary does not know; see tests/language/test_link_grammar.py."""


def sentences(problem: Problem) -> list[str]:
    told = [*problem.story.sentences, problem.story.answer_sentence]
    for name, other in zip(problem.story.people, ("Ada", "Ben"), strict=False):
        told = [re.sub(rf"\b{name}\b", other, one) for one in told]
    return told


@pytest.mark.parametrize("level", vocabulary.ids())
def test_every_sentence_is_grammatical(level: str, needs_program: Callable[[str], str]) -> None:
    wishes = [Request(steps=2, vocabulary=level, count=30, seed=seed) for seed in (31, 32, 33)]
    wishes += [Request(addends=n, vocabulary=level, count=15, seed=34) for n in (3, 4)]
    made = [one for wish in wishes for one in make_set(wish).problems]
    told = dict.fromkeys(sentence for one in made for sentence in sentences(one))
    verdicts = judge(needs_program("link-parser"), told)
    bad = [one for one, said in verdicts.items() if not said.good and not ACCEPTED.search(one)]
    assert len(verdicts) > 200
    assert not bad, "\n".join(bad)
