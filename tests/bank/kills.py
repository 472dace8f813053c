"""Kills work on a bank at random moments: python tests/bank/kills.py 50"""

import json
import os
import random
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[1]))

from bank import killed
from bank.killed import ACKS, BANK, COPIES, WORK
from bank.left import OLD, Found, judge

from storybank.bank._schema import CURRENT

LIMIT = 120.0


def kill(kind: str, seed: int, material: Path, folder: Path) -> list[Any] | None:
    """What was acknowledged before the kill; None if the work was done before it came."""
    luck = random.Random(f"{kind}/{seed}")
    wanted = luck.randrange(ACKS[kind])
    _set_up(kind, material, folder)
    env = {**os.environ, "XDG_CACHE_HOME": str(material), "PYTHONPYCACHEPREFIX": str(material)}
    env.pop("PYTHONDONTWRITEBYTECODE", None)
    env["PYTHONPATH"] = f"{Path(__file__).parents[1]}{os.pathsep}{env.get('PYTHONPATH', '')}"
    process = subprocess.Popen(
        [sys.executable, killed.__file__, kind, str(material), str(folder)],
        stdout=subprocess.PIPE, start_new_session=True, env=env,
    )  # fmt: skip
    assert process.stdout is not None
    with process.stdout as lines:
        said: list[Any] = []
        started = time.monotonic()
        while len(said) <= wanted and (line := lines.readline()):
            said.append(json.loads(line))
            if said == ["ready"]:
                started = time.monotonic()
        each = (time.monotonic() - started) / (len(said) - 1) if len(said) > 1 else 0.05
        time.sleep(luck.uniform(0, 1.2 * each))
        done = not _end(kind, process, luck)
        said += [json.loads(line) for line in lines if line.endswith(b"\n")]
    code = process.wait(LIMIT)
    assert code in (0, 3, -signal.SIGKILL), f"{kind} failed of itself"
    return None if done else said[1:]


def _end(kind: str, process: "subprocess.Popen[bytes]", luck: random.Random) -> bool:
    """Whether something was still there to be killed, and is killed now."""
    if kind == "grow, one of 2 workers killed":
        until = time.monotonic() + 10
        while process.poll() is None and time.monotonic() < until:
            if workers := _children(process.pid):
                os.kill(luck.choice(workers), signal.SIGKILL)
                return True
        return False
    if process.poll() is not None:
        return False
    if kind == "grow, all but the 2 workers killed":
        process.kill()
    else:
        os.killpg(process.pid, signal.SIGKILL)
    return True


def _children(parent: int) -> list[int]:
    try:
        return [
            int(one) for one in Path(f"/proc/{parent}/task/{parent}/children").read_text().split()
        ]
    except OSError:
        return []


def _set_up(kind: str, material: Path, folder: Path) -> None:
    if kind == "hand out":
        shutil.copyfile(material / "full.bank", folder / BANK)
    elif kind == "restore":
        shutil.copyfile(material / "part-0.bank", folder / BANK)
    elif kind == "upgrade":
        for at in range(COPIES):
            shutil.copyfile(OLD / f"version-{1 + at % (CURRENT - 1)}.bank", folder / f"{at}.bank")


def kills(count: int, material: Path, seed: int = 0) -> dict[str, Found]:
    """Kills so many times, each kind in turn, and judges what is left each time."""
    killed.prepare(material)
    found = {kind: Found() for kind in WORK}
    for at in range(count):
        kind = list(WORK)[at % len(WORK)]
        for again in range(20):
            with tempfile.TemporaryDirectory(dir=material) as folder:
                said = kill(kind, seed + at + again * 1000, material, Path(folder))
                if said is not None:
                    judge(kind, material, Path(folder), said, found[kind])
                    break
    return found


def table(found: dict[str, Found]) -> str:
    """The kinds with their figures, one a line."""
    lines = [f"{'':36}{'kills':>7}{'acknowledged':>14}{'lost':>6}{'faults':>8}"]
    for kind, one in found.items():
        figures = f"{one.kills:7}{one.acknowledged:14}{one.lost:6}{len(one.faults):8}"
        lines += [f"{kind:36}{figures}", *(f"    {fault}" for fault in one.faults[:5])]
    return "\n".join(lines)


if __name__ == "__main__":
    begun = time.monotonic()
    with tempfile.TemporaryDirectory() as scratch:
        said = table(kills(int(sys.argv[1]), Path(scratch), *map(int, sys.argv[2:])))
    sys.stdout.write(f"{said}\n{time.monotonic() - begun:.0f} seconds\n")
