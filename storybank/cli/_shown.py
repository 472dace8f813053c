"""Text from outside as it is printed: nothing in it steers the terminal."""

import unicodedata

_STEERS = {"Cc", "Cf", "Cs", "Zl", "Zp"}
_JOINERS = "\u200c\u200d"


def shown(text: str) -> str:
    """`text` with a question mark for each character that could steer a terminal.

    Line breaks stay, and so do the joiners that the spelling of some languages needs. A bank that
    somebody else made may hold anything.
    """
    if text.isascii() and text.replace("\n", "").isprintable():
        return text
    return "".join(
        "?" if unicodedata.category(one) in _STEERS and one not in f"\n{_JOINERS}" else one
        for one in text
    )
