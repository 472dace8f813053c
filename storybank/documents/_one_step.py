"""The one-step problems of a set, each with one equation that follows its story."""

from storybank.model import Problem, ProblemSet

NONE_HERE = "No story of this set is told by one equation with one number to find."


def one_step(problem_set: ProblemSet) -> tuple[tuple[int, Problem], ...]:
    """The problems that tell two numbers and ask for one, each with its number in the set."""
    return tuple(
        (number, one)
        for number, one in enumerate(problem_set.problems, start=1)
        if isinstance(one.answer, int) and len(one.story.given) == 2
    )
