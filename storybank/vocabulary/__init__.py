"""The vocabulary packs: how plainly a story is told, as limits that can be measured."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from storybank import catalog
from storybank.errors import PackError, RequestError, unknown_value
from storybank.model.words import Gloss

FOLDER = Path(__file__).parent
PRONOUNS = ("none", "one-person", "one-candidate")


@dataclass(frozen=True, slots=True, eq=False)
class Vocabulary:
    """The limits and the support of one vocabulary pack; names as in its file.

    `statement_words` to `unfamiliar_words` are largest counts a sentence or story;
    `unfamiliar_need` and `second_meanings` say what an unfamiliar word and a word with a second
    everyday meaning must come with; `support` what is printed beside the story.
    """

    id: str
    title: str
    statement_words: int
    question_words: int
    sentences: int
    words: int
    finite_verbs: int
    tenses: tuple[str, ...]
    past_in_question: tuple[str, ...]
    passive: bool
    if_clauses: bool
    negation: bool
    relative_clauses: int
    pronouns: str
    modifiers: int
    prepositional_phrases: int
    unfamiliar_words: int
    unfamiliar_need: str
    second_meanings: str
    plain_words: bool
    things_need_picture: bool
    name_letters: int
    question_line: str
    support: tuple[str, ...]
    talk_frames: tuple[str, ...]
    math_words: tuple[Gloss, ...]

    @property
    def level(self) -> int:
        """The level as a number, 1 (first English) to 4 (ordinary wording)."""
        return int(self.id.rsplit("-", 1)[1])


@cache
def ids() -> tuple[str, ...]:
    """The ids of all vocabulary packs, sorted."""
    return catalog.entry_names(FOLDER, ".yaml")


@cache
def get(vocabulary_id: str) -> Vocabulary:
    """The pack of that id. Raises RequestError, naming the valid ids, for any other."""
    if vocabulary_id not in ids():
        raise RequestError(unknown_value("vocabulary", vocabulary_id, ids()))
    path = FOLDER / f"{vocabulary_id}.yaml"
    (entry,) = catalog.read_documents(path)
    return _vocabulary(vocabulary_id, path.name, entry)


def _vocabulary(vocabulary_id: str, name: str, entry: Mapping[str, Any]) -> Vocabulary:
    values: dict[str, Any] = {}
    kinds = {
        field: type_ for field, type_ in Vocabulary.__annotations__.items() if field != "id"
    }  # fmt: skip
    for field, type_ in kinds.items():
        if field not in entry:
            raise PackError(f'{name}: the setting "{field}" is missing.')
        value = entry[field]
        if type_ is int:
            values[field] = int(value)
        elif type_ is bool:
            values[field] = value == "yes"
        elif type_ is str:
            values[field] = str(value)
        elif field == "math_words":
            values[field] = tuple(
                Gloss(str(word), tuple(map(str, item["forms"])), str(item["meaning"]), None, {})
                for word, item in value.items()
            )
        else:
            values[field] = tuple(map(str, value))
    odd = sorted(set(entry) - set(kinds))
    if odd:
        raise PackError(f"{name}: unknown settings {', '.join(odd)}.")
    return Vocabulary(id=vocabulary_id, **values)
