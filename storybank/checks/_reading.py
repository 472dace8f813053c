"""A sentence as it is read once for all stories in which it stands, with what was found in it.

Whether a sentence by itself is good English hangs on its pattern only: the words of the closed
lists, and of every other word its tags, its capitals and its first sound. A pattern without a
fault is remembered; a sentence of any other pattern is judged word by word.
"""

import itertools
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from typing import Any, TypeVar

from storybank.checks import _grammar
from storybank.checks._grammar import Verb
from storybank.checks._line import Line, read_line
from storybank.checks._rules import Rules

STATEMENT, QUESTION, ANSWER, FRAME = "statement", "question", "answer", "frame"
TOLD = (STATEMENT, QUESTION)
TOLD_AND_ANSWERED = (STATEMENT, QUESTION, ANSWER)
EVERYWHERE = (STATEMENT, QUESTION, ANSWER, FRAME)
_MOST = 1_000
"""So many sentences of a theme and level are kept as they were read: most come back soon."""
_MOST_PATTERNS = 20_000
_Found = TypeVar("_Found")


@dataclass(slots=True, eq=False)
class Reading:
    """A sentence, which part of the story it is, and its verbs (of a frame none).

    `faults`, by check, are None until the sentence is judged; `known` keeps what the checks of
    whole stories work out about it.
    """

    line: Line
    part: str
    verbs: tuple[Verb, ...]
    faults: tuple[tuple[str, str], ...] | None = None
    known: dict[object, Any] = field(default_factory=dict)


LineFinder = Callable[[Reading, Rules], Iterable[str]]


def reading(text: str, part: str, rules: Rules) -> Reading:
    """The sentence `text`, names and numbers masked, read as that part of a story."""
    key = (text, part)
    known: Reading | None = rules.readings.get(key)
    if known is not None:
        return known
    line = read_line(text, part == QUESTION, rules.lexicon)
    made = Reading(line, part, _verbs(line, rules) if part != FRAME else ())
    if len(rules.readings) >= _MOST:
        rules.readings.clear()
    rules.readings[key] = made
    return made


def faults_in(
    read: Reading, finders: Sequence[tuple[str, tuple[str, ...], LineFinder]], rules: Rules
) -> tuple[tuple[str, str], ...]:
    """What the finders, each with its name and parts, find in a sentence; remembered."""
    if read.faults is None:
        pattern = _pattern(read)
        faultless = rules.patterns.faultless
        if pattern in faultless:
            read.faults = ()
            return read.faults
        read.faults = tuple(
            [
                (name, fault)
                for name, parts, finder in finders
                if read.part in parts
                for fault in finder(read, rules)
            ]
        )
        if pattern is not None and not read.faults:
            if len(faultless) >= _MOST_PATTERNS:
                faultless.clear()
            faultless.add(pattern)
    return read.faults


def once(work: Callable[[Reading, Rules], _Found], read: Reading, rules: Rules) -> _Found:
    """What `work` gives for a sentence; worked out once."""
    if work not in read.known:
        read.known[work] = work(read, rules)
    found: _Found = read.known[work]
    return found


def _verbs(line: Line, rules: Rules) -> tuple[Verb, ...]:
    patterns = rules.patterns.verbs
    known: tuple[Verb, ...] | None = patterns.get(line.kinds)
    if known is None:
        known = _grammar.verbs(line)
        if len(patterns) >= _MOST_PATTERNS:
            patterns.clear()
        patterns[line.kinds] = known
    return known


def _pattern(read: Reading) -> object:
    """Everything that the faults of a sentence depend on; None where its spaces matter too."""
    line = read.line
    spaced = " ".join([token.text for token in line.tokens])
    if spaced.replace(" .", ".").replace(" ,", ",").replace(" ?", "?") != line.text:
        return None
    words = " ".join(line.lows).split()
    doubled = any(one == other for one, other in itertools.pairwise(words))
    return line.kinds, read.part, doubled
