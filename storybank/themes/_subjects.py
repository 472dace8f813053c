"""Subjects that a teacher can switch off, and packs without them."""

from dataclasses import replace
from functools import cache

from storybank.model.words import Scene, Theme, Thing

SUBJECTS = ("birthdays", "buying", "meals", "pets", "sweets")


@cache
def without(theme: Theme, subjects: frozenset[str]) -> Theme:
    """The pack without the scenes and things of `subjects`."""
    if not subjects:
        return theme
    things = {
        name: thing for name, thing in theme.things.items() if subjects.isdisjoint(thing.subjects)
    }
    scenes = {
        name: _with_things(scene, things, subjects)
        for name, scene in theme.scenes.items()
        if subjects.isdisjoint(scene.subjects)
    }
    return replace(theme, scenes={name: scene for name, scene in scenes.items() if scene.things})


def _with_things(scene: Scene, things: dict[str, Thing], subjects: frozenset[str]) -> Scene:
    kinds = tuple(
        kinds
        for kinds in scene.kinds
        if all(side.picture_of in (None, *things) for side in (kinds.first, kinds.second))
    )
    measured = {
        name: one for name, one in scene.measured.items() if subjects.isdisjoint(one.subjects)
    }
    kept = tuple(one for one in scene.things if one in things)
    return replace(scene, things=kept, kinds=kinds, measured=measured)
