"""Verb classes and forms, read from verbs.json (its source is named in the file)."""

import json
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True)
class VerbForm:
    """What one written form can be: the base verb, its class per use, and which forms it is."""

    lemma: str
    shapes: frozenset[str]
    object_class: str | None
    thing_class: str | None


_DATA = json.loads((Path(__file__).parent / "verbs.json").read_text(encoding="utf-8"))
EFFECTS: dict[str, dict[str, int]] = {k: v["effects"] for k, v in _DATA["classes"].items()}
PHRASES: dict[str, dict[str, str]] = _DATA["phrases"]
SHAPES = ("base", "third", "past", "participle", "ing")


def _load() -> dict[str, VerbForm]:
    uses: dict[str, dict[str, str]] = {}
    shapes: dict[str, dict[str, set[str]]] = {}
    for name, entry in _DATA["classes"].items():
        for line in entry["verbs"]:
            forms = line.split()
            uses.setdefault(forms[0], {}).setdefault(entry["use"], name)
            for shape, form in zip(SHAPES, forms, strict=True):
                shapes.setdefault(form, {}).setdefault(forms[0], set()).add(shape)
    found: dict[str, VerbForm] = {}
    for form, lemmas in shapes.items():
        lemma = max(lemmas, key=lambda v: (form == v, len(lemmas[v]), v))
        use = uses[lemma]
        found[form] = VerbForm(lemma, frozenset(lemmas[lemma]), use.get("object"), use.get("thing"))
    return found


FORMS = _load()


def verb(low: str) -> VerbForm | None:
    """The verb a word can be a form of, None where the list does not hold it."""
    return FORMS.get(low)


def finite(low: str) -> frozenset[str]:
    """Which finite shapes (base, third, past) a word can have; empty where it is no verb."""
    found = FORMS.get(low)
    return found.shapes & {"base", "third", "past"} if found else frozenset()
