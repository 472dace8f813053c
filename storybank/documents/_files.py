"""Writes finished files: all of them or none."""

import os
from collections.abc import Mapping, Sequence
from pathlib import Path

from storybank.errors import OutputError


def check_targets(folder: Path, names: Sequence[str], *, overwrite: bool) -> None:
    """Nothing, if all of `names` can be written into `folder`.

    Raises OutputError for a folder that is a file or cannot be written, and, without
    `overwrite`, for a file that exists.
    """
    place = folder
    while not place.exists() and place.parent != place:
        place = place.parent
    if not place.is_dir():
        raise OutputError(
            f'The files cannot be written to "{folder}": "{place}" is a file, not a folder. '
            "Choose another folder."
        )
    if not os.access(place, os.W_OK | os.X_OK):
        raise OutputError(
            f'The files cannot be written to "{folder}": you may not write in "{place}". '
            "Choose a folder of your own."
        )
    for name in names:
        target = folder / name
        if target.is_dir():
            raise OutputError(
                f'"{target}" cannot be written: a folder has this name. Choose another folder.'
            )
    existing = [name for name in names if (folder / name).exists()]
    if existing and not overwrite:
        raise OutputError(
            f'The folder "{folder}" already holds {", ".join(existing)}, and nothing was changed. '
            "Choose another folder, or add --overwrite to replace (from Python: overwrite=True)."
        )


def write_files(folder: Path, contents: Mapping[str, bytes], *, overwrite: bool) -> list[Path]:
    """The paths of the files written into `folder`, in the order of `contents`.

    Each is written under a temporary name and moved into place when all are ready. After a
    failure the folder is as it was. Raises OutputError as `check_targets`, and when the disk
    refuses.
    """
    check_targets(folder, list(contents), overwrite=overwrite)
    made = [place for place in (folder, *folder.parents) if not place.exists()]
    ready: list[tuple[Path, Path]] = []
    moved: list[tuple[Path, Path | None]] = []
    done = False
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, data in contents.items():
            temporary = folder / f".{name}.{os.getpid()}.part"
            ready.append((temporary, folder / name))
            temporary.write_bytes(data)
        for temporary, target in ready:
            kept = None
            if target.exists():
                kept = target.with_name(f".{target.name}.{os.getpid()}.old")
                target.replace(kept)
            moved.append((target, kept))
            temporary.replace(target)
        done = True
    except OSError as error:
        raise OutputError(
            f'The set could not be written to "{folder}": {error.strerror}. '
            "Nothing was changed. Free some room or choose another folder."
        ) from error
    finally:
        if done:
            for _, kept in moved:
                if kept:
                    kept.unlink(missing_ok=True)
        else:
            _restore(ready, moved, made)
    return [target for _, target in ready]


def _restore(
    ready: list[tuple[Path, Path]], moved: list[tuple[Path, Path | None]], made: list[Path]
) -> None:
    for target, kept in reversed(moved):
        target.unlink(missing_ok=True)
        if kept:
            kept.replace(target)
    for temporary, _ in ready:
        temporary.unlink(missing_ok=True)
    for place in made:
        if place.is_dir():
            place.rmdir()
