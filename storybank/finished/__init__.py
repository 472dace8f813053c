"""Finished problems from outside: read back from their JSON."""

from storybank.finished._problem import problem_from_json
from storybank.finished._set import read_set, set_from_json

__all__ = ["problem_from_json", "read_set", "set_from_json"]
