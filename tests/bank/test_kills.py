"""Whatever is killed at whatever moment: nothing that was said to be kept is lost or halved."""

import os
from pathlib import Path

import pytest
from bank.killed import WORK
from bank.kills import kills, table


@pytest.mark.skipif(not hasattr(os, "killpg"), reason="there is no SIGKILL on this system")
def test_each_kind_of_work_is_killed_once(tmp_path: Path) -> None:
    """More often by hand: python tests/bank/kills.py 50"""
    found = kills(len(WORK), tmp_path, seed=3)
    assert [one.kills for one in found.values()] == [1] * len(WORK)
    assert sum(one.acknowledged for one in found.values()) > 0
    assert all(one.lost == 0 and not one.faults for one in found.values()), table(found)
