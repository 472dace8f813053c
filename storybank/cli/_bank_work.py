"""What the parts of `storybank bank` do and print."""

import argparse
from collections.abc import Callable, Iterable, Mapping

from storybank.bank import Bank, Kept, Wanted
from storybank.cli import _bank_care
from storybank.cli._bank_said import after_colon, opened, problems_said, say_notes
from storybank.cli._list import as_json
from storybank.cli._shown import shown
from storybank.errors import RequestError

_INDENT = 4


def _add(options: argparse.Namespace) -> int:
    from storybank.finished import read_set

    sets = [read_set(path) for path in options.sets]
    with Bank(options.bank) as bank:
        for path, one in zip(options.sets, sets, strict=True):
            added = bank.add(one)
            say_notes(added.notes)
            there = f", {added.there} were there already" if added.there else ""
            print(f"{path.name}: {problems_said(added.new)} kept{there}")
    return 0


def _find(options: argparse.Namespace) -> int:
    wanted = wanted_of(options)
    for name, value, least in (("most", options.most, 1), ("skip", options.skip, 0)):
        if value < least:
            raise RequestError(f"--{name} is {value}. Choose a whole number from {least} on.")
    with opened(options) as bank:
        found = bank.find(wanted, options.most, options.skip)
        if options.json:
            print(
                as_json(
                    [
                        {"number": one.number, "star": one.star, "note": one.note, **one.node}
                        for one in found
                    ]
                )
            )
            return 0
        count = bank.count(wanted)
    for one in found:
        print(shown("\n".join(_lines(one))))
    part = f", shown {options.skip + 1} to {options.skip + len(found)}" if found else ""
    print(f"{problems_said(count)} found{part if count > len(found) else ''}")
    return 0


def _lines(one: Kept) -> Iterable[str]:
    marks = " *" if one.star else ""
    marks += " retired" if one.retired else ""
    yield f"#{one.number} {one.code}{marks}  {_about(one)}"
    for line in one.text.split("\n"):
        yield " " * _INDENT + line
    if one.note:
        yield " " * _INDENT + f"note: {one.note}"


def _about(one: Kept) -> str:
    way = f", {one.strategy}" if one.strategy else ""
    return f"{one.theme}/{one.scene}, {one.situation}{way}, {one.vocabulary}"


def _figures(options: argparse.Namespace) -> int:
    with opened(options) as bank:
        figures = bank.figures()
    if options.json:
        print(as_json(figures))
        return 0
    for name, value in figures.items():
        if isinstance(value, Mapping):
            print(f"{name}:")
            for key, count in value.items():
                print(shown(f"  {key or '(none)'}: {count:,}"))
        else:
            print(f"{name}: {value:,}" if isinstance(value, int) else f"{name}: {value}")
    return 0


def _mark(
    told: str, change: Callable[[Bank, list[str]], int]
) -> Callable[[argparse.Namespace], int]:
    def run(options: argparse.Namespace) -> int:
        with opened(options) as bank:
            print(f"{problems_said(change(bank, options.codes))} {told}")
        return 0

    return run


def _note(options: argparse.Namespace) -> int:
    with opened(options) as bank:
        changed = bank.note(options.code, options.text)
    if changed:
        print("note kept" if options.text.strip() else "note taken away")
    else:
        print("the note stood so already")
    return 0


def _undo(options: argparse.Namespace) -> int:
    with opened(options) as bank:
        action = bank.undo()
    print(shown(f"undone: {action.what} of {action.day}{after_colon(action.told)}"))
    return 0


def _log(options: argparse.Namespace) -> int:
    with opened(options) as bank:
        for one in bank.actions(max(1, options.most)):
            undone = "  (undone)" if one.undone else "" if one.finished else "  (not ended)"
            print(shown(f"{one.day}  {one.what}{after_colon(one.told)}{undone}"))
    return 0


def _used(options: argparse.Namespace) -> int:
    with opened(options) as bank:
        new = bank.used(options.label, options.codes, options.day)
    there = len(set(options.codes)) - new
    more = f"; it has had {there:,} of them before" if there > 0 else ""
    print(shown(f"{problems_said(new)} recorded for {options.label}{more}"))
    return 0


def _had(options: argparse.Namespace) -> int:
    with opened(options) as bank:
        if options.label is None:
            found = bank.classes()
            print(
                as_json(found)
                if options.json
                else shown("\n".join(found)) or "no class has had anything"
            )
            return 0
        hand_outs = bank.history(options.label.strip())
    if options.json:
        print(
            as_json(
                [
                    {
                        "class": one.label,
                        "day": one.day,
                        "problems": [
                            {"number": number, "code": code, "text": text}
                            for number, code, text in one.problems
                        ],
                    }
                    for one in hand_outs
                ]
            )
        )
        return 0
    for one in hand_outs:
        print(shown(f"{one.day}: {problems_said(len(one.problems))}"))
        for number, code, text in one.problems:
            print(shown(f"  #{number} {code}  {' '.join(text.split())}"))
    return 0


def _export(options: argparse.Namespace) -> int:
    from storybank.cli import _bank_files

    with opened(options) as bank:
        count, where = _bank_files.export(
            bank, wanted_of(options), options.out, options.most, overwrite=options.overwrite
        )
    if where is not None:
        print(f"{problems_said(count)} written to {where}")
    return 0


def wanted_of(options: argparse.Namespace) -> Wanted:
    """What the options say is wanted."""
    return Wanted(
        theme=options.theme,
        scene=options.scene,
        situation=options.situation,
        strategy=options.strategy,
        vocabulary=options.vocabulary,
        standard=options.standard,
        season=options.season,
        within=options.within,
        words=options.words,
        starred=options.starred,
        noted=options.noted,
        retired=options.retired,
        had_by=options.had_by and options.had_by.strip(),
        new_to=options.new_to and options.new_to.strip(),
        code=options.code,
        like=options.like,
    )


WORK: Mapping[str, Callable[[argparse.Namespace], int]] = {
    "add": _add,
    "find": _find,
    "about": _figures,
    "star": _mark("starred", lambda bank, codes: bank.star(codes)),
    "unstar": _mark("without the star", lambda bank, codes: bank.star(codes, on=False)),
    "retire": _mark("retired", lambda bank, codes: bank.retire(codes)),
    "bring-back": _mark("brought back", lambda bank, codes: bank.retire(codes, on=False)),
    "note": _note,
    "undo": _undo,
    "log": _log,
    "used": _used,
    "had": _had,
    "export": _export,
    "import": _bank_care.take_in,
    "merge": _bank_care.merge,
    "check": _bank_care.check,
    "backup": _bank_care.backup,
    "restore": _bank_care.restore,
}
"""The work of each part of the command."""
