"""The quality gates, in one place: style, format, types and the rows of the import table."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
BIN = Path(sys.executable).parent

GATES = {
    "ruff check": [str(BIN / "ruff"), "check", "."],
    "ruff format": [str(BIN / "ruff"), "format", "--check", "."],
    "mypy strict": [str(BIN / "mypy")],
    "import contracts": [str(BIN / "lint-imports"), "--no-cache"],
}


@pytest.mark.parametrize("gate", GATES)
def test_gate(gate: str) -> None:
    done = subprocess.run(GATES[gate], cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
