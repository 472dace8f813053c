"""Ways to spoil a good problem, from which each check makes the samples it must catch."""

import re
from dataclasses import replace

from storybank.model import Problem, Story


def retold(problem: Problem, pattern: str, instead: str) -> list[Problem]:
    """The problem with the first match of `pattern` in its sentences replaced; [] for no match."""
    sentences = list(problem.story.sentences)
    for at, sentence in enumerate(sentences):
        changed = re.sub(pattern, instead, sentence, count=1)
        if changed != sentence:
            sentences[at] = changed
            return [with_sentences(problem, tuple(sentences))]
    return []


def reasked(problem: Problem, pattern: str, instead: str) -> list[Problem]:
    """As `retold`, in the question only."""
    *told, question = problem.story.sentences
    changed = re.sub(pattern, instead, question, count=1)
    return [with_sentences(problem, (*told, changed))] if changed != question else []


def with_sentences(problem: Problem, sentences: tuple[str, ...]) -> Problem:
    """The problem with other sentences, its text joined as before."""
    story = problem.story
    questions = 2 if problem.unknown == "parts" else 1
    told, asked = " ".join(sentences[:-questions]), " ".join(sentences[-questions:])
    mark = "\n" if "\n" in story.text else " "
    return with_story(problem, replace(story, sentences=sentences, text=f"{told}{mark}{asked}"))


def with_answer(problem: Problem, pattern: str, instead: str) -> list[Problem]:
    """The problem with the first match in its answer sentence replaced; [] for no match."""
    before = problem.story.answer_sentence
    after = re.sub(pattern, instead, before, count=1)
    if after == before:
        return []
    return [with_story(problem, replace(problem.story, answer_sentence=after))]


def with_frame(problem: Problem, pattern: str, instead: str) -> list[Problem]:
    """The problem with the first match in its answer frame replaced; [] for no match."""
    before = problem.story.answer_frame
    after = re.sub(pattern, instead, before, count=1)
    return (
        [with_story(problem, replace(problem.story, answer_frame=after))] if after != before else []
    )


def with_story(problem: Problem, story: Story) -> Problem:
    """The problem with another story."""
    return replace(problem, story=story)
