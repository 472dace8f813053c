"""Warns of things that no scene uses and of holders that no story reaches."""

from storybank import vocabulary
from storybank.located import Faults
from storybank.model.words import Scene, Theme
from storybank.theme_check._places import Places, listing
from storybank.theme_check._scenes import Survey


def warn(theme: Theme, found: Survey, places: Places, warnings: Faults) -> None:
    """Warns of what stands in the pack and is never told, and of things without a picture."""
    used = {name for scene in theme.scenes.values() for name in _used(scene)}
    for name in theme.things:
        if name not in used:
            warnings.add(
                places.line("things", name),
                f'no scene uses the thing "{name}". Add it to the `things` of a scene and to the '
                "`room` of its holders, or delete the line.",
            )
    for scene in theme.scenes.values():
        for holder in scene.holders:
            if (scene.id, holder) not in found.holders:
                warnings.add(
                    places.line("scenes", scene.id, "holders", holder),
                    f'no story reaches the holder "{holder}" of "{scene.id}". Give it an act, '
                    "kinds or a comparison that fits a thing in its `room`, or delete it.",
                )
    _warn_of_pictures(theme, places, warnings)


def _used(scene: Scene) -> set[str]:
    sides = (
        side
        for kinds in scene.kinds
        for side in (kinds.first, kinds.second, kinds.third)
        if side is not None
    )
    return {*scene.things, *(side.picture_of for side in sides if side.picture_of)}


def _warn_of_pictures(theme: Theme, places: Places, warnings: Faults) -> None:
    bare = [
        (name, places.line("things", name))
        for name, thing in theme.things.items()
        if thing.picture is None and places.line("things", name, "picture") is None
    ]
    if not bare:
        return
    levels = [one for one in vocabulary.ids() if vocabulary.get(one).things_need_picture]
    named = listing([f"{name} (line {line})" for name, line in bare])
    warnings.add(
        bare[0][1],
        f"without a picture, and so not told at {listing(levels)}: {named}. Write `picture:` "
        "with an emoji that shows the thing, or `picture: none` where there is none.",
    )
