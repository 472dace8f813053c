"""Files and banks that somebody made to do harm: refused or kept as plain text, never obeyed."""

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from bank.kept import a_set

from storybank import Bank, Request, make_set
from storybank.bank import Wanted
from storybank.cli import main
from storybank.errors import BankError

SQL = "'); DROP TABLE problem; --"
STEERS = "\x1b]0;x\x07\x1b[2Jred\x9b31m\u202e\u2066\x00\x08"


@pytest.fixture(scope="module")
def lines(tmp_path_factory: pytest.TempPathFactory) -> list[dict[str, Any]]:
    """The lines of a bank, which the tests spoil."""
    with Bank(tmp_path_factory.mktemp("lines") / "a.bank") as bank:
        bank.add(a_set())
        every = [one.code for one in bank.find()]
        bank.used("2B", every[:2], "2026-09-14")
        return [record.to_json() for _, record in bank.records()]


def taken(folder: Path, *lines: dict[str, Any] | str | bytes, skip_bad: bool = False) -> Bank:
    """A new bank into which the lines were taken."""
    texts = [one if isinstance(one, bytes | str) else text_of(one) for one in lines]
    text = b"\n".join(one if isinstance(one, bytes) else one.encode() for one in texts)
    (folder / "x.jsonl").write_bytes(text)
    bank = Bank(folder / "x.bank")
    bank.take_in(folder / "x.jsonl", skip_bad=skip_bad)
    return bank


def text_of(node: Any) -> str:
    return json.dumps(node)


def with_(line: dict[str, Any], **more: Any) -> dict[str, Any]:
    return {**json.loads(json.dumps(line)), **more}


def test_sql_is_text(lines: list[dict[str, Any]], tmp_path: Path) -> None:
    used = [{"class": SQL, "day": "2026-09-14", "hand_out": "ab12"}]
    with taken(tmp_path, *(with_(one, note=SQL, used=used, version=SQL) for one in lines)) as bank:
        assert bank.count() == len(lines)
        assert {one.note for one in bank.find()} == {SQL}
        assert bank.classes() == [SQL]
        assert len(bank.find(Wanted(had_by=SQL))) == len(lines)
        assert bank.check().faults == []


