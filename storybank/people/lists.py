"""Lists of reviewed names: our own, others beside it, and files that `new-names` wrote."""

from collections.abc import Iterator
from functools import cache
from pathlib import Path

from storybank import catalog
from storybank.cleaning import clean_text
from storybank.compiled import compiled
from storybank.errors import NamesError, unknown_value
from storybank.people.roster import PRONOUNS, Person, Roster
from storybank.people.tables import base_name, cells_of, decode, is_comment, lines_of, read_bytes

FOLDER = Path(__file__).parent
SUFFIX = ".names.csv"
NOT_REVIEWED = "# not reviewed yet"


def rosters(folder: Path | None = None) -> tuple[str, ...]:
    """The ids of all name lists, sorted; with `folder` also of the `*.names.csv` in it."""
    ids = set(catalog.entry_names(FOLDER, ".csv"))
    if folder is not None:
        ids.update(path.name.removesuffix(SUFFIX) for path in folder.glob(f"*{SUFFIX}"))
    return tuple(sorted(ids))


@cache
def own_list() -> Roster:
    """Storybank's own reviewed names: one word of 2 to 8 plain letters, many origins."""
    return _packaged("own")


def find_list(name: str, folder: Path) -> str | Path:
    """The id of one of our lists, or the file of another: `<name>.names.csv`, or a path to one.

    Files are sought in `folder`. Raises NamesError for an unknown list, naming the known ones, and
    for a file that is not there.
    """
    if name in rosters():
        return name
    if any(mark in name for mark in "/\\") or name.endswith((".csv", ".txt")):
        path = folder / name
        if not path.exists():
            raise NamesError(
                f"{base_name(path)}: there is no such file. Check the spelling and the folder; a "
                "name list is a text or CSV file with one name a line."
            )
        return path
    if name not in rosters(folder):
        raise NamesError(
            unknown_value("name list", clean_text(name, 100)[0], rosters(folder))
            + ' More are made with "storybank new-names --from LOCALE".'
        )
    return folder / f"{name}{SUFFIX}"


def named_list(name: str, folder: Path | None = None) -> Roster:
    """The name list `name`: one of ours, or `<name>.names.csv` in `folder`, or a path to one.

    `folder` is the current one if not given. Raises NamesError for an unknown list, naming the
    known ones, and, with file and line, for an entry that is not one word or appears twice.
    """
    path = find_list(name, folder if folder is not None else Path())
    if isinstance(path, str):
        return _packaged(path)
    file = base_name(path)
    text, notes = decode(read_bytes(path), file)
    return _roster(file, f"Name list {file}", text, notes)


@cache
def _packaged(name: str) -> Roster:
    path = FOLDER / f"{name.replace('-', '_')}.csv"
    return compiled(f"names-{name}", [path], lambda: _read_packaged(name, path))


def _read_packaged(name: str, path: Path) -> Roster:
    text = path.read_text(encoding="utf-8")
    return _roster(name, text.partition("\n")[0].lstrip("# "), text, ())


def _roster(name: str, title: str, text: str, notes: tuple[str, ...]) -> Roster:
    lines = lines_of(text)
    if any(line.lstrip('" ').casefold().startswith(NOT_REVIEWED) for _, line in lines):
        notes = (
            *notes,
            f"{name}: this list has not been reviewed. Delete the names you do not want, then "
            f'the line "{NOT_REVIEWED}".',
        )
    people = tuple(_people(name, lines))
    if not people:
        raise NamesError(
            f"{name}: the name list holds no name. Lines read: {len(lines)}, with a name: 0. "
            "Write a header line name,pronoun and one name a line."
        )
    return Roster(name, title, people, notes=notes)


def _people(file: str, lines: list[tuple[int, str]]) -> Iterator[Person]:
    seen: dict[str, int] = {}
    for number, line in lines:
        cells = cells_of(line)[1]
        if is_comment(line) or cells[0].casefold() == "name":
            continue
        where = f'{file}, line {number}: "{clean_text(cells[0], 40)[0]}"'
        name, changes = clean_text(cells[0], 40)
        if changes or len(name) < 2 or not all(map(_is_letter, name)) or name.endswith("s"):
            raise NamesError(
                f"{where} cannot stand in a name list, where each name is one word of letters "
                "that does not end in s. Delete the line, or use a class list, which takes any "
                "name."
            )
        if name.casefold() in seen:
            raise NamesError(
                f"{where} stands in line {seen[name.casefold()]} too. Delete one of the two."
            )
        seen[name.casefold()] = number
        pronoun = cells[1].casefold() if len(cells) > 1 else ""
        if pronoun not in (*PRONOUNS, "they", ""):
            raise NamesError(
                f'{where} has the pronoun "{clean_text(cells[1], 40)[0]}". '
                "Choose from: he, she, they, or leave it empty."
            )
        yield Person(name, pronoun if pronoun in PRONOUNS else None)


def _is_letter(char: str) -> bool:
    return char.isalpha()
