"""What the page of the bank shows: what there is to choose, and what a search found."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from storybank import strategies, themes, vocabulary
from storybank.bank import Bank, Kept, Wanted
from storybank.errors import StorybankError
from storybank.web import _choices
from storybank.web._bank_open import is_there, our_bank
from storybank.web._bank_search import A_PAGE, Search
from storybank.web._house import House

Choices = Sequence[tuple[str, str]]


@dataclass(frozen=True, slots=True)
class Card:
    """A kept problem as the page shows it; `about` says in words what it is."""

    kept: Kept
    about: str


@dataclass
class Looked:
    """What the bank holds and what was found; `fault` is why nothing could be found."""

    is_empty: bool = True
    classes: list[str] = field(default_factory=list)
    choices: Mapping[str, Choices] = field(default_factory=dict)
    scenes: Sequence[str] = ()
    cards: list[Card] = field(default_factory=list)
    count: int = 0
    page: int = 1
    figures: Mapping[str, Any] | None = None
    fault: StorybankError | None = None

    @property
    def first(self) -> int:
        """The place of the first card among all that was found, from 1 on."""
        return (self.page - 1) * A_PAGE + 1

    @property
    def is_last(self) -> bool:
        """Whether nothing more was found than this page and those before it show."""
        return self.page * A_PAGE >= self.count


def look(house: House, search: Search, *, figures: bool = False) -> Looked:
    """What the search finds in the bank; what is wrong with bank or search is said in it."""
    looked = Looked()
    try:
        if is_there(house):
            with our_bank(house) as bank:
                _look_into(bank, search, looked)
                looked.figures = bank.figures() if figures else None
    except StorybankError as error:
        looked.fault = error
    return looked


def _look_into(bank: Bank, search: Search, looked: Looked) -> None:
    known = bank.known()
    looked.is_empty = not bank.find(Wanted(retired=True), 1)
    looked.classes = bank.classes()
    looked.scenes = known.scenes
    seasons = dict.fromkeys(one.season for one in themes.headers())
    looked.choices = {
        "theme": [(one, _theme(one)) for one in known.themes],
        "situation": situation_choices(),
        "strategy": [(one.id, one.title) for one in _choices.strategy_choices()],
        "vocabulary": [(one, _level(one)) for one in known.vocabularies],
        "season": [(one, "Any season" if one == "any" else one.capitalize()) for one in seasons],
        "standard": [(one, one) for one in known.standards],
    }
    wanted, page = search.wanted(), search.page
    looked.count = bank.count(wanted)
    looked.page = min(page, max(1, -(-looked.count // A_PAGE)))
    found = bank.find(wanted, A_PAGE, (looked.page - 1) * A_PAGE)
    looked.cards = [Card(one, about(one)) for one in found]


def about(one: Kept) -> str:
    """What a kept problem is, in words: theme and scene, kind of story, strategy, level."""
    parts = (
        f"{_theme(one.theme)} / {one.scene.replace('-', ' ')}",
        _kind(one.situation),
        _strategy(one.strategy),
        _level(one.vocabulary),
    )
    return " \N{MIDDLE DOT} ".join(part for part in parts if part)


def titled(name: str, key: str) -> str:
    """The title of a theme, situation, strategy or level, as the figures of a bank call it."""
    said = {"themes": _theme, "situations": _kind, "strategies": _strategy, "vocabularies": _level}
    return said[name](key) or "(none)" if name in said else key


def situation_choices() -> list[tuple[str, str]]:
    """The kinds of story, each with its family and what is not known."""
    return [
        (cell.id, f"{name.partition(':')[0]}: {cell.unknown}")
        for name, cells in _choices.situation_grid()
        for cell in cells
    ]


def _kind(joined: str) -> str:
    titles = dict(situation_choices())
    return ", then ".join(titles.get(one, one) for one in joined.split("/"))


def _strategy(joined: str) -> str:
    ways = dict.fromkeys(one for one in joined.split("/") if one)
    return ", ".join(strategies.get(one).title if one in strategies.ids() else one for one in ways)


def _theme(name: str) -> str:
    titles = {one.id: one.title for one in themes.headers()}
    return titles.get(name, name.replace("-", " "))


def _level(name: str) -> str:
    said = name.replace("-", " ")
    return f"English {said}" if name in vocabulary.ids() else said
