"""The bank: finished problems in one file, found again, handed out, never given twice."""

from typing import TYPE_CHECKING

from storybank.bank._bank import Added, Bank
from storybank.bank._classes import HandOut, check_class
from storybank.bank._file import look_at
from storybank.bank._finding import Kept
from storybank.bank._wanted import Wanted
from storybank.later import later

if TYPE_CHECKING:
    from storybank.bank._growing import Growth, grow
    from storybank.bank._lines import as_lines
    from storybank.bank._restoring import restore
    from storybank.bank._table import write_table
    from storybank.bank._taking_out import as_set, take_out

__all__ = [
    "Added",
    "Bank",
    "Growth",
    "HandOut",
    "Kept",
    "Wanted",
    "as_lines",
    "as_set",
    "check_class",
    "grow",
    "look_at",
    "restore",
    "take_out",
    "write_table",
]

__getattr__ = later(
    __name__,
    {
        "Growth": "_growing",
        "as_lines": "_lines",
        "as_set": "_taking_out",
        "grow": "_growing",
        "restore": "_restoring",
        "take_out": "_taking_out",
        "write_table": "_table",
    },
)
