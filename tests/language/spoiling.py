"""Good sentences spoiled by code, one kind of fault each."""

import re
from collections.abc import Callable, Iterable

Spoil = Callable[[str], str | None]


def _instead(pattern: str, new: str) -> Spoil:
    """A fault that changes the first match of a pattern; None where nothing matches."""
    compiled = re.compile(pattern)

    def spoil(sentence: str) -> str | None:
        spoiled, count = compiled.subn(new, sentence, count=1)
        return spoiled if count else None

    return spoil


def _swapped(sentence: str) -> str | None:
    """The third and the fourth word change places."""
    words = sentence[:-1].split(" ")
    if len(words) < 6 or words[2] == words[3]:
        return None
    words[2], words[3] = words[3], words[2]
    return " ".join(words) + sentence[-1]


def _doubled(sentence: str) -> str | None:
    """The third word stands twice."""
    words = sentence[:-1].split(" ")
    if len(words) < 5:
        return None
    return " ".join([*words[:3], *words[2:]]) + sentence[-1]


FAULTS: dict[str, Spoil] = {
    "verb does not agree with she": _instead(r"^She (\w\w+[^se])s ", r"She \1 "),
    "verb does not agree with there": _instead(r"\b[Tt]here are 46\b", "there is 46"),
    "was with many": _instead(r"\b[Tt]here were 46\b", "there was 46"),
    "do for does": _instead(r"\bdoes (she|Ada|Ben|the \w+)\b", r"do \1"),
    "has after does": _instead(r"\b(does|did) (.*) have\b", r"\1 \2 has"),
    "singular after how many": _instead(r"^How many (\w+[^se])s (do|does|did|are|were)\b",
                                        r"How many \1 \2"),
    "singular after a number": _instead(r"(46 (?:more |fewer )?\w+[^se])s\b", r"\1"),
    "article left out": _instead(r"\b(in|on|from|onto|into) (?:the|a) ", r"\1 "),
    "article after a number": _instead(r"\b46 ", "46 a "),
    "preposition left out": _instead(r" (?:in|on|from|onto|into) (?=the |a )", " "),
    "preposition doubled": _instead(r" (in|on|from|onto|into) (?=the |a )", r" \1 \1 "),
    "noun left out": _instead(r"\b(There (?:are|were) 46) \w+ (?=in|on)", r"\1 the "),
    "verb left out": _instead(r"^(Ada|Ben|She) (?:has|had) ", r"\1 "),
    "than left out": _instead(r" than ", " "),
    "word doubled": _doubled,
    "words swapped": _swapped,
}  # fmt: skip


def spoil(kind: str, good: Iterable[str], count: int) -> dict[str, str]:
    """Up to `count` spoiled sentences of a kind, spread over `good`, each with its source."""
    pairs: dict[str, str] = {}
    for sentence in good:
        spoiled = FAULTS[kind](sentence)
        if spoiled is not None and spoiled != sentence:
            spoiled = spoiled[0].upper() + spoiled[1:]
            pairs.setdefault(spoiled, sentence)
    step = max(1, len(pairs) // count)
    return dict(list(pairs.items())[::step][:count])
