"""The JSON Schema of packs accepts what the loader accepts, and refuses broken structure."""

import json
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator
from themes.broken import BROKEN, GOOD

from storybank import catalog, themes
from storybank.themes.starter import schema, starter

VALIDATOR = Draft202012Validator(json.loads(schema()))
PACKS = {
    **{name: (themes.folder() / f"{name}.yaml").read_text("utf-8") for name in themes.ids()},
    "starter": starter("my-garden"),
    "small": GOOD,
}


def faulty(documents: list[Any]) -> list[Any]:
    return [one for one in documents if not VALIDATOR.is_valid(one)]


def test_the_schema_is_one() -> None:
    Draft202012Validator.check_schema(json.loads(schema()))


@pytest.mark.parametrize("name", PACKS)
def test_a_good_pack_is_accepted_as_an_editor_and_as_the_loader_reads_it(name: str) -> None:
    text = PACKS[name]
    assert faulty(list(yaml.safe_load_all(text))) == []
    assert faulty(catalog.parse_documents(text, name)) == []


@pytest.mark.parametrize("name", [name for name, one in BROKEN.items() if one.structure])
def test_a_pack_of_broken_structure_is_refused(name: str) -> None:
    text = BROKEN[name].text
    assert faulty(list(yaml.safe_load_all(text)))


def test_header_and_content_are_told_apart() -> None:
    head, content = yaml.safe_load_all(GOOD)
    assert not VALIDATOR.is_valid({**head, **content})
    assert not VALIDATOR.is_valid({})


def test_every_key_and_choice_of_the_schema_is_known_to_the_loader() -> None:
    """What an editor offers is loaded: each property of the schema stands in some good pack."""
    told = json.loads(schema())["$defs"]
    keys = {key for one in told.values() for key in one.get("properties", {})}
    used = set()

    def walk(node: Any) -> None:
        if isinstance(node, dict):
            used.update(node)
        for item in node.values() if isinstance(node, dict) else node:
            if isinstance(item, dict | list):
                walk(item)

    for text in PACKS.values():
        for document in yaml.safe_load_all(text):
            walk(document)
    by_hand = {"allow", "forms"}  # Vouching is rare; test_kept_out and test_warnings do it.
    assert keys - used - by_hand == set()
