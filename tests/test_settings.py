"""Settings of a teacher, subjects and festivals, and the themes in season on a day."""

import json
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from storybank import Request, make_set, settings, themes
from storybank.cli import main
from storybank.errors import RequestError
from storybank.model.words import Header, Theme
from storybank.themes import seasons, selection

Capsys = pytest.CaptureFixture[str]
MAKE = ["make", "--seed", "3", "--count", "4", "--format", "json", "--out", "-"]


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder of the user's settings; the current folder is another, and empty."""
    here, config = tmp_path / "here", tmp_path / "config"
    here.mkdir()
    (config / "storybank").mkdir(parents=True)
    monkeypatch.chdir(here)
    monkeypatch.setenv("XDG_CONFIG_HOME", str(config))
    return config / "storybank"


def made(arguments: list[str], capsys: Capsys) -> tuple[dict, str]:
    """The set as JSON and what was said on standard error."""
    assert main([*MAKE, *arguments]) == 0
    said = capsys.readouterr()
    return json.loads(said.out), said.err


def write(path: Path, text: str) -> Path:
    path.write_text(text, encoding="utf-8")
    return path


def test_without_a_settings_file_the_set_is_the_same(home: Path, capsys: Capsys) -> None:
    plain, said = made([], capsys)
    assert "settings" not in said
    assert plain == json.loads(make_set(Request(seed=3, count=4)).to_text())
    assert (plain["request"]["without"], plain["request"]["festivals"]) == ([], [])


def test_settings_are_sought_in_order_and_named(home: Path, capsys: Capsys) -> None:
    write(home / "storybank.yaml", "within: 40\n")
    of_user, said = made([], capsys)
    assert of_user["request"]["within"] == 40
    assert f"note: settings from {home / 'storybank.yaml'}: within" in said
    write(Path("storybank.yaml"), "within: 50\n")
    here, said = made([], capsys)
    assert here["request"]["within"] == 50
    assert "note: settings from storybank.yaml: within" in said
    named = write(Path("other.yaml"), "within: 60\n")
    there, said = made(["--settings", str(named)], capsys)
    assert there["request"]["within"] == 60
    assert "other.yaml" in said
    none, said = made(["--no-settings"], capsys)
    assert none["request"]["within"] == 100
    assert "settings" not in said


def test_the_home_folder_is_sought_where_no_other_is_named(tmp_path: Path) -> None:
    folder = tmp_path / ".config" / "storybank"
    folder.mkdir(parents=True)
    write(folder / "storybank.yaml", "within: 30\n")
    found = settings.find(None, tmp_path, {"HOME": str(tmp_path)})
    assert found is not None and found.within == 30
    assert settings.find(None, tmp_path, {}) is None


def test_the_command_line_wins(home: Path, capsys: Capsys) -> None:
    write(
        Path("storybank.yaml"),
        "within: 50\nvocabulary: level-2\nwithout: [sweets]\nnames: class.txt\n",
    )
    write(Path("class.txt"), "Ana\nBo\n")
    request = made([], capsys)[0]["request"]
    assert request["vocabulary"] == "level-2"
    assert (request["without"], request["names"]) == (["sweets"], "class.txt")
    wish = ["--within", "90", "--vocabulary", "level-3", "--without", "pets", "buying"]
    request = made([*wish, "--names-from", "own"], capsys)[0]["request"]
    assert (request["within"], request["vocabulary"]) == (90, "level-3")
    assert request["without"] == ["buying", "pets"]
    assert (request["names"], request["names_from"]) == (None, "own")


def test_files_are_sought_beside_the_settings_and_no_path_is_stored(
    home: Path, capsys: Capsys
) -> None:
    write(home / "storybank.yaml", "vocabulary: mine.yaml\nnames: class.txt\n")
    write(home / "mine.yaml", "like: level-3\n")
    write(home / "class.txt", "Ana\nBo\n")
    set_, _ = made([], capsys)
    assert set_["request"]["vocabulary"] == "mine"
    assert set_["request"]["names"] == "class.txt"
    assert str(home) not in json.dumps(set_)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("withn: 50\n", ["line 1", "withn", 'Did you mean "within"?']),
        ("\nwithin: 3\n", ["line 2", "3", "5 to 1000"]),
        ("within: [50]\n", ["line 1", "within", "50"]),
        ("without: pets\n", ["line 1", "list", "[pets, sweets]"]),
        ("without:\n  - pets\n  - pest\n", ["line 3", "pest", 'Did you mean "pets"?']),
        ("festivals: [nothing such]\n", ["line 1", "nothing such"]),
        ("vocabulary: level-7\n", ["line 1", "level-7", "level-4"]),
        ("vocabulary: mine.yaml\n", ["line 1", "mine.yaml", "no file"]),
        ("names: class.txt\n", ["line 1", "class.txt", "no file"]),
        ("names: here.txt\nnames_from: own\n", ["line 2", "Keep one"]),
        ("within: 50\nwithin: 60\n", ["line 2", "twice"]),
        ("- within\n", ["line 1", "within: 50"]),
        ("a: [\n", ["not valid YAML"]),
        ("without: !!python/name:os.system [pets]\n", ["line 1", "tag"]),
    ],
)
def test_faulty_settings(text: str, words: list[str], home: Path, capsys: Capsys) -> None:
    write(Path("here.txt"), "Ana\n")
    write(Path("storybank.yaml"), text)
    assert main([*MAKE]) == 2
    said = capsys.readouterr()
    assert said.out == "" and "Traceback" not in said.err
    assert "storybank.yaml" in said.err
    for word in words:
        assert word in said.err


