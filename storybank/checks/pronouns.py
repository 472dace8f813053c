"""Every pronoun has exactly one candidate before it, and the pack allows pronouns at all."""

from collections.abc import Iterator
from functools import cache

from storybank.checks import _closed, _spoiling
from storybank.checks._context import Context
from storybank.checks._line import NAMES, Line
from storybank.checks._reading import Reading, once
from storybank.checks._rules import Fault, Rules
from storybank.checks._shape import Shape, judged
from storybank.model import Problem

TITLE = "Clear pronouns"


def faults(shape: Shape) -> Iterator[Fault]:
    """A fault for each pronoun that the pack forbids or that could mean nobody or two."""
    seen: list[str | None] = []
    for at, read in enumerate(shape.told):
        for place in once(_people, read, shape.rules):
            token = read.line.tokens[place]
            if token.has("name"):
                _note(seen, read.line, place, shape)
            elif token.low in _never():
                yield at, (f'"{token.text}" could mean several people or things. Name them again.')
            for pronoun, words in _own().items():
                if token.low in words:
                    yield from ((at, text) for text in _unclear(shape, seen, pronoun, token.text))
    for token in shape.answer.tokens:
        if token.has("pro"):
            yield len(shape.sentences), f'"{token.text}": the answer names people and things.'


@cache
def _own() -> dict[str, frozenset[str]]:
    return {"he": _closed.words("pronouns_he"), "she": _closed.words("pronouns_she")}


@cache
def _never() -> frozenset[str]:
    return _closed.words("pronouns_many") | _closed.words("pronouns_it")


def _people(read: Reading, rules: Rules) -> tuple[int, ...]:
    """Where people are named in a sentence, or a pronoun stands."""
    said = _never().union(*_own().values())
    tokens = enumerate(read.line.tokens)
    return tuple([at for at, token in tokens if token.has("name") or token.low in said])


def _note(seen: list[str | None], line: Line, place: int, shape: Shape) -> None:
    """Adds a person to those named so far, as `name:pronoun`."""
    which = NAMES.index(line.tokens[place].text)
    pronoun = shape.pronouns[which] if which < len(shape.pronouns) else None
    entry = f"{which}:{pronoun}"
    if entry not in seen:
        seen.append(entry)


def _unclear(shape: Shape, seen: list[str | None], pronoun: str, text: str) -> Iterator[str]:
    allowed = shape.vocabulary.pronouns
    if allowed == "none":
        yield f'"{text}": this level has no pronouns. Repeat the name.'
        return
    fitting = [one for one in seen if one is not None and one.endswith(f":{pronoun}")]
    if allowed == "one-person" and len(seen) != 1:
        yield f'"{text}" may be used at this level only while one person has been named.'
    if len(fitting) != 1:
        yield (
            f'"{text}" has {len(fitting)} people before it that it could mean; it needs exactly '
            "one. Repeat the name."
        )


def judge(problem: Problem, context: Context) -> list[str]:
    """Which pronouns of a problem are forbidden or unclear."""
    return judged(faults, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with a pronoun of nobody, of many, and one in the answer."""
    name = problem.story.people[0] if problem.story.people else "nobody here"
    return [
        *_spoiling.retold(problem, f"^{name}", "He"),
        *_spoiling.retold(problem, r"\bShe\b|\bshe\b", "he"),
        *_spoiling.reasked(problem, name, "they"),
        *_spoiling.with_answer(problem, f"^{name}", "She"),
    ]
