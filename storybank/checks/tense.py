"""One tense in a story, and one that the vocabulary pack allows."""

from collections.abc import Iterator

from storybank.checks import _spoiling
from storybank.checks._context import Context
from storybank.checks._grammar import ANY, PAST, Verb
from storybank.checks._rules import Fault
from storybank.checks._shape import Shape, judged
from storybank.model import Problem

TITLE = "One tense"
_LOOKS_BACK = ("start", "change")


def faults(shape: Shape) -> Iterator[Fault]:
    """A fault for each verb that leaves the tense of the story."""
    pack = shape.vocabulary
    told = shape.verbs[: len(shape.statements)]
    tenses = [verb.tense for found in told for verb in found if verb.finite and verb.tense != ANY]
    story = tenses[0] if tenses else ""
    allowed = {*pack.tenses, "present"} if shape.situation.both_parts else {*pack.tenses}
    if story and story not in allowed:
        yield -1, f"it is told in the {story}; this level allows {', '.join(pack.tenses)}."
    asked = ""
    for at, found in enumerate(shape.verbs):
        for verb in found:
            if not verb.finite or verb.tense in (ANY, story) or not story:
                continue
            word = shape.readings[at].line.tokens[verb.at]
            if at >= len(shape.statements) and _may_look_back(shape, verb, word.low, asked):
                asked = PAST
                continue
            yield at, f'"{word.text}" is {verb.tense}, and the story is told in the {story}.'
    yield from _answer(shape)


def _may_look_back(shape: Shape, verb: Verb, low: str, asked: str) -> bool:
    """Whether a question, or its answer, may ask in the past about what was in the present."""
    unknown = shape.situation.unknown
    if verb.tense != PAST or unknown not in _LOOKS_BACK:
        return False
    return asked == PAST or unknown == "change" or low in shape.vocabulary.past_in_question


def _answer(shape: Shape) -> Iterator[Fault]:
    """A fault where the answer is given in another tense than the question asks in."""
    asked = [verb.tense for verb in shape.verbs[-2] if verb.finite and verb.tense != ANY]
    said = [verb.tense for verb in shape.verbs[-1] if verb.finite and verb.tense != ANY]
    if asked and said and asked[0] != said[0]:
        yield len(shape.sentences), f"it is {said[0]}, and the question is {asked[0]}."


def judge(problem: Problem, context: Context) -> list[str]:
    """Which verbs of a problem leave its tense."""
    return judged(faults, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with one verb in another tense, in a statement, the question and the answer."""
    swaps = ((r"\bhas\b", "had"), (r"\bhad\b", "has"), (r"\bare\b", "were"), (r"\bwere\b", "are"))
    found = [one for old, new in swaps for one in _spoiling.retold(problem, old, new)]
    found += [one for old, new in swaps for one in _spoiling.with_answer(problem, old, new)]
    if problem.unknown not in _LOOKS_BACK:
        found += _spoiling.reasked(problem, r"\b(does|do)\b", "did")
    return found
