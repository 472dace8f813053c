"""Room for what a story tells besides: a number that is not needed, a further step."""

from dataclasses import replace
from functools import lru_cache

from storybank.vocabulary._pack import Vocabulary

SENTENCES, WORDS = 1, 8
"""Our own design: a fact more is a sentence more, as long as level 1 allows a sentence to be."""


@lru_cache(maxsize=256)
def with_one_more_sentence(pack: Vocabulary) -> Vocabulary:
    """The pack with room for one sentence more in a story; every other limit stays.

    The same pack gives the same object.
    """
    return replace(pack, sentences=pack.sentences + SENTENCES, words=pack.words + WORDS)
