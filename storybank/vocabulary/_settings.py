"""The settings of a vocabulary pack: which values each may take, read from a file by line."""

from collections.abc import Mapping
from typing import Any

from storybank.cleaning import clean_text
from storybank.errors import unknown_value
from storybank.located import At, Faults, ListAt, MappingAt
from storybank.model.words import Gloss

NUMBERS: Mapping[str, tuple[int, int]] = {
    "level": (1, 4),
    "statement_words": (5, 30),
    "question_words": (5, 30),
    "sentences": (2, 8),
    "words": (12, 90),
    "further_sentences": (0, 3),
    "further_words": (0, 30),
    "finite_verbs": (1, 3),
    "modifiers": (0, 4),
    "prepositional_phrases": (0, 4),
    "unfamiliar_words": (0, 12),
    "name_letters": (3, 20),
}
CHOICES: Mapping[str, tuple[str, ...]] = {
    "pronouns": ("none", "one-person", "one-candidate"),
    "unfamiliar_need": ("picture", "word-bank", "none"),
    "second_meanings": ("picture", "word-bank", "free"),
    "question_line": ("own", "text"),
}
"""The values of each setting, the plainest first."""
YES_NO = ("plain_words", "things_need_picture")
"""Settings that make a story plainer where they say yes."""
LISTS: Mapping[str, tuple[str, ...]] = {
    "tenses": ("present", "past"),
    "past_in_question": ("did", "had", "was", "were"),
    "support": (
        "pictures", "word-bank", "cognates", "my-word", "bar", "started-line", "answer-frame",
        "sentence-starter", "talk-frames",
    ),
}  # fmt: skip
SETTINGS = ("title", *NUMBERS, *CHOICES, *YES_NO, *LISTS, "talk_frames")
"""What a pack of one's own may set."""
FIXED = ("passive", "if_clauses", "negation", "relative_clauses", "math_words")
"""What only our own packs say: no telling has these forms, and mathematics words stay."""
_TITLE, _FRAME, _FRAMES = 80, 120, 8


def value_of(setting: str, node: Any, faults: Faults) -> Any:
    """The value that `node` gives a setting, or None after noting a fault."""
    if setting in NUMBERS:
        return number(setting, node, faults)
    if setting in CHOICES:
        return choice(setting, node, CHOICES[setting], faults)
    if setting in YES_NO:
        said = choice(setting, node, ("yes", "no"), faults)
        return None if said is None else said == "yes"
    if setting in LISTS:
        return choices(setting, node, LISTS[setting], faults)
    if setting == "title":
        return text(setting, node, _TITLE, faults)
    return _frames(node, faults)


def number(setting: str, node: Any, faults: Faults) -> int | None:
    """A whole number within its bounds."""
    low, high = NUMBERS[setting]
    if isinstance(node, At) and node.isascii() and node.isdigit() and len(node) < 4:
        found = int(node)
        if low <= found <= high:
            return found
    faults.add(
        node,
        f'the setting {setting} is "{_shown(node)}". Write a whole number from {low} to {high}.',
    )
    return None


def choice(setting: str, node: Any, valid: tuple[str, ...], faults: Faults) -> str | None:
    """One of the valid words."""
    if isinstance(node, At) and node in valid:
        return str(node)
    faults.add(node, unknown_value(f"value of {setting}", _shown(node), valid))
    return None


def choices(
    setting: str, node: Any, valid: tuple[str, ...], faults: Faults
) -> tuple[str, ...] | None:
    """A list of valid words; of tenses at least one."""
    if not isinstance(node, ListAt) or (setting == "tenses" and not node):
        faults.add(
            node,
            f'the setting {setting} is "{_shown(node)}", and must be a list such as '
            f"[{valid[0]}]. Choose from: {', '.join(valid)}.",
        )
        return None
    found = [choice(setting, item, valid, faults) for item in node]
    return tuple(dict.fromkeys(one for one in found if one is not None))


def text(setting: str, node: Any, longest: int, faults: Faults) -> str | None:
    """A line of text, cleaned."""
    said = clean_text(str(node), longest)[0] if isinstance(node, At) else ""
    if said and said == " ".join(node.split()):
        return said
    faults.add(
        node,
        f'the setting {setting} is "{_shown(node)}". Write one line of plain text of at most '
        f"{longest} characters.",
    )
    return None


def gloss(word: str, item: Any) -> Gloss:
    """A mathematics word of our own packs, with its forms, its meaning and its translations."""
    told = ("forms", "meaning")
    translations = {str(key): str(value) for key, value in item.items() if key not in told}
    return Gloss(word, tuple(map(str, item["forms"])), str(item["meaning"]), None, translations)


def _frames(node: Any, faults: Faults) -> tuple[str, ...] | None:
    if not isinstance(node, ListAt) or len(node) > _FRAMES:
        faults.add(
            node,
            f'the setting talk_frames is "{_shown(node)}", and must be a list of at most {_FRAMES} '
            'sentences such as ["I start at ___."].',
        )
        return None
    found = [text("talk_frames", item, _FRAME, faults) for item in node]
    for item, said in zip(node, found, strict=True):
        if said is not None and "___" not in said:
            faults.add(
                item, f'the talk frame "{said}" has no blank. Write ___ where the child goes on.'
            )
    return tuple(one for one in found if one is not None)


def _shown(node: Any) -> str:
    if isinstance(node, MappingAt):
        return "a mapping of keys and values"
    if isinstance(node, ListAt):
        return "a list"
    return clean_text(str(node), 60)[0]
