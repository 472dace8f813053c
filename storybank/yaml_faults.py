"""Says in everyday words what is wrong in a text that is not valid YAML, and in which line."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

_CURLY = re.compile(r"(?:[:\[,{-]\s*|^\s*)[\u201c\u201d\u201e\u2018\u2019]")
_SLOTS = re.compile(r"([\w-]+): *(\{(?:who|name|verb|n|things|holder|other)\}[^\"]*?)\"?[,}]?$")
_NO_COLON = re.compile(r"^\s*([\w-]+)(:?)\s*\{")
_BEHIND_QUOTE = re.compile(r"(\"[^\"]*\")\s*[^\s,}\]:#]")
_APOSTROPHE = re.compile(r":\s*'([^']*'\w[^']*)'?")
_NOTE = re.compile(r"\s#")
_INDENTED = (
    "this line is not indented like those it belongs with. What belongs to one part begins in the "
    "same column, and what belongs below it a little further in."
)


@dataclass(frozen=True, slots=True)
class Mishap:
    """What the reader of YAML reports; lines count from 1, `column` from 0.

    `begun` is the line in which the part begins that it was reading, `problem` its own words.
    """

    begun: int
    line: int
    column: int
    context: str
    problem: str


def explained(text: str, mishap: Mishap) -> tuple[int, str]:
    """The line to look at, and what is wrong there with what to write instead.

    Where none of the usual slips is found these are the line and the words of the reader.
    """
    lines = text.splitlines()
    for found in _slips(lines, mishap):
        return found
    return mishap.line, f"{mishap.problem}."


def _slips(lines: Sequence[str], mishap: Mishap) -> Iterator[tuple[int, str]]:
    """The slips that explain the mishap, the surest first."""
    here = _at(lines, mishap.line)
    if here.lstrip(" ").startswith("\t"):
        yield mishap.line, "a tab stands at the beginning. Indent with spaces, not with a tab."
    if "cannot start any token" in mishap.problem:
        odd = here[mishap.column : mishap.column + 1]
        yield mishap.line, f'a text may not begin with "{odd}". Put the text in quotes.'
    begun = mishap.line if mishap.context.startswith("while parsing a block") else mishap.begun
    read = [number for number in range(begun, mishap.line + 1) if _said(lines, number)]
    yield from _quotes(lines, read, range(mishap.begun, mishap.line + 1))
    if "mapping values" in mishap.problem or "expected ':'" in mishap.problem:
        yield from _colons(lines, mishap)
    if "expected ',' or" in mishap.problem:
        yield from _inside_brackets(lines, mishap)
    if "expected key" in mishap.problem:
        if here[mishap.column : mishap.column + 1] in ("}", "]"):
            yield (
                mishap.line,
                f'one "{here[mishap.column]}" too many closes here. Delete it, or open it before.',
            )
        yield mishap.line, _INDENTED


def _quotes(
    lines: Sequence[str], read: Sequence[int], from_begin: Sequence[int]
) -> Iterator[tuple[int, str]]:
    for number in read:
        if _CURLY.search(_said(lines, number)):
            yield (
                number,
                "the quotes here are the curly ones of a word processor. Write straight ones: "
                '" at both ends.',
            )
    for number in from_begin:
        if _said(lines, number).count('"') % 2:
            yield (
                number,
                'a quote (") has no partner here. A text in quotes begins and ends with one.',
            )
    for number in read:
        said = _said(lines, number)
        slots = _SLOTS.search(said) or re.search(r"([\w-]+): *(\{who\})", said)
        if slots:
            yield (
                number,
                f'the text behind "{slots[1]}" begins with a brace and so must stand in quotes: '
                f'{slots[1]}: "{{who}} ...".',
            )
        apostrophe = _APOSTROPHE.search(said)
        if apostrophe:
            yield (
                number,
                "a text between single quotes may not hold an apostrophe. Write double quotes "
                f'around it: "{apostrophe[1]}".',
            )
        behind = _BEHIND_QUOTE.search(said)
        if behind:
            yield (
                number,
                f"something follows right behind the quoted text {behind[1]}. Write a comma "
                "between, or let the quotes hold all of the text.",
            )


def _colons(lines: Sequence[str], mishap: Mishap) -> Iterator[tuple[int, str]]:
    """A colon that is missing, or one that stands in a text without quotes."""
    here = _at(lines, mishap.line)
    if "expected ':'" in mishap.problem:
        yield mishap.begun, _missing(_at(lines, mishap.begun))
    opened = _NO_COLON.match(here)
    if opened:
        yield mishap.line, f"write a colon and a blank before the brace: {opened[1]}: {{ ... }}."
    key, colon, rest = here.partition(":")
    if colon and len(key) < mishap.column:
        yield mishap.line, _colon_in_text(key.strip(" -"), rest.strip())
    before = next(
        (number for number in range(mishap.line - 1, 0, -1) if _said(lines, number).strip()), 0
    )
    if before and not re.search(r":(?:\s|$)", _said(lines, before)):
        yield before, _missing(_at(lines, before))
    yield mishap.line, _INDENTED


def _inside_brackets(lines: Sequence[str], mishap: Mishap) -> Iterator[tuple[int, str]]:
    """A colon in a text, a comma or a bracket that is missing, between { and } or [ and ]."""
    here = _at(lines, mishap.line)
    opening, closing = ("[", "]") if "']'" in mishap.problem else ("{", "}")
    if opening == "{" and here[mishap.column : mishap.column + 1] == ":":
        start = max(here.rfind(mark, 0, mishap.column) for mark in ",{[") + 1
        if start == 0:
            yield mishap.begun, _not_closed(opening, closing)
        ends = [here.find(mark, mishap.column) for mark in ",}"]
        end = min([place for place in ends if place >= 0], default=len(here))
        key, _, rest = here[start:end].partition(":")
        word = here[start : mishap.column].split()[-1]
        if len(rest.split()) > 2 and _is_key(word, lines, mishap.line):
            yield mishap.line, f'a comma is missing before "{word}:".'
        yield mishap.line, _colon_in_text(key.strip(), rest.strip())
    first = _at(lines, mishap.begun)
    if _NOTE.search(first) and mishap.line > mishap.begun:
        yield (
            mishap.begun,
            "what stands behind a blank and # is a note and not read. Put a text with # in quotes.",
        )
    yield mishap.begun, _not_closed(opening, closing)


def _not_closed(opening: str, closing: str) -> str:
    return f'the "{opening}" that opens here is not closed with "{closing}".'


def _is_key(word: str, lines: Sequence[str], but: int) -> bool:
    key = re.compile(rf"(?:^\s*|[{{,]\s*){re.escape(word)}:")
    return any(key.search(line) for number, line in enumerate(lines, 1) if number != but)


def _colon_in_text(key: str, text: str) -> str:
    return (
        f'a colon stands inside the text behind "{key}". Put the text in quotes: '
        f'{key}: "{text.strip(chr(34))}".'
    )


def _missing(line: str) -> str:
    word = line.strip().split(" ")[0].strip("-")
    return f'a colon is missing behind "{word}". Write {word}: and what belongs to it.'


def _at(lines: Sequence[str], number: int) -> str:
    return lines[number - 1] if 0 < number <= len(lines) else ""


def _said(lines: Sequence[str], number: int) -> str:
    """The line without its note."""
    line = _at(lines, number)
    if line.lstrip().startswith("#"):
        return ""
    quoted = False
    for at, char in enumerate(line):
        if char == '"':
            quoted = not quoted
        elif char == "#" and not quoted and line[at - 1] in " \t":
            return line[:at]
    return line
