"""The starter: a whole pack as it stands, and few lines away from a theme of one's own."""

import json
from pathlib import Path

import pytest

from storybank import situations, themes, vocabulary
from storybank.cli import main
from storybank.theme_check import check_theme, told_by
from storybank.themes.starter import SCHEMA, schema, starter

OWN = [
    ("title: My books", "title: Farm and library"),
    ("thing-a: {one: a leaf, many: leaves, picture: 🍁, meaning: a flat part that grows on a tree, "
     "es: hoja}",
     "thing-a: {one: a carrot, many: carrots, picture: 🥕, meaning: a long orange food, "
     "es: zanahoria}"),
    ("thing-b: {one: a flower, many: flowers, picture: 🌼, meaning: the pretty part of a plant, "
     "es: flor}",
     "thing-b: {one: an apple, many: apples, picture: 🍎, meaning: a round fruit, es: manzana}"),
    ("thing-c: {one: a letter, many: letters, picture: ✉️, meaning: paper with words for somebody "
     "far away, es: carta}",
     "thing-c: {one: a book, many: books, picture: 📕, meaning: pages with a story, es: libro}"),
    ("thing-d: {one: a package, many: packages, picture: 📦, meaning: a box that comes in the "
     "mail, es: paquete}",
     "thing-d: {one: a newspaper, many: newspapers, picture: 📰, meaning: paper with news, "
     "es: periódico}"),
    ("title: Leaves and flowers", "title: Carrots and apples"),
    ("setting: in the yard", "setting: on the farm"),
    ("{verb: play plays played played, rest: in the yard}",
     "{verb: work works worked worked, rest: on the farm}"),
    ("one: a teacher", "one: a farmer"),
    ("one: the yard", "one: the kitchen"),
    ("verb: pick picks picked picked, frame: \"{who} {verb} up",
     "verb: pull pulls pulled pulled, frame: \"{who} {verb} up"),
    ("{who} {verb} {n} {things} for a picture", "{who} {verb} {n} {things} for a snack"),
    ("{before: yellow}", "{before: green}"),
    ("first: {after: on the grass}, second: {after: on the path}",
     "first: {after: on the table}, second: {after: on the floor}"),
    ("reason: for a picture", "reason: for a party"),
    ("by-a-verb: {verb: find finds found found,", "by-a-verb: {verb: pull pulls pulled pulled,"),
    ("title: The mail room", "title: The library"),
    ("rest: in the mail room", "rest: in the library"),
    ("one: the mailbox", "one: the book box"),
    ("one: the mail room", "one: the library"),
    ("verb: mail mails mailed mailed, frame: \"{who} {verb} {n} {things}\"",
     "verb: return returns returned returned, frame: \"{who} {verb} {n} {things} to the class\""),
    ("{one: a piece of mail, many: pieces of mail}",
     "{one: a thing to read, many: things to read}"),
    ("by-a-verb: {verb: write writes wrote written,", "by-a-verb: {verb: read reads read read,"),
    ("mailbox: {forms: [mailbox], picture: 📫, meaning: a box for letters, es: buzón}",
     "snack: {forms: [snacks], picture: 🍪, meaning: a little food, es: merienda}"),
]  # fmt: skip


def written(folder: Path, name: str, text: str) -> Path:
    path = folder / f"{name}.yaml"
    path.write_text(text, encoding="utf-8")
    return path


def test_the_starter_passes_with_nothing_to_say(tmp_path: Path) -> None:
    report = check_theme(written(tmp_path, "my-garden", starter("my-garden")))
    assert (report.faults, report.warnings) == ((), ())
    told = [sample.partition(":")[0] for sample in report.samples]
    assert told == ["scene-a, level-4", "scene-b, level-4", "scene-a, level-1"]


@pytest.mark.parametrize("level", vocabulary.ids())
def test_every_scene_of_the_starter_tells_every_situation(level: str, tmp_path: Path) -> None:
    pack = themes.read(written(tmp_path, "my-garden", starter("my-garden")))
    assert 2 <= len(pack.scenes) <= 3
    for scene in pack.scenes.values():
        assert told_by(pack, scene, vocabulary.get(level)) == situations.ids(), scene.id


def test_a_first_theme_of_ones_own_changes_fewer_than_30_lines(tmp_path: Path) -> None:
    begun = starter("my-books")
    own = begun
    for old, new in OWN:
        assert own.count(old) == 1, old
        own = own.replace(old, new)
    before, after = begun.splitlines(), own.splitlines()
    assert len(before) == len(after)
    assert sum(old != new for old, new in zip(before, after, strict=True)) < 30
    told = "\n".join(line.partition("#")[0] for line in after)
    assert not [word for word in ("leaf", "flower", "letter", "package", "mail") if word in told]
    path = written(tmp_path, "my-books", own)
    report = check_theme(path)
    assert (report.faults, report.warnings) == ((), ())
    pack = themes.read(path)
    for level in vocabulary.ids():
        for scene in pack.scenes.values():
            assert told_by(pack, scene, vocabulary.get(level)) == situations.ids()


def test_the_starter_is_short() -> None:
    assert len(starter("my-garden").splitlines()) < 130


def test_a_single_act_of_the_starter_is_of_a_size_that_can_be(tmp_path: Path) -> None:
    pack = themes.read(written(tmp_path, "my-garden", starter("my-garden")))
    for scene in pack.scenes.values():
        for act in scene.acts:
            assert act.range[1] <= (20 if act.holders != ("helper",) else 100), act.id


def test_the_starter_explains_each_part() -> None:
    notes = "\n".join(line for line in starter("my-garden").splitlines() if "#" in line)
    for part in ("HEADER", "THINGS", "WORDS", "SCENES", "OCCASION", "HOLDERS", "ROOM", "ACTS",
                 "KINDS", "COMPARE", "GOAL", "TIMES", "SUBJECTS"):  # fmt: skip
        assert f"{part}:" in notes or f"{part} is" in notes, part


def test_its_editor_lines_name_the_schema_beside_it() -> None:
    lines = starter("my-garden").splitlines()
    mark = f"# yaml-language-server: $schema={SCHEMA}"
    assert lines[0] == mark
    assert f"--- {mark}" in lines


@pytest.mark.parametrize("out", [None, "packs", "packs/my-garden.yaml"])
def test_new_theme_writes_starter_and_schema(
    out: str | None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["new-theme", "my-garden", *(["--out", out] if out else [])]) == 0
    folder = tmp_path / "packs" if out else tmp_path
    assert (folder / "my-garden.yaml").read_text(encoding="utf-8") == starter("my-garden")
    assert (folder / SCHEMA).read_bytes() == schema()
    json.loads(schema())


def test_a_second_theme_in_the_same_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["new-theme", "my-garden"]) == 0
    assert main(["new-theme", "my-books"]) == 0
    assert main(["new-theme", "my-books", "--overwrite"]) == 0