def test_settings_named_and_not_there(home: Path, capsys: Capsys) -> None:
    assert main([*MAKE, "--settings", "nowhere.yaml"]) == 2
    assert "nowhere.yaml" in capsys.readouterr().err
    write(Path("mine.yaml"), "")
    assert main([*MAKE, "--settings", "mine.yaml", "--no-settings"]) == 2
    assert "--no-settings" in capsys.readouterr().err
    assert main([*MAKE, "--settings", "mine.yaml"]) == 0


# Subjects and festivals


def _with_subjects(theme: str) -> dict[str, set[str]]:
    """The subjects of each scene and thing of a pack, by id."""
    pack = themes.get(theme)
    found = {name: set(scene.subjects) for name, scene in pack.scenes.items()}
    return found | {name: set(thing.subjects) for name, thing in pack.things.items()}


@pytest.mark.parametrize("subject", selection.SUBJECTS)
def test_a_subject_that_is_switched_off_is_not_told_of(subject: str) -> None:
    packs = [head.id for head in themes.headers() if head.observance is None]
    told = {name for pack in packs for name, has in _with_subjects(pack).items() if subject in has}
    if not told:
        pytest.skip(f"no pack has a scene or thing with {subject}")
    left = [
        selection.without(themes.get(name), frozenset({subject}))
        for name in selection.chosen((), (subject,), ())[0]
    ]
    for pack in left:
        assert all(subject not in scene.subjects for scene in pack.scenes.values())
        things = {name for scene in pack.scenes.values() for name in scene.things}
        assert all(subject not in pack.things[name].subjects for name in things)


def test_a_set_without_sweets_names_none() -> None:
    pack, sweets = next(
        (pack, some)
        for pack in map(themes.get, themes.ids())
        if (some := [t.noun.many for t in pack.things.values() if "sweets" in t.subjects])
    )

    def naming(without: list[str]) -> list[str]:
        wish = Request(theme=[pack.header.id], strategy=["any"], count=60, seed=1, without=without)
        texts = [problem.text for problem in make_set(wish).problems]
        return [text for text in texts if any(f" {name}" in text for name in sweets)]

    assert naming([])
    assert naming(["sweets"]) == []


def _pack(name: str, observance: str | None, subjects: tuple[str, ...]) -> Theme:
    """One of our packs under another name, every scene with these subjects."""
    pack = themes.get("winter-days")
    scenes = {key: replace(one, theme=name, subjects=subjects) for key, one in pack.scenes.items()}
    head = replace(pack.header, id=name, observance=observance)
    return replace(pack, header=head, scenes=scenes)


@pytest.fixture
def packs(monkeypatch: pytest.MonkeyPatch) -> None:
    """Three packs: one for any day, one of birthdays only, one tied to an observance."""
    known = {
        "any-days": _pack("any-days", None, ()),
        "parties": _pack("parties", None, ("birthdays",)),
        "lantern-night": _pack("lantern-night", "Lantern Night", ()),
    }
    monkeypatch.setattr(themes, "ids", lambda: tuple(known))
    monkeypatch.setattr(themes, "get", known.__getitem__)
    monkeypatch.setattr(themes, "headers", lambda: tuple(one.header for one in known.values()))


@pytest.mark.usefixtures("packs")
def test_an_observance_stays_out_unless_it_is_asked_for() -> None:
    assert selection.chosen((), (), ())[0] == ("any-days", "parties")
    for name in ("Lantern Night", "lantern night", "lantern-night"):
        on = selection.festivals([name])
        assert selection.chosen((), (), on)[0] == ("any-days", "parties", "lantern-night")
    assert selection.chosen(("lantern-night",), (), ())[0] == ("lantern-night",)
    with pytest.raises(RequestError, match="Lantern Night"):
        selection.festivals(["Lantern Nigth"])


