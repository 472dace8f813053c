"""A Dask cluster makes the problems of a bank: the same ones, also when it loses workers."""

import os
import socket
import subprocess
import sys
from contextlib import suppress
from pathlib import Path
from threading import Thread

import pytest
from bank.grown import WISHES, digest, unbroken

from storybank.bank import grow
from storybank.errors import BankError

_BEGIN = """
import os, signal, sys
from dataclasses import replace
from pathlib import Path
from bank.grown import WISHES
from storybank import Bank
from storybank.bank import grow
from storybank.errors import StorybankError
from distributed import LocalCluster

def cluster(**more):
    values = {"n_workers": 2, "threads_per_worker": 1, "processes": True, **more}
    return LocalCluster(dashboard_address=None, **values)

def try_it(address, report=None):
    try:
        growth, new = grow(path, WISHES, 2501, cluster=address, report=report)
        print("grown", growth.there, new)
    except StorybankError as error:
        print("told", error)

path = Path(sys.argv[1])
if __name__ == "__main__":
"""


def run(path: Path, script: str) -> str:
    """What a program prints that has a cluster of its own."""
    file = path.with_name("script.py")
    lines = "".join(f"    {line}\n" for line in script.strip().splitlines())
    file.write_text(_BEGIN + lines)
    tests = Path(__file__).parent.parent
    folders = os.pathsep.join(str(one) for one in (tests, tests.parent))
    ended = subprocess.run(
        [sys.executable, str(file), str(path)],
        capture_output=True,
        text=True,
        timeout=120,
        env={**os.environ, "PYTHONPATH": folders},
    )
    assert ended.returncode == 0, ended.stderr
    return ended.stdout


def test_a_cluster_grows_the_same(tmp_path: Path) -> None:
    path = tmp_path / "a.bank"
    said = run(path, "with cluster() as one:\n    try_it(one.scheduler_address)")
    assert said == "grown 0 2501\n"
    assert digest(path) == unbroken(2501)


def test_threads_of_one_process_make_the_same(tmp_path: Path) -> None:
    path = tmp_path / "a.bank"
    said = run(
        path,
        "with cluster(n_workers=1, threads_per_worker=4) as one:\n"
        "    try_it(one.scheduler_address)",
    )
    assert said == "grown 0 2501\n"
    assert digest(path) == unbroken(2501)


def test_workers_that_are_killed_are_replaced(tmp_path: Path) -> None:
    path = tmp_path / "a.bank"
    said = run(
        path,
        """
with cluster() as one:
    killed = []
    def report(made, wanted):
        if made in (500, 1500):
            worker = list(one.workers.values())[0]
            killed.append(worker.process.pid if hasattr(worker, "process") else worker.pid)
            os.kill(killed[-1], signal.SIGKILL)
    try_it(one.scheduler_address, report)
    print(len(set(killed)))
""",
    )
    assert said == "grown 0 2501\n2\n"
    assert digest(path) == unbroken(2501)


def test_a_cluster_that_is_lost_is_told_of_and_another_goes_on(tmp_path: Path) -> None:
    path = tmp_path / "a.bank"
    said = run(
        path,
        """
import subprocess
dask = [sys.executable, "-m", "distributed.cli.dask_scheduler", "--port", "0", "--no-dashboard"]
scheduler = subprocess.Popen(
    [*dask, "--scheduler-file", str(path) + ".json"], stderr=subprocess.DEVNULL
)
worker = subprocess.Popen(
    [sys.executable, "-m", "distributed.cli.dask_worker", "--nthreads", "1", "--no-dashboard",
     "--scheduler-file", str(path) + ".json"], stderr=subprocess.DEVNULL
)
import json, time
def report(made, wanted):
    if made == 1000:
        scheduler.kill()
import dask
dask.config.set({"distributed.comm.timeouts.connect": "2s"})
try:
    while not Path(str(path) + ".json").exists():
        time.sleep(0.2)
    try_it(json.loads(Path(str(path) + ".json").read_text())["address"], report)
finally:
    scheduler.kill()
    worker.kill()
with cluster() as one:
    try_it(one.scheduler_address)
""",
    )
    first, second = said.splitlines()
    assert first.startswith("told The cluster could not make the problems")
    assert second.startswith("grown ")
    assert digest(path) == unbroken(2501)


