"""The errors of Storybank: what happened, the value, where or why, and what to do."""

from collections.abc import Iterable


class StorybankError(Exception):
    """Base of all errors that Storybank raises for its user; the message says it all."""


class RequestError(StorybankError):
    """A wish that is misspelt, out of range or contradicts another."""


class NoNumbersError(RequestError):
    """No numbers, or too few of them, meet all wishes."""


class PackError(StorybankError):
    """A pack or data file with a fault in it; the message names file and line."""


class NotHereError(StorybankError):
    """A pack that a finished problem was made with, and that is not on this machine."""


class NamesError(StorybankError):
    """A class list that gives no usable name or cannot be read as text."""


class AnswersError(StorybankError):
    """A set that was answered, or a table of answers, that cannot be read; it names the place."""


class OutputError(StorybankError):
    """A file that cannot be written where it was asked for."""


class BankError(StorybankError):
    """A bank that cannot be opened, read or written, or what is not in it; nothing is lost."""


class ProblemFaultError(StorybankError):
    """A finished problem that breaks a law; always a fault of Storybank or of a pack."""


def near(value: str, valid: Iterable[str]) -> str:
    """A question whether the choice nearest to `value` was meant, after a blank, or nothing.

    Small and capital letters count as the same.
    """
    found = nearest(value, valid)
    return "" if found is None else f' Did you mean "{found}"?'


def nearest(value: str, valid: Iterable[str], cutoff: float = 0.6) -> str | None:
    """The choice nearest to `value`, whatever its capitals, or None where none is like it.

    `cutoff` is how alike the two must be, from 0 to 1.
    """
    import difflib

    folded: dict[str, str] = {}
    for choice in valid:
        folded.setdefault(choice.casefold(), choice)
    found = difflib.get_close_matches(value.casefold(), list(folded), n=1, cutoff=cutoff)
    return folded[found[0]] if found else None


def unknown_value(kind: str, value: str, valid: Iterable[str]) -> str:
    """A message saying that `value` is no known `kind`, with the nearest and all valid choices."""
    choices = list(valid)
    return f'There is no {kind} "{value}".{near(value, choices)} Choose from: {", ".join(choices)}.'
