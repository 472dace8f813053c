"""The rules of a vocabulary pack that a teacher can switch, one by one."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

from storybank.errors import RequestError, unknown_value
from storybank.vocabulary._pack import Vocabulary
from storybank.vocabulary._settings import CHOICES, NUMBERS


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule that can be switched: its title says what `allow` lets a story have.

    `settings` are those of a pack that it stands for; `opens` are loosened with them where the
    rule is allowed, and stay where it is forbidden.
    """

    id: str
    title: str
    settings: tuple[str, ...]
    opens: tuple[str, ...] = ()


RULES = (
    Rule("pronouns", "he or she for a person already named", ("pronouns",)),
    Rule("past", "stories told in the past", ("tenses",)),
    Rule(
        "long-sentences", "longer statements and questions", ("statement_words", "question_words")
    ),
    Rule("many-sentences", "more sentences and more words in all", ("sentences", "words")),
    Rule(
        "two-clauses",
        "two verbs in a sentence, and telling as at level 4",
        ("finite_verbs",),
        ("level",),
    ),
    Rule(
        "long-phrases",
        'two describing words, or two phrases such as "in a box", and telling as at level 4',
        ("modifiers", "prepositional_phrases"),
        ("level",),
    ),
    Rule(
        "unfamiliar-words",
        "more words outside the word list, explained or not",
        ("unfamiliar_words", "unfamiliar_need"),
    ),
    Rule(
        "second-meanings",
        "words with a second everyday meaning (table, bat), explained or not",
        ("second_meanings",),
    ),
    Rule("no-picture", "things that have no picture", ("things_need_picture",)),
    Rule("fuller-wording", "the exact word (a crate), not the plain one (a box)", ("plain_words",)),
    Rule("long-names", "longer names of the lists of names", ("name_letters",)),
    Rule("question-in-text", "no line of its own for the question", ("question_line",)),
)
_MOST_KNOWN = 256


def rule(rule_id: str) -> Rule:
    """The rule of that id. Raises RequestError, naming the valid ids, for any other."""
    for one in RULES:
        if one.id == rule_id:
            return one
    raise RequestError(unknown_value("rule", rule_id, (one.id for one in RULES)))


def switched(
    pack: Vocabulary,
    plainest: Vocabulary,
    ordinary: Vocabulary,
    allow: Sequence[str],
    forbid: Sequence[str],
) -> Vocabulary:
    """The pack with each rule of `allow` as loose as in `ordinary`, of `forbid` as in `plainest`.

    A rule that is looser or plainer already stays as it is. Raises RequestError for an unknown
    rule, and for one both allowed and forbidden.
    """
    both = [name for name in allow if name in forbid]
    if both:
        raise RequestError(
            f'The rule "{both[0]}" is both allowed and forbidden. Leave it out of --allow or of '
            "--forbid."
        )
    for name in (*allow, *forbid):
        rule(name)
    if not allow and not forbid:
        return pack
    return _switched(pack, plainest, ordinary, tuple(sorted(allow)), tuple(sorted(forbid)))


def unchanged(
    pack: Vocabulary, limits: Vocabulary, allow: Sequence[str], forbid: Sequence[str]
) -> list[str]:
    """A note on each rule that was switched to `limits` and stood in `pack` that way already."""
    return [
        f"--{option} {name} changes nothing: {pack.id} has the rule so already."
        for option, names in (("allow", allow), ("forbid", forbid))
        for name in names
        if all(getattr(pack, one) == getattr(limits, one) for one in rule(name).settings)
    ]


@lru_cache(maxsize=_MOST_KNOWN)
def _switched(
    pack: Vocabulary,
    plainest: Vocabulary,
    ordinary: Vocabulary,
    allow: tuple[str, ...],
    forbid: tuple[str, ...],
) -> Vocabulary:
    values: dict[str, Any] = {}
    for name in allow:
        for setting in (*rule(name).settings, *rule(name).opens):
            values[setting] = _looser(setting, getattr(pack, setting), getattr(ordinary, setting))
    for name in forbid:
        for setting in rule(name).settings:
            values[setting] = _plainer(setting, getattr(pack, setting), getattr(plainest, setting))
    return replace(pack, **values, shipped=False)


def _looser(setting: str, own: Any, ordinary: Any) -> Any:
    if setting == "tenses":
        return tuple(dict.fromkeys((*own, *ordinary)))
    return max(own, ordinary, key=lambda value: _freedom(setting, value))


def _plainer(setting: str, own: Any, plainest: Any) -> Any:
    if setting == "tenses":
        return plainest
    return min(own, plainest, key=lambda value: _freedom(setting, value))


def _freedom(setting: str, value: Any) -> int:
    """How much a value lets a story have; settings that are no number or choice are yes or no."""
    if setting in NUMBERS:
        return int(value)
    if setting in CHOICES:
        return CHOICES[setting].index(value)
    return int(not value)
