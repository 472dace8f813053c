"""Chooses the numbers: lists what meets every wish, then draws evenly and repeatably."""

from typing import TYPE_CHECKING

from storybank.later import later
from storybank.number_choice._draw import choose
from storybank.number_choice._pairs import PairChoice, PairWay, for_pair
from storybank.number_choice._shortage import explain_shortage
from storybank.number_choice._supply import Supply, distinct_count, supply
from storybank.number_choice._wish import OPEN, Wish

if TYPE_CHECKING:
    from storybank.number_choice._addends import SumSupply, SumWish, friendly_pairs, sum_supply
    from storybank.number_choice._bits import (
        BothOrders,
        bits_of,
        bits_within,
        nth,
        place_of,
        triple_at,
    )
    from storybank.number_choice._family import (
        FamilySupply,
        Wishes,
        explain_family_shortage,
        family_supply,
        wishes_for,
    )
    from storybank.number_choice._two_steps import (
        SMALL,
        StepKey,
        TwoStepSupply,
        TwoStepWish,
        key_of,
        two_step_supply,
    )

__all__ = [
    "OPEN",
    "SMALL",
    "BothOrders",
    "FamilySupply",
    "PairChoice",
    "PairWay",
    "StepKey",
    "SumSupply",
    "SumWish",
    "Supply",
    "TwoStepSupply",
    "TwoStepWish",
    "Wish",
    "Wishes",
    "bits_of",
    "bits_within",
    "choose",
    "distinct_count",
    "explain_family_shortage",
    "explain_shortage",
    "family_supply",
    "for_pair",
    "friendly_pairs",
    "key_of",
    "nth",
    "place_of",
    "sum_supply",
    "supply",
    "triple_at",
    "two_step_supply",
    "wishes_for",
]

__getattr__ = later(
    __name__,
    {
        **dict.fromkeys(("SumSupply", "SumWish", "friendly_pairs", "sum_supply"), "_addends"),
        **dict.fromkeys(
            ("BothOrders", "bits_of", "bits_within", "nth", "place_of", "triple_at"), "_bits"
        ),
        **dict.fromkeys(
            ("FamilySupply", "Wishes", "explain_family_shortage", "family_supply", "wishes_for"),
            "_family",
        ),
        **dict.fromkeys(
            ("SMALL", "StepKey", "TwoStepSupply", "TwoStepWish", "key_of", "two_step_supply"),
            "_two_steps",
        ),
    },
)
