"""Cleans text from outside once at the door, and says what it changed."""

import unicodedata

STACKED_MARKS = 2
"""Accents that may stand on one letter; Vietnamese and Yoruba need two."""
OTHER_MARKS = 6
"""Vowel signs, points and tone marks of one letter; Burmese needs five."""

_JOINERS = frozenset("\u200c\u200d")
_FILLERS = frozenset("\u034f\u115f\u1160\u17b4\u17b5\u3164\uffa0")
_BLANKS = frozenset("\u2800")
_BREAKS = frozenset("\t\n\x0b\x0c\r\x85\u2028\u2029")

CONTROL = "removed a control character"
INVISIBLE = "removed an invisible character"
ILLEGAL = "removed a character that no document may hold"
BREAK = "wrote a line break or tab as a space"
DOUBLED = "removed a doubled space"
MARKS = "removed accents without a letter or stacked too high"

_ORDER = (CONTROL, INVISIBLE, ILLEGAL, BREAK, DOUBLED, MARKS)


def clean_text(text: str, limit: int) -> tuple[str, tuple[str, ...]]:
    """`text` fit for every document, and one phrase for each kind of change.

    Composes accents (NFC) and trims the ends, both unsaid since neither shows; writes line
    breaks and tabs as spaces; removes control, invisible, direction and illegal characters
    but keeps the joiners U+200C and U+200D that Persian, Hindi and Malayalam spelling needs;
    keeps two stacked accents a letter, those of a composed letter counted; cuts after `limit`
    characters, never inside a letter with its marks. Cleaning twice changes nothing more.
    Source of the illegal characters: XML 1.0, section 2.2, and the noncharacters of the
    Unicode Standard, section 23.7.
    """
    said: set[str] = set()
    visible = unicodedata.normalize("NFC", _visible(text, said))
    marked = unicodedata.normalize("NFC", _few_marks(visible, said))
    words = marked.split(" ")
    if "" in marked.strip(" ").split(" ")[1:]:
        said.add(DOUBLED)
    whole = " ".join(word for word in words if word)
    clean = _cut(whole, limit)
    notes = [phrase for phrase in _ORDER if phrase in said]
    if clean != whole:
        notes.append(f"cut to {limit} characters")
    return clean, tuple(notes)


def _visible(text: str, said: set[str]) -> str:
    kept: list[str] = []
    for char in text:
        category = unicodedata.category(char)
        if char in _BREAKS:
            kept.append(" ")
            said.add(BREAK)
        elif category in {"Zs", "Zl", "Zp"} or char in _BLANKS:
            kept.append(" ")
        elif char in _JOINERS:
            kept.append(char)
        elif category == "Cc":
            said.add(CONTROL)
        elif category == "Cs" or _is_noncharacter(char):
            said.add(ILLEGAL)
        elif category == "Cf" or char in _FILLERS:
            said.add(INVISIBLE)
        else:
            kept.append(char)
    return "".join(kept)


def _may_follow(previous: str, char: str) -> bool:
    if previous == " " or previous in _JOINERS:
        return False
    return char in _JOINERS or not _is_selector(previous)


def _is_selector(char: str) -> bool:
    """Whether `char` picks a shape of the character before it (variation selectors)."""
    return (
        "\ufe00" <= char <= "\ufe0f"
        or "\u180b" <= char <= "\u180d"
        or char == "\u180f"
        or "\U000e0100" <= char <= "\U000e01ef"
    )


def _is_noncharacter(char: str) -> bool:
    code = ord(char)
    return 0xFDD0 <= code <= 0xFDEF or code & 0xFFFE == 0xFFFE


def _few_marks(text: str, said: set[str]) -> str:
    kept: list[str] = []
    stacked = others = 0
    for char in text:
        if char in _JOINERS or _is_selector(char):
            if _may_follow(kept[-1] if kept else " ", char):
                kept.append(char)
            else:
                said.add(INVISIBLE)
            continue
        if not is_mark(char):
            stacked, others = sum(map(_stacks, unicodedata.normalize("NFD", char))), 0
            kept.append(char)
            continue
        if _stacks(char):
            stacked += 1
        else:
            others += 1
        if not kept or kept[-1] == " " or stacked > STACKED_MARKS or others > OTHER_MARKS:
            said.add(MARKS)
        else:
            kept.append(char)
    return "".join(kept)


def is_mark(char: str) -> bool:
    """Whether `char` stands on, under or around the letter before it."""
    return unicodedata.category(char).startswith("M")


def _stacks(char: str) -> bool:
    """Whether marks like `char` pile up: accents do, the vowel signs of a script do not.

    Canonical combining classes 1 and 200 to 240 are placed by position, the others belong to
    one script (Unicode Standard Annex 44, table 15).
    """
    level = unicodedata.combining(char)
    return level == 1 or level >= 200 or unicodedata.category(char) == "Me"


def _cut(text: str, limit: int) -> str:
    end = limit
    while 0 < end < len(text) and (
        is_mark(text[end]) or text[end] in _JOINERS or text[end - 1] == "\u200d"
    ):
        end -= 1
    return text[: end or limit].rstrip(" ")
