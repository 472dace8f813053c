"""What a cell of a table of answers says: a whole number, nothing, or something to be mended."""

import re

from storybank.cleaning import clean_text

LONGEST = 6
"""Digits of the longest answer: two sums of hundreds written side by side have six."""
_NUMBER = re.compile(r"(\d+)(?:[.,]0+)?")
_WITH_WORD = re.compile(r"(\d+)(?:[.,]0+)?(?:\s+[^\W\d_]|[^\W\d_]{2})\D*")
"""Behind a blank or of two letters, so that 1O, typed for 10, is not read as 1."""
_DATE = re.compile(r"\d{1,4}[-/.]\w{1,9}([-/.]\d{1,4})?|\w{3,9}[-/ ]\d{1,2}")


class NoNumberError(Exception):
    """A cell that is no whole number; its text says what it is instead and what to write."""


def number_in(cell: str) -> tuple[int | None, bool]:
    """The whole number in a cell, None for an empty one, and whether a word stood behind it.

    "12.0" and "12,0", as spreadsheets write whole numbers, are 12; so is "12 apples", since the
    word does not change the number. Raises NoNumberError for anything else.
    """
    text = clean_text(cell, 80)[0].removeprefix("'").strip()
    if not text:
        return None, False
    plain = _NUMBER.fullmatch(text)
    found = plain or _WITH_WORD.fullmatch(text)
    if found is None:
        raise NoNumberError(_advice(text))
    digits = found[1].lstrip("0") or "0"
    if len(digits) > LONGEST:
        raise NoNumberError(
            f"a number of {len(digits)} digits, more than any answer has; write the child's answer"
        )
    return int(digits), plain is None


def _advice(text: str) -> str:
    if text.startswith("#"):
        return "an error of the spreadsheet; write the number itself"
    if text.startswith("="):
        return "a formula; write the number itself"
    if text.startswith(("-", "\N{MINUS SIGN}")) and text[1:].strip().isdigit():
        return "a number below 0; if the child wrote just that, leave the cell empty"
    if re.fullmatch(r"\d+[.,]\d+", text):
        return "no whole number; write thousands without a mark, as in 1204"
    if _DATE.fullmatch(text):
        return "a date, as spreadsheets make of 3-4; write one whole number as text"
    if len(re.findall(r"\d+", text)) > 1:
        return "more than one number; write the one that was the child's last word"
    return "no whole number; leave the cell empty if the problem was not answered"
