"""How different the stories of one theme and situation are; 25 of 100 is our own design."""

import re

import pytest

from storybank import Request, make_set, situations, themes

NUMBER = re.compile(r"\d+")
STORIES, LEAST = 100, 25


def masked(theme: str, situation: str) -> list[str]:
    """A hundred stories of ordinary wording with numbers and names masked."""
    texts: list[str] = []
    for seed in range(STORIES):
        wish = Request(theme=[theme], situation=[situation], count=10, seed=seed, strategy=["any"])
        for problem in make_set(wish).problems:
            text = problem.text
            for name in problem.story.people:
                text = text.replace(name, "Name")
            texts.append(NUMBER.sub("0", text))
        if len(texts) >= STORIES:
            break
    return texts[:STORIES]


@pytest.mark.parametrize("theme", themes.ids())
def test_a_theme_tells_each_situation_in_many_ways(theme: str) -> None:
    for situation in situations.ids():
        texts = masked(theme, situation)
        assert len(texts) == STORIES
        assert len(set(texts)) >= LEAST, (situation, len(set(texts)))
