"""Runs the benchmarks named on the command line, or all, and prints ratios against targets.

Each benchmark runs its peer beside Storybank in the same run, in alternating rounds, so the
ratios hold on a busy machine too; the absolute figures do not. Exit code 1 if a target is missed.
The peers come from the extra `bench`.
"""

import importlib
import sys
from collections.abc import Sequence
from pathlib import Path

from rounds import Row


def main(names: Sequence[str]) -> int:
    """0 if all targets are met, 1 if one is missed, 2 for a name that is no benchmark."""
    known = _known()
    unknown = [name for name in names if name not in known]
    if unknown:
        print(f"There is no benchmark {', '.join(unknown)}. Choose from: {', '.join(known)}.")
        return 2
    missed = 0
    for name in names or known:
        module = importlib.import_module(name)
        print(f"\n{name}: {module.TITLE}", flush=True)
        for row in module.rows():
            print(f"  {row}", flush=True)
            missed += not row.met
    print(f"\n{missed} targets missed." if missed else "\nAll targets met.")
    return int(missed > 0)


def _known() -> list[str]:
    """The files of this folder that are benchmarks."""
    helpers = {"run", "rounds", "bare_document"}
    names = sorted(path.stem for path in Path(__file__).parent.glob("*.py"))
    return [name for name in names if not name.startswith("_") and name not in helpers]


__all__ = ["Row", "main"]

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
