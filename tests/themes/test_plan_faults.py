"""What a set would stop at, check-theme finds: every sentence of a theme is judged beforehand."""

from pathlib import Path

import pytest

from storybank import Request, checks, make_set
from storybank.errors import ProblemFaultError
from storybank.theme_check import check_theme
from storybank.theme_check._instead import INSTEAD
from storybank.themes.starter import starter

STARTER = starter("my-garden")

BROKEN = {
    "act with a pronoun": (
        'verb: use uses used used, frame: "{who} {verb} {n} {things} for a picture"',
        'verb: use uses used used, frame: "{who} {verb} {n} {things} for her bike"',
        'the act "child-uses" of "scene-a"', ["for her bike", "instead of his, her"],
    ),
    "act with more": (
        "{things} to a friend", "{things} for more bikes",
        'the act "child-sends" of "scene-b"', ["for more bikes", "no more, fewer, left"],
    ),
    "act with a comma and a number": (
        "{things} to the school", "{things} to the school, 5 big ones",
        'the act "helper-loses" of "scene-b"', ["5 big ones", "without commas"],
    ),
    "kinds": (
        "{after: on the grass}", "{after: on their grass}",
        'the kinds "where" of "scene-a"', ["on their grass", "instead of his, her"],
    ),
    "holder": (
        "keeps: in a basket", "keeps: in her basket",
        'the holder "child" of "scene-a"', ["in her basket", "instead of his, her"],
    ),
    "place": (
        "one: the mail room", "one: an mail room",
        'the holder "outside" of "scene-b"', ['"an mail" must be "a mail"'],
    ),
    "occasion": (
        "rest: in the mail room", "rest: in the mail room with her",
        'the occasion of "scene-b"', ["in the mail room with her", "prepositional phrases"],
    ),
    "goal": (
        "reason: for a picture", "reason: for 2 pictures",
        'the goal of "scene-a"', ["for 2 pictures", "no numbers"],
    ),
    "times": (
        "{first: in the morning", "{first: in his morning",
        'the times of "scene-a"', ["In his morning", "instead of his, her"],
    ),
    "setting": (
        "setting: at school", "setting: at their school",
        'the setting of "scene-b"', ["at their school", "instead of his, her"],
    ),
    "comparison": (
        "verb: write writes wrote written", "verb: can can could could",
        'the comparison "by-a-verb" of "scene-b"', ['Behind "can"', "only the verb"],
    ),
    "thing": (
        "many: flowers", "many: 3 flowers",
        'the thing "thing-b"', ["3 flowers"],
    ),
}  # fmt: skip


def broken(name: str, folder: Path) -> tuple[Path, int]:
    """The file of the starter broken in that way, and the line of the change."""
    old, new, *_ = BROKEN[name]
    assert STARTER.count(old) == 1, old
    text = STARTER.replace(old, new)
    path = folder / "my-garden.yaml"
    path.write_text(text, encoding="utf-8")
    return path, text[: text.index(new)].count("\n") + 1


@pytest.mark.parametrize("name", BROKEN)
def test_a_sentence_that_no_story_may_have(name: str, tmp_path: Path) -> None:
    path, line = broken(name, tmp_path)
    _, _, part, words = BROKEN[name]
    report = check_theme(path)
    assert report.faults
    assert report.samples == ()
    for fault in report.faults:
        assert fault.startswith(f"my-garden.yaml, line {line}: {part} makes a sentence that"), fault
        assert "; here stands `" in fault
    for word in words:
        assert word in "\n".join(report.faults)


def test_each_fault_is_said_once(tmp_path: Path) -> None:
    """Dozens of plans tell the act at three levels; its pronoun is one fault."""
    assert len(check_theme(broken("act with a pronoun", tmp_path)[0]).faults) == 1
    assert len(check_theme(broken("act with more", tmp_path)[0]).faults) == 1
    assert len(check_theme(broken("act with a comma and a number", tmp_path)[0]).faults) == 2


def test_faults_of_two_parts_are_said_with_their_lines(tmp_path: Path) -> None:
    first, second = BROKEN["act with more"], BROKEN["goal"]
    text = STARTER.replace(*first[:2]).replace(*second[:2])
    path = tmp_path / "my-garden.yaml"
    path.write_text(text, encoding="utf-8")
    faults = check_theme(path).faults
    lines = [text[: text.index(one[1])].count("\n") + 1 for one in (second, first)]
    assert [fault.partition(":")[0] for fault in faults] == [
        f"my-garden.yaml, line {line}" for line in lines
    ]


@pytest.mark.parametrize("name", ["act with more", "act with a comma and a number"])
def test_make_stops_at_what_was_found(name: str, tmp_path: Path) -> None:
    """The check is not stricter than the law: a set of such a theme cannot be made."""
    path, _ = broken(name, tmp_path)
    with pytest.raises(ProblemFaultError):
        for seed in range(6):
            make_set(Request(theme=[str(path)], strategy=["any"], count=60, seed=seed))


def test_for_every_check_of_language_it_is_said_what_to_write_instead() -> None:
    language = {name for name, *_ in (*checks._line_finders(), *checks._finders())}
    assert set(INSTEAD) == (language - {"reading-figures"}) | {"given"}
