"""What `storybank bank import`, `merge`, `check`, `backup` and `restore` do and print."""

import argparse
import sys

from storybank.bank import Bank, look_at
from storybank.cli._bank_said import opened, problems_said, say_notes
from storybank.cli._progress import Progress
from storybank.cli._shown import shown
from storybank.errors import BankError


def take_in(options: argparse.Namespace) -> int:
    """Takes files in; each is kept wholly, or nothing of it."""
    for path in options.files:
        if not path.is_file():
            raise BankError(f'There is no file "{path}" to import. Check its name and folder.')
    with Bank(options.bank) as bank:
        for path in options.files:
            done = bank.take_in(path, skip_bad=options.skip_bad)
            what = "row" if path.suffix.lower() == ".csv" else "line"
            for number, why in done.bad:
                print(f"passed over {path.name}, {what} {number}: {why}", file=sys.stderr)
            if done.passed_over > len(done.bad):
                print(f"... and {done.passed_over - len(done.bad)} more", file=sys.stderr)
            say_notes(done.notes)
            there = f", {done.there} were there already" if done.there else ""
            bad = ""
            if done.passed_over:
                ones = "one" if done.passed_over == 1 else "ones"
                bad = f", {done.passed_over:,} bad {ones} passed over"
            print(f"{path.name}: {problems_said(done.new)} kept{there}{bad}")
    return 0


def merge(options: argparse.Namespace) -> int:
    """Merges other banks; each is kept wholly, or nothing of it."""
    for other in options.others:
        look_at(other)  # Before a bank is made here for nothing.
    with Bank(options.bank) as bank:
        for other in options.others:
            try:
                new, count = bank.merge(other, Progress("problems merged"))
            except KeyboardInterrupt:
                print(
                    f"storybank: stopped; nothing of {shown(other.name)} was merged.",
                    file=sys.stderr,
                )
                return 130
            print(f"{other.name}: {new:,} of {problems_said(count)} new")
    return 0


def check(options: argparse.Namespace) -> int:
    """Says what is wrong with a bank; the exit code is 2 where anything is."""
    with opened(options) as bank:
        report = bank.check(judging=not options.quick, report=Progress("problems looked at"))
    say_notes(report.notes)
    for fault in report.faults:
        print(shown(f"fault: {fault}"), file=sys.stderr)
    if report.more:
        print(f"... and {report.more} more faults", file=sys.stderr)
    judged = "" if options.quick else f", {report.judged:,} judged afresh"
    print(f"{problems_said(report.problems)}{judged}, digest {report.digest}")
    if report.faults:
        print(
            f"storybank: the bank has {len(report.faults) + report.more} faults. Bring a backup "
            f"back with: storybank bank restore {options.bank} BACKUP",
            file=sys.stderr,
        )
        return 2
    print("all is sound")
    return 0


def backup(options: argparse.Namespace) -> int:
    """Writes a backup."""
    with opened(options) as bank:
        print(f"backup: {bank.back_up()}")
    return 0


def restore(options: argparse.Namespace) -> int:
    """Brings a backup back."""
    from storybank.bank import restore

    kept = restore(options.bank, options.backup)
    print(f"restored from {options.backup}")
    if kept is not None:
        print(f"the bank as it was before: {kept}")
    return 0
