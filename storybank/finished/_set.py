"""The set from its JSON: its request as plain values, its problems back."""

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from storybank.finished._node import Node
from storybank.finished._problem import problem_from_json
from storybank.model import SET_FORMAT, ProblemSet
from storybank.set_file import read_nodes, shown_name

_VERSION = re.compile(r"[0-9A-Za-z][0-9A-Za-z.+-]{0,39}")
_KEY = re.compile(r"[a-z][a-z0-9_]{0,39}")
_MOST_PROBLEMS = 5_000


def read_set(path: Path) -> ProblemSet:
    """The set in the file `path`, which storybank make has written as JSON; it has no notes.

    Raises RequestError for a file that is not there, and PackError, naming file, problem and key,
    for one that holds no such set.
    """
    return set_from_json(read_nodes(path), shown_name(path))


def set_from_json(node: Any, where: str) -> ProblemSet:
    """The set whose JSON is `node`; it has no notes, since the format has none.

    `where` begins every message and may be empty. Raises PackError as `problem_from_json`.
    """
    found = Node(node, where)
    if found.text("format") != SET_FORMAT:
        raise found.fault("format", f'"{SET_FORMAT}"')
    problems = found.values("problems", _MOST_PROBLEMS)
    if not problems:
        raise found.fault("problems", "a list of at least one problem")
    begin = f"{where}, " if where else ""
    return ProblemSet(
        request=_request(found.node("request")),
        problems=tuple(
            [problem_from_json(one, f"{begin}problem {at}") for at, one in enumerate(problems, 1)]
        ),
        version=found.word("version", _VERSION, "a version such as 1.0"),
    )


def request_from_json(node: Any, where: str) -> Mapping[str, Any]:
    """The request that made a set, with values that are plain; later versions may add keys.

    `where` begins every message. Raises PackError for anything else.
    """
    return _request(Node(node, where))


def _request(node: Node) -> Mapping[str, Any]:
    keys = node.names()
    if not all(_KEY.fullmatch(key) for key in keys):
        raise node.wrong("A key of it is no word such as within or number_sets.")
    return {key: node.plain(key) for key in keys}
