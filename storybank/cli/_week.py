"""`storybank week` and `new-week`: a whole week from a plan, and a plan to begin with."""

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from storybank.cli import _looks, _settings
from storybank.errors import RequestError, unknown_value

if TYPE_CHECKING:
    from storybank.model.week import Week
    from storybank.week import Plan

DEFAULT_FORMATS = "docx,json"


def add_to(commands: Any) -> None:
    """Adds the commands to the parser."""
    new = commands.add_parser("new-week", help="write the plan of a week to begin with")
    new.add_argument("name", metavar="NAME", help="such as my-week")
    new.add_argument("--out", metavar="FOLDER", type=Path, default=Path(), help="(this folder)")
    new.add_argument("--overwrite", action="store_true", help="replace a file that is there")
    new.set_defaults(command=_new_week)
    week = commands.add_parser("week", help="make a whole week from a plan")
    week.add_argument("plan", metavar="PLAN.yaml", type=Path)
    week.add_argument("--out", metavar="FOLDER", type=Path, help="(named after the plan)")
    week.add_argument(
        "--only",
        metavar="DAY",
        action="extend",
        nargs="+",
        default=[],
        help="write the files of these days only: monday ...",
    )
    week.add_argument(
        "--format", metavar="docx,html,json", default=DEFAULT_FORMATS, help="(docx,json)"
    )
    _looks.add_to(week)
    _settings.add_to(week)
    week.add_argument("--overwrite", action="store_true", help="replace files that are there")
    week.set_defaults(command=_week)


def _new_week(options: argparse.Namespace) -> int:
    from storybank.documents import write_files
    from storybank.themes import checked_name
    from storybank.week import starter

    name = checked_name(options.name.removesuffix(".yaml"), ())
    path = options.out / f"{name}.yaml"
    contents = {path.name: starter(str(path)).encode("utf-8")}
    write_files(options.out, contents, overwrite=options.overwrite)
    print(f"{path}: change what stands behind the colons; its notes say how.")
    print(f"  storybank week {path} --out {name}    makes the week")
    return 0


def _week(options: argparse.Namespace) -> int:
    """Makes the week; the files are checked for before it is made, and written at the end."""
    from storybank import documents, settings, vocabulary
    from storybank.documents import week as week_pages
    from storybank.week import make_week, read_plan, usual_group, with_settings

    formats = _formats(options.format)
    file = _settings.found(options)
    # The command line wins over the plan, and the plan over the settings.
    plan = with_settings(read_plan(options.plan, group=usual_group(file)), file)
    layout = _looks.layout(settings.merged(file, vars(options)))
    only = _only(options.only, plan)
    folder = options.out or Path(options.plan.stem)
    groups = [vocabulary.find(name).id for name in plan.groups]
    days = {
        f"{number}-{day.name}": day.pages
        for number, day in enumerate(plan.days, 1)
        if not only or day.name in only
    }
    suffixes = [f".{one}" for one in formats if one != "json"]
    names = week_pages.names(days, groups, whole=not only)
    files = [f"{name}{suffix}" for suffix in suffixes for name in names]
    if "json" in formats:
        files += [*(f"{day}.json" for day in days), *([] if only else ["week.json"])]
    documents.check_template(formats, layout)
    documents.check_targets(folder, files, overwrite=options.overwrite)
    week = make_week(plan, lambda day: print(f"{day} ...", file=sys.stderr, flush=True))
    for note in week.notes:
        print(f"note: {note}", file=sys.stderr)
    if plan.seed is None:
        print(
            f"seed {week.seed}: write `seed: {week.seed}` into the plan to get this week again",
            file=sys.stderr,
        )
    chosen = [one for one in week.days if one.id in days] if only else None
    contents = week_pages.files(week, layout, formats, chosen)
    written = documents.write_files(folder, contents, overwrite=options.overwrite)
    print(f"{len(week.days)} days, {len(week.problems)} problems, asked and given:")
    for line in _asked_and_given(week):
        print(f"  {line}")
    print(f"{len(written)} files:")
    for path in written:
        print(f"  {path}")
    return 0


def _asked_and_given(week: "Week") -> list[str]:
    """A line for each day, and one for the week: each wish with what was asked and given."""
    lines: dict[str, list[str]] = {}
    for row in week.kept:
        told = row.asked if row.met else f"{row.asked}, given {row.given}: NOT MET"
        if row.met and row.asked != row.given:
            told = f"{row.asked}, given {row.given}"
        lines.setdefault(row.day, []).append(f"{row.wish} {told}")
    return [f"{day}: {'; '.join(told)}" for day, told in lines.items()]


def _only(named: Sequence[str], plan: "Plan") -> list[str]:
    days = [one.name for one in plan.days]
    found = [one.strip().lower() for text in named for one in text.split(",") if one.strip()]
    for name in found:
        if name not in days:
            raise RequestError(unknown_value("day in this plan", name, days))
    return found


def _formats(text: str) -> list[str]:
    valid = ("docx", "html", "json")
    chosen = [name.strip() for name in text.split(",") if name.strip()]
    for name in chosen:
        if name not in valid:
            raise RequestError(unknown_value("format of a week", name, valid))
    if not chosen:
        raise RequestError(f"--format is empty. Choose from: {', '.join(valid)}.")
    return list(dict.fromkeys(chosen))
