"""The answer sentence answers the question: the same thing, people and verb, and one number."""

from collections.abc import Iterator

from storybank.checks import _closed, _grammar, _spoiling
from storybank.checks._context import Context
from storybank.checks._line import Line
from storybank.checks._reading import Reading, once
from storybank.checks._rules import Fault, Rules
from storybank.checks._shape import Shape, judged
from storybank.model import Problem

TITLE = "The answer sentence"
_KEPT = frozenset({"have", "start", "more", "fewer"})


def faults(shape: Shape) -> Iterator[Fault]:
    """A fault for each way in which the answer sentence does not fit the question."""
    at = len(shape.sentences)
    answer = shape.answer
    numbers = [place for place, token in enumerate(answer.tokens) if token.has("num")]
    if len(numbers) != shape.questions:
        yield at, f"{len(numbers)} numbers stand in it; it needs {shape.questions}."
        return
    rules = shape.rules
    asked = [once(_content, read, rules) for read in shape.told[-shape.questions :]]
    said = once(_content, shape.readings[at], rules)
    wanted = {word for words in asked for word in words}
    counted: set[str] = set()
    measured: set[str] = set()
    for place, line in zip(numbers, shape.asking, strict=True):
        many = line.lows.index("many") if "many" in line.lows else len(line.tokens)
        thing, other = _thing(shape, answer, place), _thing(shape, line, many)
        if many == len(line.tokens) and line.can(1, "dim") and answer.can(place + 1, "unit"):
            measured.add(thing)
            continue
        if thing not in (other, _complement(shape, line)):
            yield at, "its number counts another thing than the question asks for."
        counted |= {other} if thing != other else set()
    for word in sorted(wanted - set(said) - counted):
        yield at, f'the question says "{word}", and the answer does not.'
    for word in sorted(set(said) - wanted - measured):
        yield at, f'it says "{word}", and the question does not.'
    if shape.questions == 1:
        yield from ((at, text) for text in _same_order(shape))


def _same_order(shape: Shape) -> Iterator[str]:
    question, answer = shape.sentences[-1], shape.answer
    names = [token.text for token in question.tokens if token.has("name")]
    if [token.text for token in answer.tokens if token.has("name")] != names:
        yield "it names the people in another order than the question."
    if _behind_than(shape, -3) != _behind_than(shape, -2):
        yield 'behind "than" stands something else than in the question.'


def _behind_than(shape: Shape, which: int) -> set[str]:
    read = shape.readings[which]
    lows = read.line.lows
    return set(_content(read, shape.rules, lows.index("than"))) if "than" in lows else set()


def _thing(shape: Shape, line: Line, place: int) -> str:
    """The thing counted behind the number, or behind "many", at `place`."""
    head = _grammar.group_head(line, place + 1)
    if head is None:
        return ""
    low = line.tokens[head].low
    return shape.lexicon.singular.get(low, low)


def _complement(shape: Shape, line: Line) -> str:
    """The thing behind a form of "be": how many animals are fish is answered by 1 fish."""
    for at, token in enumerate(line.tokens):
        if token.has("be", "be0") and not line.can(at + 1, "p"):
            return _thing(shape, line, at)
    return ""


def _content(read: Reading, rules: Rules, start: int = 0) -> tuple[str, ...]:
    """The base forms of the words that mean something in a sentence, from `start` on."""
    line, lexicon = read.line, rules.lexicon
    verbs = [verb.at for verb in read.verbs]
    words = []
    for at, token in enumerate(line.tokens):
        if at < start or token.has("num", "mark"):
            continue
        if token.has("name"):
            words.append(token.text)
            continue
        low = token.low
        base = lexicon.base.get(low, low) if at in verbs else lexicon.singular.get(low, low)
        if base in _KEPT or (low not in _closed.tags() and not token.tags <= {"r", "p"}):
            words.append(base)
    return tuple(words)


def judge(problem: Problem, context: Context) -> list[str]:
    """Whether the answer sentence of a problem answers its question."""
    return judged(faults, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples without number, with two, about another thing, and about nobody."""
    people = problem.story.people
    samples = [
        *_spoiling.with_answer(problem, r"\d+", "some"),
        *_spoiling.with_answer(problem, r"(\d+ \w+)", r"\1 and \1"),
        *_spoiling.with_answer(problem, r"(\d+ (?:more |fewer |red |green )?)\w+", r"\1hens"),
        *_spoiling.with_answer(problem, r"\b(more|fewer) ", ""),
        *_spoiling.with_answer(problem, r"\b(has|had|have)\b", "picks"),
    ]
    if people:
        samples += _spoiling.with_answer(problem, people[0], "The hen")
    if len(people) == 2 and " than " in problem.story.answer_sentence:
        samples += _spoiling.with_answer(
            problem, rf"^({people[0]}|{people[1]})(.*) ({people[0]}|{people[1]})\.", r"\3\2 \1."
        )
    return samples
