"""Finished problems: read back from their JSON, judged afresh, told of other people."""

from storybank.finished._judging import findings, judge
from storybank.finished._naming import pronouns, renamed
from storybank.finished._people import choose_people, own_names, told_of_class
from storybank.finished._problem import problem_from_json
from storybank.finished._set import read_set, request_from_json, set_from_json

__all__ = [
    "choose_people",
    "findings",
    "judge",
    "own_names",
    "problem_from_json",
    "pronouns",
    "read_set",
    "renamed",
    "request_from_json",
    "set_from_json",
    "told_of_class",
]
