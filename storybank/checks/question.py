"""The question asks "How many" of a thing, and for the number that the situation leaves open."""

from collections.abc import Iterator, Sequence

from storybank.checks import _closed, _spoiling
from storybank.checks._context import Context
from storybank.checks._line import Line
from storybank.checks._rules import Fault
from storybank.checks._shape import Shape, judged
from storybank.model import Problem
from storybank.model.measures import ADJECTIVES, COMPARING_LESS, COMPARING_MORE

TITLE = "The question"
_COMPARING = ("more", "fewer")


def faults(shape: Shape) -> Iterator[Fault]:
    """A fault for each question that does not ask for the unknown of its situation."""
    first = len(shape.statements)
    for at, line in enumerate(shape.sentences):
        asks = 0 if _how_long(line) else _how_many(line)
        if at < first:
            if asks is not None:
                yield at, "a question stands before the last sentence. Put it at the end."
            continue
        if asks is None:
            yield at, 'it must ask "How many" and name the thing.'
            continue
        if asks and shape.vocabulary.question_line == "own":
            yield at, 'at this level the question begins with "How many".'
        yield from ((at, text) for text in _asks_for(shape, line, asks))
    yield from ((-1, text) for text in _told(shape))


def _how_many(line: Line) -> int | None:
    """Where "how many" stands, or None."""
    lows = line.lows
    places = [at for at in range(len(lows) - 1) if lows[at : at + 2] == ("how", "many")]
    return places[0] if places else None


def _how_long(line: Line) -> bool:
    """Whether it asks how long, how tall or the like something is."""
    return line.low(0) == "how" and line.low(1) in ADJECTIVES and line.can(1, "dim")


def _asks_for(shape: Shape, line: Line, asks: int) -> Iterator[str]:
    situation = shape.situation
    word = line.low(asks + 2)
    said = word if word in _COMPARING else "none"
    if line.can(asks + 2, "unit") and situation.family == "compare":
        said = _compared(line, asks + 3)
    expected = [situation.wording if situation.unknown == "difference" else "none"]
    if situation.id == "join-change-unknown":
        bases = {shape.lexicon.base.get(low, low) for low in line.lows}
        expected = ["none", "more"]
        if shape.lexicon.goals & bases and "still" not in line.lows:
            expected = ["more"]
    if said not in expected:
        want = f'"How many {expected[0]}"' if expected[0] != "none" else '"How many" and the thing'
        yield f"the situation {situation.id} asks {want}."
    looks_back = not _closed.words("start_words").isdisjoint(line.lows)
    if (situation.unknown == "start") != looks_back:
        ask = "must" if situation.unknown == "start" else "must not"
        yield f"the situation {situation.id} {ask} ask what was there at first."


def _compared(line: Line, at: int) -> str:
    """How a word behind a unit compares: how many inches longer, how many dollars less."""
    if line.low(at) in COMPARING_MORE:
        return "more"
    return "fewer" if line.low(at) in COMPARING_LESS else "none"


def _told(shape: Shape) -> Iterator[str]:
    """A fault where a comparison is not told with its own word.

    The first of two steps may tell of more things, and then of fewer in the comparison.
    """
    situation = shape.situation
    if situation.family != "compare":
        return
    lines = shape.asking if situation.unknown == "difference" else shape.statements
    words = {low for line in lines for low in line.lows}
    if any(line.can(at, "unit") for line in lines for at in range(len(line.tokens))):
        yield from _told_of_amounts(shape, lines)
        return
    if situation.wording not in words or "than" not in words:
        yield f'the situation {situation.id} is told with "{situation.wording}" and "than".'
    other = _COMPARING[situation.wording == "more"]
    compared = [line for line in shape.sentences if not shape.further or "than" in line.lows]
    if other in {low for line in compared for low in line.lows}:
        yield f'"{other}" does not belong into the situation {situation.id}.'


def _told_of_amounts(shape: Shape, lines: Sequence[Line]) -> Iterator[str]:
    """A fault where amounts are not compared by longer, shorter, more, less and the like."""
    wanted = COMPARING_MORE if shape.situation.wording == "more" else COMPARING_LESS
    both = COMPARING_MORE & COMPARING_LESS
    other = (COMPARING_MORE | COMPARING_LESS) - wanted - both
    words = {low for line in lines for low in line.lows}
    if "than" not in words or words.isdisjoint(wanted):
        yield f'the situation {shape.situation.id} is told with "than" and a word as "longer".'
    if not words.isdisjoint(other):
        yield f"{', '.join(sorted(words & other))} compares the other way round."


def judge(problem: Problem, context: Context) -> list[str]:
    """Whether the question of a problem asks for its unknown."""
    return judged(faults, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples that ask for something else, that ask too early, or do not ask how many."""
    *told, question = problem.story.sentences
    return [
        *_spoiling.reasked(problem, "How many", "Which"),
        *_spoiling.reasked(problem, "How many more", "How many"),
        *_spoiling.reasked(problem, "How many (?!more|fewer)", "How many fewer "),
        *_spoiling.reasked(problem, " (at first|start with)", " now"),
        *_spoiling.reasked(problem, " (now|after that)", " at first"),
        *_spoiling.retold(problem, r"(\d+) more (.*) than", r"\1 fewer \2 than"),
        _spoiling.with_sentences(problem, (question, *told[1:], question)),
    ]
