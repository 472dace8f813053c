"""Sentences of changed stories through link-grammar, by the criterion of tests/language."""

from collections.abc import Callable

import pytest
from language.link_parser import judge
from language.test_link_grammar import _accepted

from storybank import Request, make_set, themes, vocabulary

NeedsProgram = Callable[[str], str]


@pytest.mark.parametrize("change", ["extra_number", "missing"])
@pytest.mark.parametrize("level", vocabulary.ids())
def test_sentences_are_grammatical(change: str, level: str, needs_program: NeedsProgram) -> None:
    told: list[str] = []
    for theme in themes.ids():
        wish = {change: True}
        made = make_set(
            Request(theme=[theme], vocabulary=level, strategy=["any"], count=8, seed=33, **wish)  # type: ignore[arg-type]
        )
        for problem in made.problems:
            names = dict(zip(problem.story.people, ("Ada", "Ben"), strict=False))
            sentences = list(problem.story.sentences)
            if problem.missing:
                sentences.append(problem.missing.ask)
            for sentence in sentences:
                for name, instead in names.items():
                    sentence = sentence.replace(name, instead)
                told.append(sentence)
    assert len(set(told)) > 150
    verdicts = judge(needs_program("link-parser"), told)
    bad = [one for one, verdict in verdicts.items() if not verdict.good and not _accepted(one)]
    assert not bad, "\n".join(bad)
