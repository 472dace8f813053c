"""At most two people, each named in the text; names of our own list short and unlike."""

import re
from collections.abc import Sequence
from dataclasses import replace

from storybank.checks._context import Context
from storybank.model import Problem
from storybank.vocabulary.names import replacing

TITLE = "People"
_TWICE = 2
_ONE, _OTHER = "\0a", "\0b"
_MEETING = re.compile("\0a and \0a|\0a.* (?:than|to) \0a")


def judge(problem: Problem, context: Context) -> list[str]:
    """What is wrong with the people of a problem."""
    people = problem.story.people
    text = problem.story.text
    found = []
    if len(people) > 2 or len(set(people)) != len(people):
        found.append(f"The people are {', '.join(people)}; a problem has at most two, unlike.")
    for name in people:
        if not name or name not in text:
            found.append(f'"{name}" is listed among the people and not named in "{text}".')
        elif context.names_are_listed and len(name) > context.vocabulary.name_letters:
            found.append(
                f'The name "{name}" has {len(name)} letters; this level allows '
                f"{context.vocabulary.name_letters}. Take a shorter one."
            )
    for name in people:
        if any(_meets(sentence, name, people) for sentence in problem.story.sentences):
            found.append(f'"{name}" is told together or compared with the same person in "{text}".')
    if context.names_are_listed and len(people) == 2 and people[0][:1] == people[1][:1]:
        found.append(f'The names "{people[0]}" and "{people[1]}" begin alike. Change one.')
    return found


def _meets(sentence: str, name: str, people: Sequence[str]) -> bool:
    """Whether somebody of that name is joined, compared or given to the same person."""
    if not name or sentence.count(name) < _TWICE:
        return False
    say = replacing({one: _ONE if one == name else _OTHER for one in people})
    return _MEETING.search(say(sentence)) is not None


def spoil(problem: Problem) -> list[Problem]:
    """Samples with a person who is not told of, three people, a long name and alike initials."""
    story = problem.story
    samples = [(*story.people, "Ulla"), ("Ulla", "Veit", "Wim")]
    made = [replace(problem, story=replace(story, people=people)) for people in samples]
    for at, name in enumerate(story.people):
        for other in ("Wilhelmina", story.people[at - 1][:1] + "zu"):
            if other[0] == name[0] or " " in name:
                continue
            people = tuple(other if one == name else one for one in story.people)
            text = story.text.replace(name, other)
            if other == "Wilhelmina" or len(people) == 2:
                made.append(replace(problem, story=replace(story, people=people, text=text)))
    if len(story.people) == 2:
        one, other = story.people
        alone = tuple(sentence.replace(other, one) for sentence in story.sentences)
        if any(_meets(sentence, one, (one,)) for sentence in alone):
            made.append(replace(problem, story=replace(story, sentences=alone)))
    return made
