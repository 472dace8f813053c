"""What is asked of the numbers of one problem."""

from dataclasses import dataclass

from storybank import situations, strategies
from storybank.errors import RequestError, unknown_value
from storybank.model import Form

Range = tuple[int, int]
OPEN: Range = (1, 1000)
CROSSINGS = ("always", "never", "any")
WHOLE_AT_MOST = 20
WHOLE_AT_BEST = 10
"""A whole of 10 has eleven pairs of parts to find; a longer list is taken where none is left."""


@dataclass(frozen=True, slots=True)
class Wish:
    """All wishes about one triple; equal wishes share one supply.

    `strategy` None stands for any that suits the situation. `room` are the lowest and highest
    A, B and C that holder and act allow, in the order of the situation's roles. `keywords` are
    those that stand in the text; they matter for `diagnose` only. Raises RequestError for a
    `crossing` that is none of always, never, any.
    """

    situation: str
    strategy: str | None = None
    limit: int = 100
    crossing: str = "any"
    room: tuple[Range, Range, Range] = (OPEN, OPEN, OPEN)
    diagnose: bool = False
    keywords: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if self.crossing not in CROSSINGS:
            raise RequestError(unknown_value("crossing", self.crossing, CROSSINGS))


def suiting(situation: str, strategy: str | None) -> tuple[tuple[str, Form], ...]:
    """The wished strategies that suit the situation, each with every form it may take there.

    A strategy's forms stand in the order its own table gives them. Empty for
    both-parts-unknown, which suits no named strategy. Raises RequestError for an unknown id.
    """
    story = situations.get(situation)
    wished = map(strategies.get, strategies.ids() if strategy is None else (strategy,))
    suits = ((one.id, one.suit(story)) for one in wished)
    return tuple((name, form) for name, suit in suits if suit for form in suit.forms)
