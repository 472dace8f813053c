"""Every sentence pattern of tellings and packs through link-grammar (Sleator & Temperley 1991).

The criterion, every word linked and the cost of the best linkage at most 5, told faulty from good
problems best when measured on 320 good and 524 spoiled ones. Link-grammar is blind to tense
mixes, to who a pronoun means and to capitals; other tests look at those.
"""

import re
from collections.abc import Callable, Iterator
from itertools import islice

import pytest
from language.link_parser import judge
from language.told import nouns, patterns, sentences, siblings

from storybank import themes

NeedsProgram = Callable[[str], str]

ACCEPTED = {
    r"\b(birdhouse|clothespin|pinecone|pinwheel|sailboat)s?\b": "no words of the dictionary; as "
    "guessed nouns they cost a point more",
    r"\bshelves\b": "the dictionary has shelves as a verb only, not as the plural of shelf",
    r"\btea bags?\b": "the dictionary has bag as a verb and a measure, not as a thing; it costs a "
    "point more",
}


def _accepted(sentence: str) -> bool:
    return any(re.search(pattern, sentence) for pattern in ACCEPTED)


def _instead_of_accepted(theme_id: str) -> Iterator[str]:
    """For each pattern told by an accepted exception, a sentence of it that is none, if any.

    So a word that link-grammar does not know hides no fault of the pattern it stands in.
    """
    for pattern, sentence in patterns(theme_id).items():
        if _accepted(sentence):
            others = (one for one, _ in siblings(theme_id)[pattern] if not _accepted(one))
            yield from islice(others, 1)


@pytest.mark.parametrize("theme_id", themes.ids())
def test_every_sentence_pattern_is_grammatical(theme_id: str, needs_program: NeedsProgram) -> None:
    told = [*patterns(theme_id).values(), *_instead_of_accepted(theme_id)]
    verdicts = judge(needs_program("link-parser"), told)
    bad = {
        sentence: verdict
        for sentence, verdict in verdicts.items()
        if not verdict.good and not _accepted(sentence)
    }
    assert not bad, f"{len(bad)} of {len(verdicts)} patterns:\n" + "\n".join(
        f"UNUSED={verdict.unused} DIS={verdict.cost}: {sentence}"
        for sentence, verdict in list(bad.items())[:40]
    )


@pytest.mark.parametrize("theme_id", themes.ids())
def test_every_noun_stands_in_a_sentence_that_is_checked(theme_id: str) -> None:
    text = "\n".join(patterns(theme_id).values())
    plurals = [noun for noun, shape in nouns(theme_id).items() if shape.endswith("S")]
    assert [noun for noun in plurals if not re.search(rf"\b{re.escape(noun)}\b", text)] == []


def test_at_most_ten_exceptions_and_all_still_needed(needs_program: NeedsProgram) -> None:
    assert len(ACCEPTED) <= 10
    told = (sentence for theme_id in themes.ids() for sentence in sentences(theme_id))
    verdicts = judge(needs_program("link-parser"), filter(_accepted, told))
    refused = [sentence for sentence, verdict in verdicts.items() if not verdict.good]
    needless = [
        pattern
        for pattern in ACCEPTED
        if not any(
            re.search(pattern, sentence)
            and not any(re.search(other, sentence) for other in ACCEPTED if other != pattern)
            for sentence in refused
        )
    ]
    assert needless == []
