"""Judges a finished problem afresh, by the wishes and packs of the request that made it."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from storybank import catalog, checks, people, themes, vocabulary
from storybank.checks.labels import standards_of
from storybank.errors import NotHereError, PackError, RequestError
from storybank.finished._naming import pronouns
from storybank.finished._node import Node
from storybank.model import Problem
from storybank.model.words import Theme
from storybank.people import Person
from storybank.themes import selection
from storybank.vocabulary import Vocabulary

_WITHIN = (1, 1000)


def judge(problem: Problem, request: Mapping[str, Any]) -> tuple[str, ...]:
    """What the checks find in a finished problem, at each of its levels; nothing in a good one.

    `request` is that of the set that the problem was made for, with the keys of the set format:
    its limit, its packs and its wishes are what the problem is judged by. Standards of a state
    are not judged, since a request does not hold them; nor are the pronouns of children of a class
    list, which are those that the text uses. Raises NotHereError, naming it, for a theme or
    vocabulary that is not on this machine, and PackError for a request that is damaged.
    """
    return tuple([message for _, message in findings(problem, request)])


def findings(problem: Problem, request: Mapping[str, Any]) -> list[tuple[str, str]]:
    """The same, each message behind the id of the check that says it; raises as `judge`."""
    asked = _Asked.of(request)
    theme = asked.theme(problem.theme)
    found = _judged(problem, asked, theme, asked.vocabulary(problem.vocabulary))
    for level in problem.levels:
        pack = _shipped(level.vocabulary)
        of_level = _judged(level, asked, theme, pack)
        found += [(check, f"At {pack.id}: {message}") for check, message in of_level]
    return found


@dataclass(frozen=True, slots=True)
class _Asked:
    """What of a request a problem is judged by."""

    within: int
    pack: str
    allow: tuple[str, ...]
    forbid: tuple[str, ...]
    without: tuple[str, ...]
    pair: bool
    roomy: bool
    class_list: bool
    names_from: str | None
    of_state: bool

    @classmethod
    def of(cls, request: Mapping[str, Any]) -> "_Asked":
        """The wishes of a request. Raises PackError for one that is damaged."""
        node = Node(dict(request), "The request")
        return cls(
            within=node.number("within", *_WITHIN),
            pack=node.text("vocabulary"),
            allow=_texts(node, "allow"),
            forbid=_texts(node, "forbid"),
            without=_texts(node, "without"),
            pair=bool(_texts(node, "pair")),
            roomy=node.plain("extra_number") is True,
            class_list=node.has("names"),
            names_from=node.text_or_none("names_from"),
            of_state=node.has("standards"),
        )

    def theme(self, name: str) -> Theme:
        """The theme of that id without the subjects that were switched off."""
        try:
            if not catalog.is_path(name):
                return selection.without(themes.get(name), frozenset(self.without))
        except RequestError:
            pass
        raise NotHereError(f"theme {name} is not on this machine")

    def vocabulary(self, name: str) -> Vocabulary:
        """The vocabulary of that id, with the rules that were switched."""
        pack = _shipped(name)
        if name != self.pack:
            return pack
        try:
            return vocabulary.switched(pack, self.allow, self.forbid)
        except RequestError as error:
            raise PackError(f"The request is damaged: {error}") from error

    def person(self, name: str, pronoun: str | None) -> Person:
        """The person of that name: as the list of names has it, or else with the `pronoun`."""
        if self.class_list:
            return Person(name, pronoun)
        known = _listed(self.names_from)
        return Person(name, known[name]) if name in known else Person(name, pronoun)


def _texts(node: Node, key: str) -> tuple[str, ...]:
    """The texts under a key of the request; later versions may leave it out."""
    return node.texts(key) if node.has(key) else ()


def _shipped(name: str) -> Vocabulary:
    if name not in vocabulary.ids():
        raise NotHereError(f"vocabulary {name} is not on this machine")
    return vocabulary.get(name)


def _listed(name: str | None) -> Mapping[str, str | None]:
    """The pronoun of each name of our lists; that of the list `name`, if it is ours, goes first.

    A list of a teacher's own is not read, so nothing is known of its names.
    """
    if name is not None and name not in people.rosters():
        return {}
    named = people.own_list() if name is None else people.named_list(name)
    listed = {one.name: one.pronoun for one in people.own_list().people}
    return {**listed, **{one.name: one.pronoun for one in named.people}}


def _judged(
    problem: Problem, asked: _Asked, theme: Theme, pack: Vocabulary
) -> list[tuple[str, str]]:
    """What the checks find in a problem told at one level, each behind the id of its check."""
    if asked.of_state:
        problem = replace(problem, standards=standards_of(problem))
    context = checks.Context(
        limit=asked.within,
        vocabulary=vocabulary.with_one_more_sentence(pack) if asked.roomy else pack,
        theme=theme,
        asked_pair=asked.pair,
        names_are_listed=not asked.class_list,
        people=tuple(map(asked.person, problem.story.people, pronouns(problem))),
        measured=problem.story.unit is not None,
    )
    return checks.findings(problem, context)
