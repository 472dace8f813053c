"""A set as a teacher goes on with it: stories swapped, moved, told in her own words."""

from storybank.revision._changes import KINDS, Change, change_of, changes_of
from storybank.revision._revised import Revised, Told, revise
from storybank.revision._words import Fault, Words, reworded

__all__ = [
    "KINDS",
    "Change",
    "Fault",
    "Revised",
    "Told",
    "Words",
    "change_of",
    "changes_of",
    "revise",
    "reworded",
]
