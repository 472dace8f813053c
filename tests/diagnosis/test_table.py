"""Tables of answers in all the forms that spreadsheets and hands give them."""

from pathlib import Path
from typing import Any

import pytest
from diagnosis import answers
from hypothesis import given
from hypothesis import strategies as st

from storybank.diagnosis import read_set
from storybank.diagnosis._answered import Answered
from storybank.diagnosis._cells import NoNumberError, number_in
from storybank.diagnosis._table import letters, read_answers


@pytest.fixture
def answered(tmp_path: Path) -> Answered:
    return read_set(answers.written(tmp_path, answers.set_text()))


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("line_end", ["\n", "\r\n", "\r"])
def test_encodings_separators_and_line_ends(
    encoding: str, separator: str, line_end: str, answered: Answered, tmp_path: Path
) -> None:
    rows = [answers.row(answered.items, "Zo\u00eb", {0: 7}), answers.row(answered.items, "Ben")]
    text = answers.table(answered, rows, separator).replace("\n", line_end)
    path = tmp_path / "answers.csv"
    path.write_bytes(text.encode(encoding))
    found = read_answers(path, answered)
    assert [one.name for one in found.children] == ["Zo\u00eb", "Ben"]
    assert found.children[0].given[0] == 7
    right = {at: item.answer for at, item in enumerate(answered.items)}
    assert found.children[1].given == right
    assert len(found.notes) == (1 if encoding == "cp1252" else 0)


def test_a_line_that_names_the_separator(answered: Answered, tmp_path: Path) -> None:
    text = "sep=;\n" + answers.table(answered, [answers.row(answered.items, "Ana")], ";")
    found = read_answers(answers.written(tmp_path, text, "a.csv"), answered)
    assert found.children[0].given[3] == answered.items[3].answer


def test_names_and_numbers_of_children(answered: Answered, tmp_path: Path) -> None:
    names = ["7", "07", " Ana  B. ", '"Lopez, Ana"', "\u05d3\u05e0\u05d4", "'=SUM(1)", "Ben\u200b"]
    rows = [answers.row(answered.items, name) for name in names]
    path = answers.written(tmp_path, answers.table(answered, rows), "a.csv")
    read = [one.name for one in read_answers(path, answered).children]
    assert read == ["7", "07", "Ana B.", "Lopez, Ana", "\u05d3\u05e0\u05d4", "=SUM(1)", "Ben"]


def test_columns_in_any_order_and_some_of_them(answered: Answered, tmp_path: Path) -> None:
    first, second, last = answered.items[0], answered.items[1], answered.items[-1]
    text = f"No.,{last.code.lower()}, {first.code}\n1,5,\n2,,6\n"
    found = read_answers(answers.written(tmp_path, text, "a.csv"), answered)
    assert [one.given for one in found.children] == [{15: 5}, {0: 6}]
    (note,) = found.notes
    assert second.code in note and last.code not in note


def test_rows_and_columns_without_anything_are_passed_over(
    answered: Answered, tmp_path: Path
) -> None:
    text = answers.table(answered, [answers.row(answered.items, "Ana")])
    padded = "\n".join(f"{line},," for line in text.splitlines()) + "\n,,,\n\n"
    found = read_answers(answers.written(tmp_path, padded, "a.csv"), answered)
    assert len(found.children) == 1
    assert len(found.children[0].given) == 16


def test_problems_that_ask_for_all_pairs_are_left_out_and_named(tmp_path: Path) -> None:
    answered = read_set(answers.written(tmp_path, answers.mixed_text()))
    assert answered.lists and answered.items
    codes = [*(one.code for one in answered.items), *answered.lists]
    cells = [*(str(one.answer) for one in answered.items), *("3 and 4" for _ in answered.lists)]
    text = f"Child,{','.join(codes)}\nAna,{','.join(cells)}\n"
    found = read_answers(answers.written(tmp_path, text, "a.csv"), answered)
    assert len(found.children[0].given) == len(answered.items)
    assert answered.lists[0] in found.notes[0]


def test_words_behind_numbers_are_read_over_and_said(answered: Answered, tmp_path: Path) -> None:
    row = answers.row(answered.items, "Ana", {0: "12 apples", 2: "9cm"})
    path = answers.written(tmp_path, answers.table(answered, [row]), "a.csv")
    found = read_answers(path, answered)
    assert (found.children[0].given[0], found.children[0].given[2]) == (12, 9)
    assert "B2 as 12, D2 as 9" in found.notes[0]


@pytest.mark.parametrize(
    ("cell", "number"),
    [
        ("12", 12), (" 12 ", 12), ("12.0", 12), ("12,0", 12), ("12.00", 12), ("'12", 12),
        ("007", 7), ("0", 0), ("\u0661\u0662", 12), ("514", 514), ("", None), ("  ", None),
        ("\u200b", None), ("12 apples", 12), ("12.0 pears", 12),
    ],
)  # fmt: skip
def test_cells_that_hold_a_number_or_nothing(cell: str, number: int | None) -> None:
    assert number_in(cell)[0] == number


@pytest.mark.parametrize("cell", ["1O", "l2", "12x", "1 2", "1,204", "12/3", "\u00bd", "2\u00b2"])
def test_cells_that_only_look_like_a_number(cell: str) -> None:
    with pytest.raises(NoNumberError):
        number_in(cell)


@given(st.text(max_size=30))
def test_any_cell_is_a_number_nothing_or_refused(cell: str) -> None:
    try:
        number, _ = number_in(cell)
    except NoNumberError as error:
        assert ";" in str(error)
    else:
        assert number is None or 0 <= number <= 999_999


@given(st.integers(0, 20_000))
def test_letters_of_columns_count_as_spreadsheets_do(column: int) -> None:
    # Spreadsheets count in bijective base 26: A to Z, AA to AZ ... (common practice, no source).
    value = 0
    for letter in letters(column):
        value = value * 26 + ord(letter) - ord("A") + 1
    assert value == column + 1


def test_a_problem_of_two_steps_is_told_by_its_question(tmp_path: Path) -> None:
    # Problems of two steps have no equation, situation or numbers of their own at top level.
    def two_steps(value: dict[str, Any]) -> None:
        value["problems"][0].update(equations=None, situation=None, numbers=None, solution=None)

    text = answers.changed(answers.set_text(), two_steps)
    item, *_ = read_set(answers.written(tmp_path, text)).items
    assert item.told.endswith("?") and item.told.startswith("How many")
    assert item.situation is None and item.watched
