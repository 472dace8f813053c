"""The vocabulary packs: how plainly a story is told, as limits that can be measured."""

from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path

from storybank import catalog
from storybank.compiled import compiled
from storybank.errors import PackError, RequestError, unknown_value
from storybank.located import Faults
from storybank.vocabulary import _own, _rules
from storybank.vocabulary._own import DEFAULT
from storybank.vocabulary._pack import Vocabulary
from storybank.vocabulary._room import with_one_more_sentence
from storybank.vocabulary._rules import RULES, Rule, unchanged
from storybank.vocabulary._settings import FIXED, SETTINGS, gloss, value_of

__all__ = [
    "DEFAULT",
    "RULES",
    "Rule",
    "Vocabulary",
    "find",
    "get",
    "ids",
    "switched",
    "unchanged",
    "with_one_more_sentence",
]

FOLDER = Path(__file__).parent


@cache
def ids() -> tuple[str, ...]:
    """The ids of all vocabulary packs, sorted."""
    return catalog.entry_names(FOLDER, ".yaml")


def get(vocabulary_id: str) -> Vocabulary:
    """The pack of that id. Raises RequestError, naming the valid ids, for any other."""
    found = _all().get(vocabulary_id)
    if found is None:
        raise RequestError(unknown_value("vocabulary", vocabulary_id, ids()))
    return found


@cache
def _all() -> Mapping[str, Vocabulary]:
    files = {name: FOLDER / f"{name}.yaml" for name in ids()}
    return compiled(
        "vocabulary",
        files.values(),
        lambda: {name: _read(name, path) for name, path in files.items()},
    )


def find(name: str) -> Vocabulary:
    """The pack of that id, or the one in the file of that name.

    Raises RequestError for an unknown id or an unfit file name, PackError for a faulty file.
    """
    if catalog.is_path(name):
        return _own.read(Path(name), ids(), get)
    if name not in ids():
        raise RequestError(
            f"{unknown_value('vocabulary', name, ids())} A pack of your own is asked for by its "
            "file, such as my-district.yaml."
        )
    return get(name)


def switched(pack: Vocabulary, allow: Sequence[str], forbid: Sequence[str]) -> Vocabulary:
    """The pack with the rules of `allow` as loose as at level 4, of `forbid` as at level 1.

    A rule that is looser or plainer already stays as it is. Raises RequestError for an unknown
    rule, and for one both allowed and forbidden.
    """
    plainest, *_, ordinary = sorted(map(get, ids()), key=lambda one: one.level)
    return _rules.switched(pack, plainest, ordinary, allow, forbid)


def _read(vocabulary_id: str, path: Path) -> Vocabulary:
    (entry,) = catalog.read_documents(path)
    name = path.name
    for field in (*SETTINGS, *FIXED):
        if field not in entry:
            raise PackError(f'{name}: the setting "{field}" is missing.')
    odd = sorted(set(entry) - {*SETTINGS, *FIXED})
    if odd:
        raise PackError(f"{name}: unknown settings {', '.join(odd)}.")
    faults = Faults(name)
    values = {setting: value_of(setting, entry[setting], faults) for setting in SETTINGS}
    faults.stop()
    return Vocabulary(
        id=vocabulary_id,
        passive=entry["passive"] == "yes",
        if_clauses=entry["if_clauses"] == "yes",
        negation=entry["negation"] == "yes",
        relative_clauses=int(entry["relative_clauses"]),
        math_words=tuple(gloss(str(word), item) for word, item in entry["math_words"].items()),
        **values,
    )
