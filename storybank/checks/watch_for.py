"""Answers to watch for are wrong, unlike each other, at least 0, and come from known mistakes."""

from dataclasses import replace

from storybank import mistakes
from storybank.checks._context import Context
from storybank.model import Problem, WatchFor

TITLE = "Answers to watch for"
_STOPPED = "stopped-after-step-one"


def judge(problem: Problem, context: Context) -> list[str]:
    """What is wrong with the answers to watch for of a problem."""
    entries = problem.watch_for
    if isinstance(problem.answer, tuple):
        return ["All pairs are asked for, so no answer is watched for."] if entries else []
    found = []
    known = mistakes.ids()
    for entry in entries:
        if entry.answer == problem.answer:
            found.append(f"{entry.answer} is the right answer and not one to watch for.")
        if entry.answer < 0:
            found.append(f"The answer to watch for {entry.answer} is below 0; leave it out.")
        names = entry.mistakes
        if not names or len(set(names)) != len(names) or any(one not in known for one in names):
            found.append(
                f"The mistakes behind {entry.answer} are {', '.join(names) or 'none'}; each must "
                f"be one of {', '.join(known)}, once."
            )
        if not entry.says:
            found.append(f"Nothing is said about the answer to watch for {entry.answer}.")
    stopped = [entry.answer for entry in entries if _STOPPED in entry.mistakes]
    if stopped != ([] if problem.hidden is None else [problem.hidden]):
        found.append(f"{_STOPPED} gives {stopped}; the number between steps is {problem.hidden}.")
    answers = [entry.answer for entry in entries]
    if len(set(answers)) != len(answers):
        found.append(f"An answer to watch for stands twice in {answers}; join the entries.")
    return found


def spoil(problem: Problem) -> list[Problem]:
    """Samples with the right answer, one below 0, the same twice, unknown or no mistakes."""
    answer = problem.answer if isinstance(problem.answer, int) else 0
    name = mistakes.ids()[0]
    good = WatchFor(answer + 7, (name,), "Counted on too far.")
    changed = (
        (replace(good, answer=answer),),
        (replace(good, answer=-1),),
        (good, replace(good, says="Counted on.")),
        (replace(good, mistakes=("slept",)),),
        (replace(good, mistakes=()),),
        (replace(good, mistakes=(name, name)),),
        (replace(good, says=""),),
    )
    samples = [replace(problem, watch_for=one) for one in changed]
    stopped = replace(good, answer=answer + 70, mistakes=(_STOPPED,))
    return [*samples, replace(problem, watch_for=(stopped,))]
