"""Chooses the numbers: lists what meets every wish, then draws evenly and repeatably."""

from storybank.number_choice._addends import SumSupply, SumWish, friendly_pairs, sum_supply
from storybank.number_choice._draw import choose
from storybank.number_choice._family import (
    FamilySupply,
    Wishes,
    explain_family_shortage,
    family_supply,
    wishes_for,
)
from storybank.number_choice._pairs import PairChoice, PairWay, for_pair
from storybank.number_choice._shortage import explain_shortage
from storybank.number_choice._supply import Supply, distinct_count, supply
from storybank.number_choice._two_steps import (
    StepKey,
    TwoStepSupply,
    TwoStepWish,
    key_of,
    two_step_supply,
)
from storybank.number_choice._wish import OPEN, Wish

__all__ = [
    "OPEN",
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
    "choose",
    "distinct_count",
    "explain_family_shortage",
    "explain_shortage",
    "family_supply",
    "for_pair",
    "friendly_pairs",
    "key_of",
    "sum_supply",
    "supply",
    "two_step_supply",
    "wishes_for",
]
