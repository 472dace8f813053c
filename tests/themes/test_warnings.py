"""What check-theme warns of, by line, with what to write instead."""

from pathlib import Path

import pytest

from storybank import themes, vocabulary
from storybank.theme_check import check_theme
from storybank.theme_check._plans import judged_plans
from storybank.themes.starter import starter

STARTER = starter("my-garden")


def warned(tmp_path: Path, change: tuple[str, str]) -> list[str]:
    """The warnings on the starter after a change; its line is said as HERE."""
    old, new = change
    assert STARTER.count(old) == 1, old
    text = STARTER.replace(old, new)
    path = tmp_path / "my-garden.yaml"
    path.write_text(text, encoding="utf-8")
    report = check_theme(path)
    assert report.faults == ()
    return [warning.replace(f"{line_of(text, new)}:", "HERE:") for warning in report.warnings]


def line_of(text: str, part: str) -> str:
    return f"my-garden.yaml, line {text[: text.index(part)].count(chr(10)) + 1}"


KEEP = "If it is right, keep it with `forms: as written` beside it."
FORMS = [
    (
        ("many: leaves", "many: leafs"),
        f'"leafs" is an unlikely plural of "leaf". Write `many: leaves`. {KEEP}',
    ),
    (
        ("many: pieces of mail", "many: piece of mails"),
        '"piece of mails" is an unlikely plural of "piece of mail". '
        f"Write `many: pieces of mail`. {KEEP}",
    ),
    (
        ("write writes wrote written", "write writes writed written"),
        '"writed" is an unlikely form of the verb "write". '
        f"Write `verb: write writes wrote written`. {KEEP}",
    ),
    (
        ("carry carries carried carried", "carry carrys carryed carried"),
        '"carrys", "carryed" are unlikely forms of the verb "carry". '
        f"Write `verb: carry carries carried carried`. {KEEP}",
    ),
    (
        ("meaning: a box for letters", "meaning: a open box for letters"),
        f'"a open" is unlikely. Write "an open". {KEEP}',
    ),
]


@pytest.mark.parametrize(("change", "text"), FORMS)
def test_an_unlikely_form(change: tuple[str, str], text: str, tmp_path: Path) -> None:
    assert warned(tmp_path, change) == [f"HERE: {text}"]


def test_an_author_vouches_for_a_form(tmp_path: Path) -> None:
    noun = ("many: leaves,", "many: leafs, forms: as written,")
    verb = ("write writes wrote written,", "write writes writ written, forms: as written,")
    assert warned(tmp_path, noun) == []
    assert warned(tmp_path, verb) == []


def test_translations_are_not_judged(tmp_path: Path) -> None:
    assert warned(tmp_path, ("es: hoja", "es: a hoja an mano")) == []


def test_a_thing_of_hard_words_is_not_told_at_some_levels(tmp_path: Path) -> None:
    change = ("one: a leaf, many: leaves", "one: a zinnia chrysalis, many: zinnia chrysalises")
    (warning,) = warned(tmp_path, change)
    assert warning == (
        'HERE: the thing "thing-a" is not told at level-1 and level-2: "zinnia" and "chrysalises" '
        "are not on the list of words that children of this age know well. Choose plainer words."
    )


def test_words_to_be_explained(tmp_path: Path) -> None:
    change = ("  collect: {forms: [collects, collected], picture", "  note: {picture")
    (warning,) = warned(tmp_path, change)
    line = line_of(STARTER, "verb: collect ")
    assert warning == (
        f"{line}: not on the list of words that children of this age know well and not explained "
        f"under `words`: collect ({line.rpartition(', ')[2]}). Sentences with such a word are not "
        "told at level-1, level-2 and level-3. Choose a plainer word, or add it under `words`: "
        "collect: {forms: [collect], picture: ..., meaning: ...}. Without a picture it is told at "
        "level-3, with one at level-1 and level-2 too."
    )


def test_a_word_that_is_explained_without_a_picture(tmp_path: Path) -> None:
    (warning,) = warned(tmp_path, ("picture: none, meaning: to bring", "meaning: to bring"))
    assert warning == (
        "HERE: explained without a picture, and so told at neither level-1 nor level-2: collect "
        f"({line_of(STARTER, '  collect:').rpartition(', ')[2]}). Write `picture:` with an emoji "
        "that shows the word, `plain:` with a plainer word where it stands in a holder or an act, "
        "or `picture: none` to leave it so."
    )


def test_a_word_with_a_plain_twin_needs_no_picture(tmp_path: Path) -> None:
    bare = ("picture: 📫, meaning: a box", "meaning: a box")
    assert warned(tmp_path, bare) == []
    text = STARTER.replace(*bare).replace("plain: a box, ", "")
    path = tmp_path / "my-garden.yaml"
    path.write_text(text, encoding="utf-8")
    assert "mailbox" in "".join(check_theme(path).warnings)


