"""Sentences through link-grammar's `link-parser`: how many words fit nowhere, at what cost."""

import re
import subprocess
from collections.abc import Iterable
from typing import NamedTuple

WORST_COST = 5.0
_RESULT = re.compile(
    r"(?:Linkage 1|Unique linkage), cost vector = \(UNUSED=\s*(\d+) DIS=\s*(-?\d+\.\d+) "
)
_ONE = re.compile(r"\b1\b")


class Verdict(NamedTuple):
    """The best linkage: words that fit nowhere, and what its disjuncts cost."""

    unused: int
    cost: float

    @property
    def good(self) -> bool:
        """Whether every word fits, and not at an outlandish cost."""
        return self.unused == 0 and self.cost <= WORST_COST


def judge(program: str, sentences: Iterable[str]) -> dict[str, Verdict]:
    """The verdict on each sentence, from one process for all.

    The numeral 1 is handed over as the word "one": the dictionary knows only of the word that it
    asks for a singular ("1 more apple" is refused, "one more apple" is not).
    """
    asked = list(dict.fromkeys(sentences))
    lines = [_ONE.sub("one", sentence) for sentence in asked]
    done = subprocess.run(
        [program, "en", "-limit=1000", "-graphics=0", "-echo=1"],
        input="\n".join(lines) + "\n",
        capture_output=True,
        encoding="utf-8",
        check=True,
    )
    found: dict[str, Verdict] = {}
    current = 0
    for row in done.stdout.splitlines():
        if current < len(lines) and row == lines[current]:
            current += 1
        elif current and asked[current - 1] not in found and (match := _RESULT.search(row)):
            found[asked[current - 1]] = Verdict(int(match[1]), float(match[2]))
    missing = [sentence for sentence in asked if sentence not in found]
    assert not missing, f"link-parser gave no verdict on {len(missing)}, e.g. {missing[:3]}"
    return found