def test_what_steers_a_terminal_is_neither_kept_nor_printed(
    lines: list[dict[str, Any]], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    used = [{"class": f"2{STEERS}B", "day": "2026-09-14", "hand_out": "ab12"}]
    taken(tmp_path, with_(lines[0], note=f"a{STEERS}b", version=STEERS, used=used)).close()
    path = tmp_path / "x.bank"
    # And in a bank whose texts somebody wrote with another program.
    changed = ("action", "told"), ("action", "what"), ("problem", "note"), ("class", "label")
    for table, column in changed:
        _spoil(path, f"UPDATE {table} SET {column} = ?", f"a{STEERS}b")
    _spoil(path, "UPDATE hand_out SET day = ?", STEERS)
    _spoil(path, "UPDATE shelf SET theme = ?", STEERS)
    bad = text_of(with_(lines[0], used=[{**used[0], "day": STEERS}]))
    (tmp_path / "bad.jsonl").write_text(bad)
    (tmp_path / "bad.csv").write_text(f"star,record\n{STEERS},\n")
    for words in (
        ["find"], ["had"], ["log"], ["about"], ["check"], ["undo"],
        ["import", str(tmp_path / "bad.jsonl")], ["import", str(tmp_path / "bad.csv")],
        ["import", str(tmp_path / "bad.jsonl"), "--skip-bad"], ["find", "--had-by", STEERS],
        ["find", "--code", STEERS], ["find", "--scene", STEERS], ["find", "--words", STEERS],
    ):  # fmt: skip
        main(["bank", words[0], str(path), *words[1:]])
        printed = "".join(capsys.readouterr())
        assert not [one for one in printed if one != "\n" and not one.isprintable()], words


def _spoil(path: Path, asked: str, *values: Any) -> None:
    import sqlite3
    from contextlib import closing

    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute(asked, values)


BAD: dict[str, Any] = {
    "no JSON": "{",
    "an array": "[]",
    "null": "null",
    "another format": '{"format": "storybank-set/1"}',
    "deep": "[" * 500_000,
    "deep but whole": '{"a":' * 5000 + "1" + "}" * 5000,
    "no UTF-8": b'{"format": "\xff\xfe"}',
    "many digits": '{"place": ' + "9" * 5000 + "}",
    "NUL bytes": b"\0" * 100,
    "a very long line": "x" * (1 << 20) + "yz",
    "a very long empty line": b" " * (1 << 20) + b"yz",
    "an old Mac file": b"{}\r{}\r",
}


@pytest.mark.parametrize("line", BAD.values(), ids=BAD)
def test_a_line_that_is_none_is_passed_over_and_the_rest_is_kept(
    line: str | bytes, lines: list[dict[str, Any]], tmp_path: Path
) -> None:
    with pytest.raises(BankError, match=r"x\.jsonl, line 2: .+Nothing was kept"):
        taken(tmp_path, lines[0], line, lines[1])
    with Bank(tmp_path / "x.bank") as bank:
        assert bank.count() == 0
    with taken(tmp_path, lines[0], line, lines[1], skip_bad=True) as bank:
        assert bank.count() == 2


def _problem(**more: Any) -> dict[str, Any]:
    return {"problem": more}


SPOILED: dict[str, dict[str, Any]] = {
    "another text": _problem(text="Ana had 3 apples. How many apples did Ana have?"),
    "another answer": _problem(answer=3),
    "a surrogate": _problem(answer_sentence="There are \ud800 left."),
    "a command for a terminal": _problem(answer_sentence="\x1b[2J"),
    "not a number": _problem(reading={"words": 10, "spache": float("nan")}),
    "an endless number": _problem(reading={"words": 10, "spache": float("inf")}),
    "a number as a text": _problem(answer="3"),
    "a code of another form": _problem(code="'--"),
    "a theme that is a way": _problem(theme="../../etc/passwd"),
    "sql for a theme": _problem(theme=SQL),
    "no such situation": _problem(situation="x"),
    "a place of 2**62": {"place": 2**62},
    "a place below 0": {"place": -1},
    "a place that is true": {"place": True},
    "a star of another kind": {"star": "yes"},
    "no request": {"request": None},
    "an empty request": {"request": {}},
    "a request that is deep": {"request": {"within": 100, "without": [[[["a"]]]]}},
    "names": {"used": [{"class": "Ana, Ben, " * 6, "day": "2026-09-14", "hand_out": "a"}]},
    "no day": {"used": [{"class": "2B", "day": "2026-02-31", "hand_out": "a"}]},
    "a mark of sql": {"used": [{"class": "2B", "day": "2026-02-21", "hand_out": "a';"}]},
    "used by itself": {"used": "2B"},
    "used by very many": {"used": [{}] * 10_001},
}


@pytest.mark.parametrize("change", SPOILED.values(), ids=SPOILED)
def test_a_spoiled_line_is_refused(
    change: dict[str, Any], lines: list[dict[str, Any]], tmp_path: Path
) -> None:
    changed = with_(lines[0])
    for key, value in change.items():
        if isinstance(value, dict) and value:
            changed[key] = {**changed[key], **value}
        else:
            changed[key] = value
    with pytest.raises(BankError, match=r"line 1: .+Nothing was kept"):
        taken(tmp_path, changed)
    with Bank(tmp_path / "x.bank") as bank:
        assert bank.count() == 0 and bank.classes() == []


CLAIMS: dict[str, tuple[str, dict[str, Any]]] = {
    "a lower limit": ("one step", {"within": 20}),
    "a level of plain English": ("one step", {"vocabulary": "level-1", "claim": "level-1"}),
    "no keywords": ("one step", {"keywords": "none"}),
    "no number left out": ("a missing number", {"missing": False}),
    "no extra number": ("an extra number", {"extra_number": False}),
    "no levels": ("side by side", {"levels_side_by_side": False}),
    "no number sets": ("number sets", {"number_sets": []}),
    "no family": ("fact families", {"fact_families": False}),
    "no numbers of a teacher's own": ("named numbers", {"pair": []}),
    "levels": ("one step", {"levels_side_by_side": True}),
}


@pytest.mark.parametrize(("kind", "claim"), CLAIMS.values(), ids=CLAIMS)
def test_a_request_that_claims_what_does_not_hold_passes_no_check(
    kind: str, claim: dict[str, Any], tmp_path: Path
) -> None:
    """At least one of the set breaks what is claimed; none that does is kept."""
    claim = dict(claim)
    level = claim.pop("claim", None)
    made = make_set(Request(strategy=["any"], count=40, seed=7)) if kind == "one step" else None
    with Bank(tmp_path / "a.bank") as bank:
        bank.add(made or a_set(kind))
        records = [record.to_json() for _, record in bank.records()]
    for one in records:
        one["request"] = {**one["request"], **claim}
        one["problem"]["vocabulary"] = level or one["problem"]["vocabulary"]
    with taken(tmp_path, *records, skip_bad=True) as bank:
        assert bank.count() < len(records)
        assert bank.check().faults == []


def test_two_problems_of_one_code_are_both_kept_and_asked_for_by_number(
    lines: list[dict[str, Any]], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    two = with_(lines[1])
    two["problem"]["code"] = lines[0]["problem"]["code"]
    with taken(tmp_path, lines[0], two) as bank:
        assert bank.count() == 2
        code = lines[0]["problem"]["code"]
        with pytest.raises(BankError, match="several problems: #1, #2"):
            bank.star([code])
        assert len(bank.find(Wanted(code=[code]))) == 2
        assert bank.star(["#2"]) == 1
        for seed in range(6):
            made = bank.hand_out(Request(strategy=["any"], count=1, seed=seed), f"2{seed}")
            assert len({one.code for one in made.problems}) == len(made.problems)


def test_a_level_that_is_not_here_hides_no_fault(tmp_path: Path) -> None:
    """What cannot be judged at one level is judged at all others."""
    with Bank(tmp_path / "a.bank") as bank:
        bank.add(a_set("side by side"))
        line = next(record.to_json() for _, record in bank.records())
    line["problem"]["sentences"][0] = "Ana had 5 frogs."
    line["problem"]["text"] = " ".join(line["problem"]["sentences"])
    line["problem"]["levels"][0]["vocabulary"] = "somebody's own"
    with pytest.raises(BankError, match=r"line 1: .+Nothing was kept"):
        taken(tmp_path, line)


def test_a_problem_longer_than_any_of_ours_is_refused(tmp_path: Path) -> None:
    """Beyond a megabyte it could not be unpacked again, and its line not be taken in."""
    from dataclasses import replace

    made = a_set()
    frames = tuple(f"{at} {'and so on ' * 90}." for at in range(400))
    long = replace(made.problems[0], story=replace(made.problems[0].story, talk_frames=frames))
    with Bank(tmp_path / "a.bank") as bank:
        with pytest.raises(BankError, match="more than 262,144 bytes"):
            bank.add(replace(made, problems=(long,)))
        assert bank.count() == 0


def test_the_last_of_two_equal_keys_counts(lines: list[dict[str, Any]], tmp_path: Path) -> None:
    with taken(tmp_path, text_of(lines[0])[:-1] + ', "star": true, "note": "last"}') as bank:
        (one,) = bank.find()
        assert one.star and one.note == "last"
        assert bank.check().faults == []


def test_a_bank_that_another_program_wrote_into_is_not_merged(tmp_path: Path) -> None:
    with Bank(tmp_path / "a.bank") as bank:
        bank.add(a_set())
        bank.used("2B", [bank.find()[0].code])
    good = (tmp_path / "a.bank").read_bytes()
    names = "Ana, Ben, Chen, Dara, Eli, Fay, Gus, Hana, Ira"
    for asked, value in (
        ("UPDATE class SET label = ?", names),
        ("UPDATE problem SET note = ?", "a" * 501),
        ("UPDATE problem SET note = ?", STEERS),
        ("UPDATE hand_out SET day = ?", SQL),
        ("UPDATE hand_out SET mark = ?", SQL),
        ("UPDATE class SET label = ?", b"2B"),
    ):
        (tmp_path / "b.bank").write_bytes(good)
        _spoil(tmp_path / "b.bank", asked, value)
        with Bank(tmp_path / "new.bank") as bank:
            with pytest.raises(BankError, match="not written by Storybank alone"):
                bank.merge(tmp_path / "b.bank")
            assert bank.count() == 0


def test_large_files_take_little_memory(lines: list[dict[str, Any]], tmp_path: Path) -> None:
    """Long lines whose values take far more in memory, and one of 100 megabytes of nothing.

    In a process of its own, whose memory is bounded: all at once they would take twice as much.
    """
    junk = (
        b'{"format":"storybank-problem/1","version":"1","request":{},"problem":{"x":['
        + b"[]," * 200_000
        + b"[]]}}\n"
    )
    path = tmp_path / "x.jsonl"
    with path.open("wb") as stream:
        for _ in range(60):
            stream.write(junk)
        stream.write(text_of(lines[0]).encode() + b"\n")
        stream.truncate(stream.tell() + (100 << 20))
    command = (
        "import resource, sys; from storybank.cli import main; "
        "resource.setrlimit(resource.RLIMIT_AS, (400 << 20,) * 2); sys.exit(main(sys.argv[1:]))"
    )
    done = subprocess.run(
        [sys.executable, "-c", command, "bank", "import", tmp_path / "a.bank", path, "--skip-bad"],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr[-500:]
    assert done.stdout == "x.jsonl: 1 problem kept, 61 bad ones passed over\n"
