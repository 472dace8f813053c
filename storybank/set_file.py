"""The door for files of sets: the JSON of a set from outside, or an error that says what to do."""

import json
from pathlib import Path
from typing import Any, NoReturn

from storybank.cleaning import clean_text
from storybank.errors import PackError, RequestError
from storybank.model import SET_FORMAT

MAX_BYTES = 100_000_000
MAKE_AGAIN = "Make the set again with storybank make --format json, and change nothing in it."


def shown_name(path: Path) -> str:
    """The name of a file as it stands in messages, without its folders."""
    return clean_text(path.name, 100)[0]


def read_nodes(path: Path) -> dict[str, Any]:
    """The JSON object in the file `path`, whose format is that of sets; no key of it is looked at.

    Raises RequestError for a file that is not there, and PackError, naming the file, for one that
    holds no set in our JSON.
    """
    shown = shown_name(path)
    node = _json(path, shown)
    found = node.get("format") if isinstance(node, dict) else None
    if not isinstance(node, dict) or found != SET_FORMAT:
        said = f'its "format" is "{_plain(found)}"' if found else "it names none"
        raise PackError(
            f"{shown} is no set of problems: its format must be {SET_FORMAT}, and {said}. Name a "
            "file that storybank make has written, such as storybank-set/set.json."
        )
    problems = node.get("problems")
    if not isinstance(problems, list) or not problems:
        raise PackError(f'{shown} holds no "problems". {MAKE_AGAIN}')
    return node


def _plain(found: object) -> str:
    return clean_text(found[:200], 60)[0] if isinstance(found, str) else "no text"


def _json(path: Path, shown: str) -> Any:
    if not path.is_file():
        raise RequestError(
            f'There is no file "{shown}". Name the JSON file of a set, such as '
            "storybank-set/set.json."
        )
    try:
        size = path.stat().st_size
        if size > MAX_BYTES:
            raise PackError(
                f"{shown} has {size:,} bytes; a set has at most {MAX_BYTES:,}. Name the JSON file "
                "of a set."
            )
        return json.loads(path.read_bytes().decode("utf-8-sig"), parse_constant=_refuse)
    except UnicodeDecodeError as error:
        raise PackError(
            f"{shown} is no set of problems: byte {error.start} is not UTF-8 text. Name the JSON "
            "file of a set (set.json), not its Word or web page."
        ) from error
    except json.JSONDecodeError as error:
        raise PackError(
            f"{shown}, line {error.lineno}: this is not valid JSON ({error.msg}). {MAKE_AGAIN}"
        ) from error
    except ValueError as error:
        raise PackError(
            f"{shown} is no set of problems: a number in it is far too large, or is none. "
            f"{MAKE_AGAIN}"
        ) from error
    except RecursionError as error:
        raise PackError(f"{shown} is no set of problems: it is nested too deeply.") from error
    except OSError as error:
        raise PackError(
            f"{shown} cannot be read ({error.strerror}). Check its permissions."
        ) from error


def _refuse(text: str) -> NoReturn:
    raise ValueError(f"{text} is no number of JSON")