@pytest.mark.parametrize(
    ("picture", "levels"), [("none", ("level-3", "level-4")), ("📫", vocabulary.ids())]
)
def test_a_picture_lets_a_word_be_told_at_all_levels(
    picture: str, levels: tuple[str, ...], tmp_path: Path
) -> None:
    """What the warnings promise of a word that is explained with a picture, and without one."""
    path = tmp_path / "my-garden.yaml"
    text = STARTER.replace("picture: 📫", f"picture: {picture}").replace("plain: a box, ", "")
    path.write_text(text, encoding="utf-8")
    told = {
        one.level: one for one in judged_plans(themes.read(path)) if "mailbox" in one.story.text
    }
    assert tuple(told) == levels


def test_a_thing_without_a_picture(tmp_path: Path) -> None:
    (warning,) = warned(tmp_path, ("picture: 🍁, meaning: a flat", "meaning: a flat"))
    assert warning.startswith(
        "HERE: without a picture, and so not told at level-1 and level-2: thing-a (line"
    )
    assert "`picture: none`" in warning
    assert warned(tmp_path, ("picture: 🍁", "picture: none")) == []


def test_a_thing_that_no_scene_uses(tmp_path: Path) -> None:
    bead = "  bead: {one: a bead, many: beads, picture: 🔴, meaning: a ball}\nwords:"
    (warning,) = warned(tmp_path, ("\nwords:", f"\n{bead}"))
    assert warning.endswith(
        'no scene uses the thing "bead". Add it to the `things` of a scene and to the `room` of '
        "its holders, or delete the line."
    )


def test_a_holder_that_no_story_reaches(tmp_path: Path) -> None:
    shed = "shed: {is: place, one: a shed, prep: in, room: {thing-c: 2-60}}"
    old = "      child: {is: person, keeps: in a bag"
    change = (old, f"      {shed}\n{old}")
    (warning,) = warned(tmp_path, change)
    assert warning == (
        'HERE: no story reaches the holder "shed" of "scene-b". Give it an act, kinds or a '
        "comparison that fits a thing in its `room`, or delete it."
    )


def test_a_name_that_make_would_refuse(tmp_path: Path) -> None:
    path = tmp_path / "My Garden.yaml"
    path.write_text(STARTER, encoding="utf-8")
    (warning,) = check_theme(path).warnings
    assert warning == (
        'My Garden.yaml: The file "My Garden.yaml" cannot be a theme pack: its name is the '
        "theme's id, and a name does not hold a space, capital letters. Rename it to lower-case "
        "letters, digits and hyphens, such as my-garden.yaml."
    )


SMALL = """\
title: Stones
season: any
months: [1]
climate: any
observance: none
sources: our own invention
read_by: nobody yet
---
things:
  stone: {one: a stone, many: stones, picture: 🪨, meaning: a hard piece of the ground}
scenes:
  path:
    title: The path
    setting: on the path
    things: [stone]
    holders:
      child: {is: person, keeps: in a bag, room: {stone: 2-60}}
    acts:
      find: {effect: gain, holders: [child], verb: find finds found found, frame: "{who} {verb} {n} {things}", range: 1-20}
"""  # noqa: E501


def small(tmp_path: Path, text: str = SMALL) -> str:
    path = tmp_path / "stones.yaml"
    path.write_text(text, encoding="utf-8")
    return "\n".join(check_theme(path).warnings)


def test_a_poor_scene_is_told_what_to_add(tmp_path: Path) -> None:
    said = small(tmp_path)
    assert "no scene tells" in said
    for part in ("scenes: an act with `effect: lose` for a child or somebody "
                 "(for separate-change-unknown, ",
                 "Add kinds by size", "1 different verbs in acts with `effect: gain`; 8 are wanted",
                 "0 entries under `kinds`; 4 are wanted"):  # fmt: skip
        assert part in said, part


def test_what_was_advised_helps(tmp_path: Path) -> None:
    """The act advised makes the separate situations told; the advice is then gone."""
    give = (
        "      give: {effect: lose, holders: [child], verb: give gives gave given, "
        'frame: "{who} {verb} {n} {things} to {other}", range: 1-20}\n'
    )
    assert "separate" in small(tmp_path)
    assert "separate" not in small(tmp_path, SMALL + give)


def test_a_plain_twin_is_advised_where_sentences_are_too_long(tmp_path: Path) -> None:
    long = SMALL.replace("{n} {things}", "{n} {things} on the long and winding way to the school")
    said = small(tmp_path, long)
    assert "a `plain` twin, since its sentences have too many or too hard words for level-1" in said
