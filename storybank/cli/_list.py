"""`storybank list`: what there is to choose from."""

import argparse
from pathlib import Path
from typing import Any

from storybank import catalog
from storybank.compiled import compiled
from storybank.errors import RequestError

Entry = dict[str, Any]
KINDS = (
    "themes", "situations", "strategies", "vocabulary", "rules", "mistakes", "formats", "pages",
    "names", "standards",
)  # fmt: skip


def add_to(commands: Any) -> None:
    """Adds the command to the parser."""
    listing = commands.add_parser("list", help="what there is to choose from")
    listing.add_argument("kind", nargs="?", choices=KINDS, metavar="|".join(KINDS))
    listing.add_argument("--json", action="store_true")
    listing.add_argument(
        "--for", dest="day", metavar="YYYY-MM-DD", help="themes in season on a day, the best first"
    )
    listing.add_argument(
        "--climate", choices=("warm", "temperate"), help="themes that suit a climate"
    )
    listing.set_defaults(command=run)


def run(options: argparse.Namespace) -> int:
    """Prints what there is; exit code 0."""
    if options.day is not None or options.climate is not None:
        asked = "--climate" if options.day is None else "--for"
        if options.kind != "themes":
            raise RequestError(
                f"{asked} is for themes, and the list asked for is {options.kind or 'all'}. "
                f"Write: storybank list themes {asked} {options.day or options.climate}"
            )
    if options.kind == "themes":
        return _list_themes(options)
    kinds = KINDS if options.kind is None else (options.kind,)
    found = {kind: _entries(kind) for kind in kinds}
    if options.json:
        named = [{**entry, "kind": kind} for kind in kinds for entry in found[kind]]
        print(as_json(named if options.kind is None else found[options.kind]))
        return 0
    width = max(len(entry["id"]) for kind in kinds for entry in found[kind])
    for kind in kinds:
        if options.kind is None:
            print(f"{kind}:")
        for entry in found[kind]:
            more = f"  {entry['more']}" if entry.get("more") else ""
            print(f"  {entry['id']:<{width}}  {entry['title']}{more}")
    return 0


def _list_themes(options: argparse.Namespace) -> int:
    from storybank.cli import _themes

    if options.day is None and options.climate is None:
        found = _entries("themes")
    else:
        found = _themes.entries(options.day, options.climate)
    if options.json:
        print(as_json(found))
    else:
        print("\n".join(_themes.lines(found, options.day)))
    return 0


def as_json(value: Any) -> str:
    """The value as JSON text in several lines."""
    import json

    return json.dumps(value, ensure_ascii=False, indent=1)


def _entries(kind: str) -> list[Entry]:
    """What there is of a kind; all but a teacher's own lists of names is kept between runs."""
    if kind == "names" and any(Path().glob("*.names.csv")):
        return _names(Path())
    return compiled("listing", catalog.pack_files(), _all_entries)[kind]


def _all_entries() -> dict[str, list[Entry]]:
    from storybank import documents, mistakes, situations, standards, strategies, vocabulary
    from storybank.cli import _themes

    return {
        "themes": _themes.entries(),
        "situations": [
            {"id": one.id, "title": one.title, "more": f"(grade {one.grade})", "grade": one.grade}
            for one in situations.in_grade_order()
        ],
        "strategies": [
            {"id": one.id, "title": one.title, "more": one.teacher} for one in strategies.by_rank()
        ],
        "vocabulary": [
            {"id": name, "title": vocabulary.get(name).title} for name in vocabulary.ids()
        ],
        "rules": [
            {"id": one.id, "title": one.title, "settings": list(one.settings)}
            for one in vocabulary.RULES
        ],
        "mistakes": [{"id": name, "title": mistakes.get(name).TITLE} for name in mistakes.ids()],
        "formats": [{"id": name, "title": one.title} for name, one in documents.formats().items()],
        "pages": [
            {"id": name, "title": one.TITLE} for name, one in documents.kinds.kinds().items()
        ],
        "names": _names(None),
        "standards": [
            {"id": one.code, "title": one.text, "more": f"(grade {one.grade})", "grade": one.grade}
            for one in standards.common_core()
        ],
    }


def _names(folder: Path | None) -> list[Entry]:
    """Our lists of names, with `folder` also those in it."""
    from storybank import people

    return [
        {"id": name, "title": people.named_list(name, folder).title}
        for name in people.rosters(folder)
    ]
