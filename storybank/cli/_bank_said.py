"""What the parts of `storybank bank` share: opening the bank, and ways to say things."""

import argparse
import sys
from collections.abc import Iterable
from pathlib import Path

from storybank.bank import Bank
from storybank.cli._shown import shown


def opened(options: argparse.Namespace) -> Bank:
    """The bank that is named; none is made."""
    path: Path = options.bank
    return Bank(path, create=False)


def say_notes(notes: Iterable[str]) -> None:
    """Says notes on standard error."""
    for note in notes:
        print(shown(f"note: {note}"), file=sys.stderr)


def problems_said(count: int) -> str:
    """The number with its noun: "1 problem", "1,200 problems"."""
    return f"{count:,} {'problem' if count == 1 else 'problems'}"


def after_colon(told: str) -> str:
    """The text behind a colon, if there is any."""
    return f": {told}" if told else ""
