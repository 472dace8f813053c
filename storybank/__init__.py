"""Storybank: story problems whose numbers fit the strategy being taught.

The names below are the public interface; each is imported when it is first used, so that the
command line starts fast.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

from storybank.errors import StorybankError
from storybank.version import VERSION as __version__

if TYPE_CHECKING:
    from storybank.bank import Bank
    from storybank.documents import write_document
    from storybank.explanation import explain
    from storybank.model import Problem, ProblemSet
    from storybank.problem_set import Space, make_problem, make_set
    from storybank.request import Request

__all__ = [
    "Bank",
    "Problem",
    "ProblemSet",
    "Request",
    "Space",
    "StorybankError",
    "__version__",
    "explain",
    "make_problem",
    "make_set",
    "write_document",
]

_HOMES = {
    "Bank": "storybank.bank",
    "Problem": "storybank.model",
    "ProblemSet": "storybank.model",
    "Request": "storybank.request",
    "Space": "storybank.problem_set",
    "explain": "storybank.explanation",
    "make_problem": "storybank.problem_set",
    "make_set": "storybank.problem_set",
    "write_document": "storybank.documents",
}


def __getattr__(name: str) -> Any:
    if name not in _HOMES:
        raise AttributeError(f"module 'storybank' has no attribute {name!r}")
    value = getattr(import_module(_HOMES[name]), name)
    globals()[name] = value
    return value
