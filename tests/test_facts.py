"""Related facts, checked against sympy's own arithmetic and against classroom examples."""

import sympy
from sympy.parsing.sympy_parser import parse_expr

from storybank.facts import related_facts
from storybank.model import Triple


def test_every_fact_within_100_is_true_and_says_the_same_triple() -> None:
    for c in range(2, 101):
        for a in range(1, c):
            facts = related_facts(Triple(a, c - a, c))
            for fact in facts:
                left, right = fact.split(" = ")
                assert parse_expr(left) == sympy.Integer(right), fact
                numbers = [int(word) for word in fact.split() if word.isdigit()]
                assert sorted(numbers) == sorted((a, c - a, c))
                assert fact.isascii()


def test_four_different_facts_and_two_for_equal_parts() -> None:
    # Common practice, no source: a fact family has four members, that of a double two.
    for c in range(2, 101):
        for a in range(1, c):
            facts = related_facts(Triple(a, c - a, c))
            assert len(set(facts)) == len(facts) == (2 if 2 * a == c else 4)


def test_order_is_two_additions_then_two_subtractions() -> None:
    # 8 + 4 = 12 and 12 - 8 = 4 stand together in CCSS-M 1.OA.6.
    assert related_facts(Triple(8, 4, 12)) == (
        "8 + 4 = 12",
        "4 + 8 = 12",
        "12 - 8 = 4",
        "12 - 4 = 8",
    )
    assert related_facts(Triple(7, 7, 14)) == ("7 + 7 = 14", "14 - 7 = 7")
