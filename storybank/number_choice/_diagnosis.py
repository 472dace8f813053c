"""How well a pair tells the known mistakes apart, for sets made to diagnose."""

from functools import lru_cache

from storybank import mistakes, situations, strategies
from storybank.mistakes import Case
from storybank.model import Form, Triple


@lru_cache(maxsize=1 << 16)
def tier_of(
    name: str, form: Form, situation: str, limit: int, keywords: tuple[str, ...], a: int, b: int
) -> int:
    """0 for a good pair, 1 where a wrong answer is one away from the right one, else 2.

    2 says that its mistakes are not told apart, or that the strategy cannot be carried out.
    """
    story = situations.get(situation)
    solution = strategies.get(name).solve(form, a, b, limit)
    if solution is None:
        return 2
    if form is Form.ADD:
        triple, answer = Triple(a, b, a + b), a + b
    else:
        answer = a - b
        first_unknown = story.unknown == story.roles[0]
        triple = Triple(answer, b, a) if first_unknown else Triple(b, answer, a)
    case = Case(story, triple, name, form, solution, answer, (a, b), keywords)
    if not mistakes.told_apart(case):
        return 2
    wrong = mistakes.predictions(case)
    return int(answer - 1 in wrong or answer + 1 in wrong)
