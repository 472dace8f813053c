"""Finds a label that was changed in one place only: one fault says it, instead of one for each."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, TypeVar

from storybank.located import At, Faults, ListAt, MappingAt

_SEVERAL = 2
_Part = TypeVar("_Part")


def meant(
    known: Mapping[str, _Part], named: Iterable[Any], node: Any, under: str, faults: Faults
) -> dict[str, _Part]:
    """What each unknown label stands for that was meant by a label never named, by that label.

    `known` are the parts written below `node`, the key `under`; `named` are all places that name
    one. Where a label is named several times and not known, and one that is known is never named,
    it was changed in one place only: a fault says so once.
    """
    lines: dict[str, list[int]] = {}
    for place in named:
        lines.setdefault(str(place), []).append(place.line)
    unnamed = [label for label in known if label not in lines]
    lost = [one for one in lines if one not in known and len(lines[one]) >= _SEVERAL]
    if not unnamed or not lost:
        return {}
    written = [label for label in node if label in unnamed]
    for label in lost:
        at = ", ".join(map(str, sorted(set(lines[label]))))
        there = " or ".join(f'"{one}"' for one in unnamed)
        faults.add(
            written[0],
            f'"{label}" is named in {len(lines[label])} places (lines {at}), but under {under} '
            f"there is {there} instead: write the same label in all of them.",
        )
    return dict.fromkeys(lost, known[unnamed[0]])


def named_things(content: Any) -> Iterator[Any]:
    """Every place in the scenes of a pack that names a thing."""
    for scene in _parts(content, "scenes"):
        yield from _labels(scene.get("things"))
        for holder in _parts(scene, "holders"):
            room = holder.get("room")
            yield from room if isinstance(room, MappingAt) else ()
        for part in _naming(scene):
            yield from _labels(part.get("things"))
            yield from _labels(part.get("thing"))
        for kinds in _parts(scene, "kinds"):
            for side in (kinds.get("first"), kinds.get("second")):
                yield from _labels(side.get("thing") if isinstance(side, MappingAt) else None)


def named_holders(scene: Any) -> Iterator[Any]:
    """Every place in a scene that names a holder."""
    for part in _naming(scene):
        yield from _labels(part.get("holders"))


def _naming(scene: MappingAt) -> Iterator[MappingAt]:
    for under in ("acts", "kinds", "compare"):
        yield from _parts(scene, under)
    for part in (scene.get("goal"), scene.get("occasion")):
        if isinstance(part, MappingAt):
            yield part


def _parts(node: Any, under: str) -> Iterator[MappingAt]:
    below = node.get(under) if isinstance(node, MappingAt) else None
    if isinstance(below, MappingAt):
        yield from (part for part in below.values() if isinstance(part, MappingAt))


def _labels(node: Any) -> Iterator[At]:
    if isinstance(node, At):
        yield node
    elif isinstance(node, ListAt):
        yield from (item for item in node if isinstance(item, At))
