"""A request of every kind, small, for the tests of sets that are gone on with."""

from storybank import Request, people, vocabulary

CLASS = people.read_class_list(
    "class.txt", data="Ana, she\nBen\nChidi, he\nDolores María, she\nEwa\nFinn, he\n".encode()
)
KINDS: dict[str, dict] = {
    "plain": {"count": 6},
    "any": {"strategy": ["any"], "count": 8},
    "mixed strategies": {"strategy": ["count-up", "next-ten-first"], "count": 5},
    "pair": {"pair": ["46 + 38", "82 - 47"], "count": 5},
    "two steps": {"steps": 2, "count": 4},
    "three addends": {"addends": 3, "count": 4},
    "four addends": {"addends": 4, "count": 4},
    **{name: {"units": [name], "count": 4} for name in ("lengths", "money", "minutes", "points")},
    "number sets": {"number_sets": [10, 20, 100], "count": 4},
    "extra number": {"extra_number": True, "count": 5},
    "missing": {"missing": True, "count": 5},
    "fact families": {"fact_families": True, "count": 8},
    "side by side": {"levels_side_by_side": True, "strategy": ["any"], "count": 4},
    "both parts": {"situation": ["both-parts-unknown"], "count": 4},
    "class list": {"names": CLASS, "strategy": ["any"], "count": 8},
    "diagnose": {"diagnose": True, "strategy": ["any"], "count": 5},
    "no keywords": {"keywords": "none", "strategy": ["any"], "count": 6},
    "half regroup": {"crossing": "50", "strategy": ["any"], "count": 6},
    "rules switched": {"allow": ["past"], "forbid": ["pronouns"], "count": 4},
    **{level: {"vocabulary": level, "strategy": ["any"], "count": 6} for level in vocabulary.ids()},
}


def request(kind: str, seed: int = 1, **others: object) -> Request:
    """The request of a kind."""
    return Request(**{**KINDS[kind], "seed": seed, **others})
