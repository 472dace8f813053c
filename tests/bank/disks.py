"""Disks that are full or may only be read, for tests; and the command line within this process."""

import os
import resource
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

import pytest

from storybank.cli import main

OLD = Path(__file__).with_name("old")


def copy_of(version: int, path: Path) -> Path:
    """A small bank of that version with marks, and from version 2 on a hand-out."""
    return Path(shutil.copyfile(OLD / f"version-{version}.bank", path))


def run(*arguments: object) -> int:
    """The exit code of a command, which never ends in another error than its own."""
    try:
        return main([str(one) for one in arguments])
    except SystemExit as end:
        return int(end.code or 0)


def refused(capsys: pytest.CaptureFixture[str], *arguments: object) -> str:
    """The one line with which a command refuses: exit code 2, nothing on standard output."""
    capsys.readouterr()
    code = run(*arguments)
    said = capsys.readouterr()
    assert (code, said.out) == (2, ""), said.err
    assert said.err.startswith("storybank: ") and said.err.count("\n") == 1, said.err
    assert "Traceback" not in said.err
    return said.err


def _mount(*arguments: str) -> None:
    if os.geteuid():
        pytest.skip("only root can mount a disk, so this was not checked")
    done = subprocess.run(["mount", *arguments], capture_output=True, text=True, check=False)
    if done.returncode:
        pytest.skip(f"no disk can be mounted here ({done.stderr.strip()}), so this was not checked")


@contextmanager
def small_disk(folder: Path, size: int) -> Iterator[Path]:
    """A disk of that many KiB at `folder`."""
    folder.mkdir()
    _mount("-t", "tmpfs", "-o", f"size={size}k", "tmpfs", str(folder))
    try:
        yield folder
    finally:
        subprocess.run(["umount", "-l", str(folder)], check=True)


@contextmanager
def full_but(folder: Path, left: int) -> Iterator[None]:
    """The disk of a folder full but for so many KiB."""
    filler = folder / "filler"
    with filler.open("wb", buffering=0) as stream, suppress(OSError):
        while True:
            stream.write(bytes(4096))
    os.truncate(filler, max(0, filler.stat().st_size - left * 1024))
    try:
        yield
    finally:
        filler.unlink()


@contextmanager
def files_up_to(size: int) -> Iterator[None]:
    """No file of this process may become larger than so many KiB."""
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size * 1024, before[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)


@contextmanager
def only_to_read(folder: Path) -> Iterator[None]:
    """A folder on a disk that may only be read, also by root."""
    _mount("--bind", str(folder), str(folder))
    try:
        _mount("-o", "remount,ro,bind", str(folder), str(folder))
        yield
    finally:
        subprocess.run(["umount", "-l", str(folder)], check=True)