def test_a_worker_of_another_version_is_told_of(tmp_path: Path) -> None:
    path = tmp_path / "a.bank"
    said = run(
        path,
        """
from distributed import Client
def other():
    from storybank.bank import _cluster
    _cluster.VERSION = "0.0.9"
with cluster() as one:
    with Client(one, set_as_default=False) as client:
        client.run(other)
    try_it(one.scheduler_address)
""",
    )
    assert said.startswith("told A worker of the cluster runs Storybank 0.0.9, and this is ")
    assert not path.exists()


def test_a_worker_that_comes_later_with_another_version_is_told_of(tmp_path: Path) -> None:
    path = tmp_path / "a.bank"
    said = run(
        path,
        """
from distributed import Client
def other():
    from storybank.bank import _cluster
    _cluster.VERSION = "0.0.9"
with cluster() as one:
    def report(made, wanted):
        if made == 500:
            with Client(one, set_as_default=False) as client:
                client.run(other)
    try_it(one.scheduler_address, report)
""",
    )
    assert said.startswith("told A worker of the cluster runs Storybank 0.0.9, and this is ")
    grow(path, WISHES, 2501)
    assert digest(path) == unbroken(2501)


def test_workers_without_storybank_and_none_at_all_are_told_of(tmp_path: Path) -> None:
    path = tmp_path / "a.bank"
    said = run(
        path,
        """
from distributed import Client
def without():
    import sys
    for name in [one for one in sys.modules if one.split(".")[0] == "storybank"]:
        del sys.modules[name]
    sys.modules["storybank"] = None
with cluster(n_workers=1) as one:
    with Client(one, set_as_default=False) as client:
        client.run(without)
    try_it(one.scheduler_address)
with cluster(n_workers=0) as one:
    try_it(one.scheduler_address)
""",
    )
    first, second = said.splitlines()
    assert first.startswith("told The cluster could not make the problems")
    assert second.startswith("told The Dask scheduler at") and "has no workers" in second
    assert not path.exists()


def test_what_waits_here_is_bounded(tmp_path: Path) -> None:
    """No more futures are held than are asked for ahead, and none at the end."""
    path = tmp_path / "a.bank"
    said = run(
        path,
        """
from storybank.bank import _cluster
_cluster._AHEAD = 1
most = []
real = _cluster._look_at_workers
def look(client, address):
    real(client, address)
    clients.append(client)
clients = []
_cluster._look_at_workers = look
def report(made, wanted):
    most.append(len(clients[0].futures))
with cluster() as one:
    try_it(one.scheduler_address, report)
print(max(most), most[-1])
""",
    )
    first, second = said.splitlines()
    assert first == "grown 0 2501"
    most, last = map(int, second.split())
    assert most <= 3 and last <= 1


@pytest.mark.parametrize(
    "address", ["", "tcp://127.0.0.1:1", "nowhere", "http://127.0.0.1:1", "x://y"]
)
def test_a_wrong_address_is_told_of(address: str, tmp_path: Path) -> None:
    script = f"from storybank.bank import _cluster\n_cluster._WAIT = 1\ntry_it({address!r})"
    said = run(tmp_path / "a.bank", script)
    assert said.startswith(f'told No Dask scheduler answers at "{address}"')
    assert not (tmp_path / "a.bank").exists()


def test_without_dask(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "distributed", None)
    with pytest.raises(BankError, match=r"pip install 'storybank\[cluster\]'"):
        grow(tmp_path / "a.bank", WISHES, 10, cluster="tcp://127.0.0.1:1")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("answer", [b"", b"HTTP/1.1 400 Bad Request\r\n\r\n"])
def test_what_is_no_scheduler_is_told_of(answer: bytes, tmp_path: Path) -> None:
    """Something else listens there: it is silent, or says what Dask cannot read."""
    with socket.create_server(("127.0.0.1", 0)) as server:
        held = []

        def serve() -> None:
            with suppress(OSError):
                while True:
                    held.append(server.accept()[0])
                    held[-1].sendall(answer)

        Thread(target=serve, daemon=True).start()
        port = server.getsockname()[1]
        script = "from storybank.bank import _cluster\n_cluster._WAIT = 1\n"
        said = run(
            tmp_path / "a.bank",
            f"{script}try_it('tcp://127.0.0.1:{port}')\nsys.stdout.flush()\nos._exit(0)",
        )
        for one in held:
            one.close()
    assert said.startswith("told No Dask scheduler answers at")
    assert not (tmp_path / "a.bank").exists()
