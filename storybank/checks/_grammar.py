"""A small grammar of story sentences: noun groups, verbs, their subjects and their tense."""

from collections.abc import Iterator
from dataclasses import dataclass

from storybank.checks._line import Line, Token

_SINGULAR_PRONOUNS = frozenset({"he", "she", "it"})
_INSIDE = ("adj", "x", "m", "n1", "n", "q")
_STARTS = ("d", "d1", "dm", "num")
_GLUE = ("c", "mark")
PRESENT, PAST, ANY = "present", "past", "any"


@dataclass(frozen=True, slots=True)
class Verb:
    """A verb of a sentence.

    `at` is where it stands; `subject` is one, many, any, or empty where nobody does it; `tense`
    present, past or any; `finite` is false for the base form behind do, does, did, could, and for
    participles.
    """

    at: int
    subject: str
    tense: str
    finite: bool
    passive: bool = False
    after: int | None = None


def group_start(line: Line, head: int) -> int:
    """Where the noun group begins whose last word stands at `head`."""
    start = head
    while start > 0:
        before = line.tokens[start - 1]
        if before.has(*_STARTS) or before.low == "many":
            return start - 1
        if not before.has(*_INSIDE) or (before.verb and not before.has("adj", "m", "n1", "n", "q")):
            return start
        start -= 1
    return start


def group_head(line: Line, start: int) -> int | None:
    """Where the head noun stands of the group whose first word is at `start`, or None.

    The head is the last of a run of adjectives and nouns; a run ends with its first plural.
    """
    head = None
    for at in range(start, len(line.tokens)):
        token = line.tokens[at]
        if token.noun:
            head = at
            if token.has("n2") and not token.has("n1"):
                break
            following = line.tokens[at + 1] if at + 1 < len(line.tokens) else None
            if following is None or not following.has("adj", "n1", "n2", "n"):
                break
            if following.verb and not token.has("adj") and not following.has("n2"):
                break
        elif not token.has("adj", "x", "m", "q") or (token.verb and not token.has("adj", "q")):
            break
    return head


def number_of(line: Line, start: int, head: int) -> str:
    """Whether the group from `start` to `head` is one, many, or may be any."""
    first, noun = line.tokens[start], line.tokens[head]
    if first.has("one", "d1"):
        return "one"
    if first.has("many#", "dm") or first.low == "many":
        return "many"
    if noun.has("n") or noun.has("n1") == noun.has("n2"):
        return "any"
    return "one" if noun.has("n1") else "many"


def subject(line: Line, verb: int) -> str:
    """Who does what the verb at `verb` says: one, many, any; empty where nobody is found."""
    at = verb - 1
    while at >= 0 and line.can(at, "r") and not line.tokens[at].noun:
        at -= 1
    return _subject_ending(line, at)


def _subject_ending(line: Line, at: int) -> str:
    if at < 0:
        return ""
    token = line.tokens[at]
    if token.has("name"):
        return "many" if line.low(at - 1) == "and" and line.can(at - 2, "name") else "one"
    if at == 0 and token.low == "that":
        return "one"
    if token.has("pro"):
        return "one" if token.low in _SINGULAR_PRONOUNS else "many"
    if token.low == "there":
        return "there"
    if not token.noun:
        return ""
    start = group_start(line, at)
    if line.low(start - 1) == "of" and line.can(start - 2, "num"):
        return "one" if line.can(start - 2, "one") else "many"
    if line.can(start - 1, "p") and start >= 2 and line.tokens[start - 2].noun:
        return _subject_ending(line, start - 2)
    if line.low(start - 1) == "and" and line.can(start - 2, "name", "n1", "n2", "n"):
        return "many"
    return number_of(line, start, at)


def subject_after(line: Line, at: int) -> tuple[str, int]:
    """The subject that begins at `at`, as behind do: its number, and where it ends."""
    if line.can(at, "name"):
        if line.low(at + 1) == "and" and line.can(at + 2, "name"):
            return "many", at + 3
        return "one", at + 1
    if line.can(at, "pro"):
        return ("one" if line.low(at) in _SINGULAR_PRONOUNS else "many"), at + 1
    if line.low(at) == "there":
        return "there", at + 1
    head = group_head(line, at + 1 if line.can(at, *_STARTS) else at)
    if head is None:
        return "", at
    return number_of(line, at, head), head + 1


def verbs(line: Line) -> tuple[Verb, ...]:
    """The verbs of a sentence in order."""
    return tuple(_verbs(line))


def _verbs(line: Line) -> Iterator[Verb]:
    finite_seen = False
    skip = -1
    last = ""
    for at, token in enumerate(line.tokens):
        if token.has(*_GLUE):
            finite_seen = False
        if at == skip or not token.verb:
            continue
        if token.has("aux", "modal"):
            number, base = subject_after(line, at + 1)
            told = token.has("modal") and line.can(at + 1, "vb") and subject(line, at)
            if told or (not number and token.has("modal")):
                number, base = subject(line, at), at + 1
            if line.can(base, "r") and not line.tokens[base].verb:
                base += 1
            yield Verb(at, number, _tense(token, number), True)
            skip = base
            finite_seen = True
            if base < len(line.tokens):
                yield Verb(base, number, ANY, False, after=at)
        elif token.has("be", "be0"):
            number = subject(line, at)
            if line.asks and line.can(at - 1, "dim"):
                number = subject_after(line, at + 1)[0]
            if number == "there":
                number = _behind(line, at)
            yield Verb(at, number, _tense(token, number), True)
            finite_seen = True
        elif _is_verb(line, at, finite_seen):
            passive = token.has("vp") and _behind_be(line, at)
            number = last if line.can(at - 1, "c") else subject(line, at)
            yield Verb(at, number, _tense(token, number), not passive, passive)
            finite_seen = True
            last = number


def _is_verb(line: Line, at: int, finite_seen: bool) -> bool:
    token = line.tokens[at]
    if not token.has("n1", "n2", "n", "m", "adj", "r", "p"):
        return True
    if finite_seen or at == 0:
        return False
    before = line.tokens[at - 1]
    if before.has("name", "pro"):
        return True
    if before.has("n2", "n") and not before.has("adj"):
        return True
    if before.has("n1"):
        start = group_start(line, at - 1)
        return line.can(start, "one", "d1", "d")
    return False


def _behind_be(line: Line, at: int) -> bool:
    back = at - 1
    while back >= 0 and line.can(back, "r"):
        back -= 1
    return line.can(back, "be", "be0")


def _behind(line: Line, be: int) -> str:
    """How many there is or are: the number of the group behind the verb."""
    at = be + 1
    if at >= len(line.tokens):
        return ""
    if line.can(at, "one", "d1"):
        return "one"
    if line.can(at, "many#", "dm"):
        return "many"
    head = group_head(line, at)
    return number_of(line, at, head) if head is not None else "any"


def _tense(token: Token, number: str) -> str:
    if token.has("modal"):
        return ANY
    if token.low in ("is", "are", "do", "does"):
        return PRESENT
    if token.low in ("was", "were", "did"):
        return PAST
    if token.has("vd"):
        if number == "one" or not token.has("vb"):
            return PAST
        return ANY
    return PRESENT
