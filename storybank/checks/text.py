"""The text is its sentences joined as promised, with the question last."""

from dataclasses import replace

from storybank.checks import _spoiling
from storybank.checks._context import Context
from storybank.model import Problem

TITLE = "The text"


def judge(problem: Problem, context: Context) -> list[str]:
    """What is wrong with how the sentences of a problem are joined.

    At levels whose question has its own line a newline stands before it, before the first of the
    two questions of both-parts-unknown; elsewhere one space joins.
    """
    story = problem.story
    questions = 2 if problem.unknown == "parts" and len(story.sentences) > 2 else 1
    told, asked = story.sentences[:-questions], story.sentences[-questions:]
    mark = "\n" if context.vocabulary.question_line == "own" else " "
    found = []
    if story.text != f"{' '.join(told)}{mark}{' '.join(asked)}":
        where = "a new line" if mark == "\n" else "a space"
        found.append(
            f'The text "{story.text}" is not its sentences joined by one space, with {where} '
            "before the question. Join them so."
        )
    if not all(one.endswith("?") for one in asked) or any("?" in one for one in told):
        found.append(f'In the text "{story.text}" the question must come last, and only there.')
    return found


def spoil(problem: Problem) -> list[Problem]:
    """Samples joined otherwise, with a sentence dropped, and with the question first."""
    story = problem.story
    swapped = story.text.replace("\n", " ") if "\n" in story.text else story.text + "\n"
    dropped = replace(story, text=" ".join(story.sentences[1:]))
    return [
        _spoiling.with_story(problem, replace(story, text=swapped)),
        _spoiling.with_story(problem, dropped),
        _spoiling.with_sentences(problem, (story.sentences[-1], *story.sentences[:-1])),
    ]
