"""What the tests of growing share."""

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from storybank import Bank, Request
from storybank.bank import grow

WISHES = Request(
    theme=["autumn-harvest"], situation=["join-result-unknown"], within=20, seed=7, strategy=["any"]
)


def digest(path: Path) -> str:
    """The digest of a bank, whose tables are sound."""
    with Bank(path, create=False) as bank:
        report = bank.check(judging=False)
        assert report.faults == []
        return report.digest


@cache
def unbroken(problems: int) -> str:
    """The digest of a bank that was grown at once."""
    with TemporaryDirectory() as folder:
        path = Path(folder, "whole.bank")
        assert grow(path, WISHES, problems)[1] == problems
        return digest(path)
