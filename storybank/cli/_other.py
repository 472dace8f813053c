"""`storybank explain`, `list` and `new-names`, and the commands of `_packs`."""

import argparse
from pathlib import Path
from typing import Any

from storybank.cli import _packs
from storybank.errors import RequestError

KINDS = (
    "themes", "situations", "strategies", "vocabulary", "rules", "mistakes", "formats", "names",
)  # fmt: skip


def add_to(commands: Any) -> None:
    """Adds the commands to the parser."""
    explain = commands.add_parser("explain", help="every strategy for two numbers, cheapest first")
    explain.add_argument("numbers", metavar='"82 - 47"', help='also "46 + 38" and "47 + ? = 82"')
    explain.add_argument("--json", action="store_true")
    explain.set_defaults(command=_explain)
    listing = commands.add_parser("list", help="what there is to choose from")
    listing.add_argument("kind", nargs="?", choices=KINDS, metavar="|".join(KINDS))
    listing.add_argument("--json", action="store_true")
    listing.add_argument(
        "--for", dest="day", metavar="YYYY-MM-DD", help="themes in season on a day, the best first"
    )
    listing.add_argument(
        "--climate", choices=("warm", "temperate"), help="themes that suit a climate"
    )
    listing.set_defaults(command=_list)
    _packs.add_to(commands)
    names = commands.add_parser("new-names", help="write a list of names to be reviewed")
    names.add_argument("--from", dest="locale", required=True, metavar="LOCALE", help="e.g. es_MX")
    names.add_argument("--out", type=Path, metavar="FILE", help="(LOCALE.names.csv)")
    names.add_argument("--overwrite", action="store_true")
    names.set_defaults(command=_new_names)


def _explain(options: argparse.Namespace) -> int:
    from storybank.explanation import explain, explain_text

    if options.json:
        print(_json(explain(options.numbers)))
    else:
        print(explain_text(options.numbers))
    return 0


def _list(options: argparse.Namespace) -> int:
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
    entries = [{**entry, "kind": kind} for kind in kinds for entry in _entries(kind)]
    if options.json:
        if options.kind is not None:
            entries = [{k: v for k, v in entry.items() if k != "kind"} for entry in entries]
        print(_json(entries))
        return 0
    width = max(len(entry["id"]) for entry in entries)
    for kind in kinds:
        if options.kind is None:
            print(f"{kind}:")
        for entry in entries:
            if entry["kind"] == kind:
                more = f"  {entry['more']}" if entry.get("more") else ""
                print(f"  {entry['id']:<{width}}  {entry['title']}{more}")
    return 0


def _list_themes(options: argparse.Namespace) -> int:
    from storybank.cli import _themes

    found = _themes.entries(options.day, options.climate)
    if options.json:
        print(_json(found))
    else:
        print("\n".join(_themes.lines(found, options.day)))
    return 0


def _json(value: Any) -> str:
    import json

    return json.dumps(value, ensure_ascii=False, indent=1)


def _entries(kind: str) -> list[dict[str, Any]]:
    if kind == "themes":
        from storybank.cli import _themes

        return _themes.entries()
    if kind == "situations":
        from storybank import situations

        return [
            {"id": one.id, "title": one.title, "more": f"(grade {one.grade})", "grade": one.grade}
            for one in situations.in_grade_order()
        ]
    if kind == "strategies":
        from storybank import strategies

        return [
            {"id": one.id, "title": one.title, "more": one.teacher} for one in strategies.by_rank()
        ]
    if kind == "vocabulary":
        from storybank import vocabulary

        return [{"id": name, "title": vocabulary.get(name).title} for name in vocabulary.ids()]
    if kind == "rules":
        from storybank import vocabulary

        return [
            {"id": one.id, "title": one.title, "settings": list(one.settings)}
            for one in vocabulary.RULES
        ]
    if kind == "mistakes":
        from storybank import mistakes

        return [{"id": name, "title": mistakes.get(name).TITLE} for name in mistakes.ids()]
    if kind == "formats":
        from storybank import documents

        return [{"id": name, "title": one.title} for name, one in documents.formats().items()]
    from storybank import people

    here = people.rosters(Path())
    return [{"id": name, "title": people.named_list(name).title} for name in here]


def _new_names(options: argparse.Namespace) -> int:
    from storybank import people
    from storybank.documents import write_files
    from storybank.vocabulary.measures import listed_words

    text = people.new_names(options.locale, listed_words())
    path = options.out or Path(f"{options.locale}.names.csv")
    if path.suffix != ".csv":
        raise RequestError(
            f'The file "{path.name}" does not end in .csv. Choose a name such as '
            f"{options.locale}.names.csv."
        )
    write_files(path.parent, {path.name: text.encode("utf-8")}, overwrite=options.overwrite)
    print(f"{path}: read it over and delete the lines of names that do not suit your class,")
    print(f"then use it with: storybank make --names-from {path.name.removesuffix('.names.csv')}")
    return 0
