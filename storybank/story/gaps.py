"""Sentences with gaps for people and numbers, and the pieces of an act's frame."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Gap:
    """A gap in a sentence.

    `kind` is `a` or `b` (a person's name), `he` (the first person's pronoun, or the name again),
    `number` (the role's number with `one` or `many` behind it) or `agree` (`one` or `many` only).
    """

    kind: str
    role: str = ""
    one: str = ""
    many: str = ""


Sentence = tuple[str | Gap, ...]


def pieces_of(frame: str) -> list[str]:
    """The slots and the text between them; `{n} {things}` counts as one slot."""
    pieces: list[str] = []
    rest = frame.replace("{n} {things}", "{things}")
    while rest:
        start = rest.find("{")
        if start != 0:
            pieces.append(rest if start < 0 else rest[:start])
            rest = "" if start < 0 else rest[start:]
        else:
            end = rest.index("}") + 1
            pieces.append(rest[:end])
            rest = rest[end:]
    return pieces


def tidied(pieces: list[str | Gap]) -> list[str | Gap]:
    """The pieces with double spaces, which a removed slot leaves, made one; none at the end."""
    tidy: list[str | Gap] = []
    for piece in pieces:
        if isinstance(piece, str) and tidy:
            last = tidy[-1]
            if isinstance(last, str) and last.endswith(" "):
                piece = piece.lstrip(" ")
        tidy.append(piece)
    while tidy and isinstance(tidy[-1], str) and not tidy[-1].strip():
        tidy.pop()
    if tidy and isinstance(tidy[-1], str):
        tidy[-1] = tidy[-1].rstrip(" ")
    return tidy
