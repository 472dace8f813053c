"""The tellings: how each situation is told, as sentence patterns with slots."""

import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from storybank import catalog
from storybank.compiled import compiled
from storybank.errors import PackError
from storybank.tellings._measured import measured_of
from storybank.tellings._pattern import Pattern, Telling, parse

FOLDER = Path(__file__).parent
NEEDS = {
    "holder": ("child", "person", "place"),
    "act": ("gain", "lose"),
    "kinds": ("named", "described", "sorted", "placed"),
    "compare": ("apart", "shared", "places"),
    "people": ("two",),
    "subject": ("who", "things"),
    "goal": ("yes",),
    "gift": ("yes", "no"),
    "gone": ("yes", "no"),
    "times": ("yes",),
    "occasion": ("yes",),
    "keeps": ("yes", "one"),
}

KEYWORDS = ("more", "fewer", "left", "altogether", "in all", "total")
_KEYWORD = re.compile(rf"\b(?:{'|'.join(KEYWORDS)})\b")

__all__ = ["KEYWORDS", "Pattern", "Telling", "get", "keywords_in", "measured_of", "of", "read"]


def keywords_in(text: str) -> tuple[str, ...]:
    """The keywords that stand in a text, each once, in order."""
    return tuple(dict.fromkeys(_KEYWORD.findall(text)))


def of(situation_id: str) -> tuple[Telling, ...]:
    """All tellings of a situation, sorted by name."""
    return _all().get(situation_id, ())


def get(situation_id: str, name: str) -> Telling:
    """The telling of that name. Raises KeyError where there is none."""
    return {one.id: one for one in of(situation_id)}[f"{situation_id}/{name}"]


@cache
def _all() -> Mapping[str, tuple[Telling, ...]]:
    """The tellings of every situation, each folder's sorted by name."""
    return compiled("tellings", sorted(FOLDER.glob("*/*.yaml")), _read_all)


def _read_all() -> dict[str, tuple[Telling, ...]]:
    return {
        folder.name: tuple(read(folder / f"{name}.yaml") for name in names)
        for folder in sorted(FOLDER.iterdir())
        if (names := catalog.entry_names(folder, ".yaml"))
    }


def read(path: Path) -> Telling:
    """The telling in a file. Raises PackError, naming the file, where it is not well formed."""
    (entry,) = catalog.read_documents(path)
    where = f"{path.parent.name}/{path.name}"
    for key in ("levels", "needs", "sentences", "question", "answer"):
        if key not in entry:
            raise PackError(f'{where}: the key "{key}" is missing.')
    odd = set(entry) - {"levels", "needs", "sentences", "question", "answer", "tenses"}
    if odd:
        raise PackError(f"{where}: unknown keys {', '.join(sorted(odd))}.")
    questions = entry["question"]
    if isinstance(questions, str):
        questions = [questions]
    low, _, high = entry["levels"].partition("-")
    return Telling(
        id=f"{path.parent.name}/{path.stem}",
        levels=(int(low), int(high or low)),
        tenses=tuple(map(str, entry.get("tenses", ["present", "past"]))),
        needs=_needs(entry["needs"], where),
        sentences=tuple(parse(text, where) for text in entry["sentences"]),
        questions=tuple(parse(text, where) for text in questions),
        answer=parse(entry["answer"], where),
    )


def _needs(node: Any, where: str) -> dict[str, str]:
    needs = {str(key): str(value) for key, value in node.items()}
    for key, value in needs.items():
        if value not in NEEDS.get(key, ()):
            raise PackError(
                f'{where}: the need "{key}: {value}" is unknown. '
                f"Choose from: {', '.join(NEEDS)} with {NEEDS.get(key, ())}."
            )
    return needs
