"""The fifteen situations against CCSS-M, Glossary, Table 1 (common addition and subtraction
situations), with the grades of mastery that the table's footnotes give."""

import pytest

from storybank import situations

# CCSS-M Table 1 by cell: equation that follows the story and grade of mastery. Situation
# equations as the table prints them ("2 + 3 = ?", "2 + ? = 5", "? + 3 = 5" ...), in A + B = C.
# Names in the last column: Carpenter, Fennema, Franke, Levi & Empson (1999).
TABLE_1 = {
    "join-result-unknown": ("A + B = ?", "K"),
    "join-change-unknown": ("A + ? = C", "1"),
    "join-start-unknown": ("? + B = C", "2"),
    "separate-result-unknown": ("C - B = ?", "K"),
    "separate-change-unknown": ("C - ? = A", "1"),
    "separate-start-unknown": ("? - B = A", "2"),
    "whole-unknown": ("A + B = ?", "K"),
    "part-unknown": ("A + ? = C", "1"),
    "both-parts-unknown": ("C = ? + ?", "K"),
    "compare-difference-unknown-more": ("A + ? = C", "1"),
    "compare-difference-unknown-fewer": ("A + ? = C", "1"),
    "compare-bigger-unknown-more": ("A + B = ?", "1"),
    "compare-bigger-unknown-fewer": ("? - B = A", "2"),
    "compare-smaller-unknown-more": ("? + B = C", "2"),
    "compare-smaller-unknown-fewer": ("C - B = ?", "1"),
}


def test_there_are_the_fifteen_subtypes_of_the_table() -> None:
    assert set(situations.ids()) == set(TABLE_1)


@pytest.mark.parametrize("name", TABLE_1)
def test_equation_and_grade_are_those_of_the_table(name: str) -> None:
    situation = situations.get(name)
    assert (situation.situation_equation, situation.grade) == TABLE_1[name]


@pytest.mark.parametrize("name", TABLE_1)
def test_solution_equation_isolates_the_unknown(name: str) -> None:
    """A triple put into both equations makes both true, with the unknown alone on the right."""
    situation = situations.get(name)
    a, b, c = 17, 26, 43
    roles = dict(zip(situation.roles, (a, b, c), strict=True))
    if situation.both_parts:
        assert situation.solution_equation == situation.situation_equation
        return
    answer = roles[situation.unknown]
    for pattern in (situation.situation_equation, situation.solution_equation):
        text = pattern.replace("A", str(a)).replace("B", str(b)).replace("C", str(c))
        left, right = text.replace("?", str(answer)).split("=")
        assert eval(left) == eval(right)
    assert situation.solution_equation.endswith("= ?")
    assert f" {situation.operation} " in situation.solution_equation


def test_grades_count_four_seven_and_four() -> None:
    """CCSS-M Table 1: 4 subtypes by the end of kindergarten, 7 more in grade 1, 4 in grade 2."""
    grades = [situations.get(name).grade for name in situations.ids()]
    assert [grades.count(grade) for grade in ("K", "1", "2")] == [4, 7, 4]


@pytest.mark.parametrize(
    ("name", "whole", "codes"),
    [
        # CCSS-M K.OA.2: word problems, add and subtract within 10.
        ("join-result-unknown", 9, ("K.OA.2",)),
        # K.OA.3: decompose numbers up to 10 in more than one way.
        ("both-parts-unknown", 10, ("K.OA.3",)),
        # 1.OA.1: within 20, unknowns in all positions; 1.OA.6: add and subtract within 20.
        ("join-change-unknown", 9, ("1.OA.1", "1.OA.6")),
        ("join-result-unknown", 17, ("1.OA.1", "1.OA.6")),
        # 2.OA.1: within 100, all positions; 2.NBT.5: fluently within 100.
        ("join-start-unknown", 84, ("2.OA.1", "2.NBT.5")),
        ("compare-smaller-unknown-more", 15, ("2.OA.1", "2.OA.2")),
        # 2.NBT.7: add and subtract within 1000.
        ("whole-unknown", 460, ("2.NBT.7",)),
    ],
)
def test_standards_follow_the_size_of_the_numbers(
    name: str, whole: int, codes: tuple[str, ...]
) -> None:
    assert situations.standards(situations.get(name), whole) == codes