@pytest.mark.usefixtures("packs")
def test_a_pack_with_nothing_left_is_left_out_or_refused() -> None:
    left, notes = selection.chosen((), ("birthdays",), ())
    assert left == ("any-days",)
    assert "parties" in notes[0] and "birthdays" in notes[0]
    for named in (("parties",), ("any-days", "parties")):
        with pytest.raises(RequestError) as caught:
            selection.chosen(named, ("birthdays",), ())
        for word in ("birthdays", "parties", "sweets"):
            assert word in str(caught.value)


@pytest.mark.usefixtures("packs")
def test_settings_switch_a_festival_on(home: Path, capsys: Capsys) -> None:
    write(Path("storybank.yaml"), "festivals: [lantern night]\nwithout: [birthdays]\n")
    set_, said = made([], capsys)
    assert set_["request"]["festivals"] == ["Lantern Night"]
    assert set_["request"]["theme"] == ["any-days", "lantern-night"]
    assert "Nothing is left of the theme parties" in said


# Seasons


def _head(name: str, months: tuple[int, ...], observance: str | None = None) -> Header:
    return Header(name, name, "any", months, "any", observance, "own", "nobody")


def test_the_middle_of_a_season_comes_before_its_edges() -> None:
    heads = [
        _head("whole-year", tuple(range(1, 13))),
        _head("begins", (1, 2, 3)),
        _head("ends", (11, 12, 1)),
        _head("middle", (12, 1, 2)),
        _head("month", (1,)),
        _head("unsorted", (1, 2, 12)),
        _head("summer", (6, 7, 8)),
        _head("feast", (12, 1, 2), "a feast"),
    ]
    best = seasons.best_first(heads, date(2027, 1, 18))
    assert [head.id for head in best] == [
        "middle", "unsorted", "month", "begins", "ends", "whole-year", "feast",
    ]  # fmt: skip
    late, early = date(2027, 1, 31), date(2027, 1, 2)
    assert [head.id for head in seasons.best_first(heads[1:3], late)] == ["begins", "ends"]
    assert [head.id for head in seasons.best_first(heads[1:3], early)] == ["ends", "begins"]


def test_themes_for_a_day(capsys: Capsys) -> None:
    assert main(["list", "themes", "--for", "2027-01-18", "--json"]) == 0
    entries = json.loads(capsys.readouterr().out)
    assert {entry["id"] for entry in entries} == set(themes.ids())
    by_id = {head.id: head for head in themes.headers()}
    for entry in entries:
        assert entry["in_season"] == (1 in by_id[entry["id"]].months)
    flags = [entry["in_season"] for entry in entries]
    assert flags == sorted(flags, reverse=True)
    assert main(["list", "themes", "--for", "2027-01-18"]) == 0
    listed = capsys.readouterr().out
    assert "winter-days" in listed and "summer-shore" not in listed


def test_themes_for_a_day_mark_the_observances(packs: None, capsys: Capsys) -> None:
    assert main(["list", "themes", "--for", "2027-01-18"]) == 0
    *table, last = capsys.readouterr().out.splitlines()
    assert "lantern-night (Lantern Night)" in last and "Tied to an observance" in last
    assert not any("lantern-night" in line for line in table)


def test_themes_of_a_climate(capsys: Capsys) -> None:
    for climate, other in (("warm", "temperate"), ("temperate", "warm")):
        assert main(["list", "themes", "--climate", climate, "--json"]) == 0
        found = {entry["id"] for entry in json.loads(capsys.readouterr().out)}
        assert found == {head.id for head in themes.headers() if head.climate != other}


def test_themes_are_listed_with_season_climate_and_observance(capsys: Capsys) -> None:
    assert main(["list", "themes"]) == 0
    head, *rows = capsys.readouterr().out.splitlines()
    assert head.split() == ["id", "title", "season", "climate", "observance"]
    assert [row.split()[0] for row in rows] == list(themes.ids())
    place = head.index("climate")
    for row, theme in zip(rows, themes.headers(), strict=True):
        assert row[place:].startswith(theme.climate)


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["themes", "--for", "2027-02-30"], ["2027-02-30", "no calendar", "2027-01-18"]),
        (["themes", "--for", "18.1.2027"], ["18.1.2027", "2027-01-18"]),
        (["themes", "--for", "20270118"], ["20270118", "hyphens"]),
        (["themes", "--for", ""], ["hyphens"]),
        (["names", "--for", "2027-01-18"], ["--for", "names", "list themes"]),
        (["--climate", "warm"], ["--climate", "list themes --climate warm"]),
    ],
)
def test_days_and_lists_that_cannot_be_asked_for(
    arguments: list[str], words: list[str], capsys: Capsys
) -> None:
    assert main(["list", *arguments]) == 2
    said = capsys.readouterr()
    assert said.out == "" and "Traceback" not in said.err
    for word in words:
        assert word in said.err
