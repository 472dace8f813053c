"""What the scenes of a pack tell at each level, and what to add where it is little."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from storybank import situations, vocabulary
from storybank.located import Faults
from storybank.model.words import Scene, Theme
from storybank.story import drafts_for, plans_for
from storybank.theme_check._advice import advice
from storybank.theme_check._places import Places, listing

ENOUGH_SITUATIONS = 9
ENOUGH_VERBS = 8
ENOUGH_KINDS = 4
ENOUGH_COMPARISONS = 3


@dataclass
class Survey:
    """What is told: situations by level and scene, levels by thing, and holders reached."""

    told: dict[str, dict[str, list[str]]] = field(default_factory=dict)
    levels: dict[str, list[str]] = field(default_factory=dict)
    holders: set[tuple[str, str]] = field(default_factory=set)


def told_by(theme: Theme, scene: Scene, pack: vocabulary.Vocabulary) -> tuple[str, ...]:
    """The ids of the situations that a scene can tell at a level of vocabulary."""
    return tuple(
        one
        for one in situations.ids()
        if any(plans_for(theme, scene, thing, one, pack) for thing in scene.things)
    )


def survey(theme: Theme) -> Survey:
    """What the pack tells, from all its plans at all levels."""
    found = Survey(levels={name: [] for name in theme.things})
    for level in vocabulary.ids():
        pack = vocabulary.get(level)
        by_scene = found.told.setdefault(level, {})
        for scene in theme.scenes.values():
            by_scene[scene.id] = [
                one for one in situations.ids() if _tell(found, theme, scene, one, pack)
            ]
    return found


def _tell(
    found: Survey, theme: Theme, scene: Scene, situation: str, pack: vocabulary.Vocabulary
) -> bool:
    told = False
    for thing in scene.things:
        for drafts in drafts_for(theme, scene, thing, situation, pack).values():
            for draft in drafts:
                if draft.plan is None:
                    continue
                told = True
                if pack.id not in found.levels[thing]:
                    found.levels[thing].append(pack.id)
                needs = draft.telling.needs
                held = 2 if needs.get("compare") == "places" else int("holder" in needs)
                for holder in draft.events.split("+")[:held]:
                    found.holders.add((scene.id, holder))
    return told


def warn(theme: Theme, found: Survey, places: Places, warnings: Faults) -> None:
    """Warns of scenes that tell few situations, of situations untold, and of little variety."""
    poor: dict[tuple[str, str], list[str]] = {}
    for level, by_scene in found.told.items():
        pack = vocabulary.get(level)
        for scene_id, ids in by_scene.items():
            if len(ids) < ENOUGH_SITUATIONS:
                missing = [one for one in situations.ids() if one not in ids]
                to_add = _to_add(theme, [theme.scenes[scene_id]], missing, pack)
                poor.setdefault((scene_id, to_add), []).append(f"{len(ids)} at {level}")
        untold = [
            one for one in situations.ids() if not any(one in ids for ids in by_scene.values())
        ]
        if untold:
            scenes = list(theme.scenes.values())
            warnings.add(
                None,
                f"no scene tells {listing(untold)} at {level}. "
                f"Add to one of the scenes: {_to_add(theme, scenes, untold, pack)}.",
            )
    for (scene_id, to_add), counts in poor.items():
        warnings.add(
            places.line("scenes", scene_id),
            f'the scene "{scene_id}" tells few situations ({listing(counts)}; '
            f"{ENOUGH_SITUATIONS} are wanted). Add {to_add}.",
        )
    _warn_of_variety(theme, warnings)


def _to_add(
    theme: Theme, scenes: Sequence[Scene], missing: Sequence[str], pack: vocabulary.Vocabulary
) -> str:
    """The parts to add, each with the situations that it tells."""
    by_part: dict[str, list[str]] = {}
    for situation in missing:
        wanted = [advice(theme, scene, situation, pack) for scene in scenes]
        _, part = min(wanted, key=lambda one: one[0])
        by_part.setdefault(part, []).append(situation)
    return "; ".join(f"{part} (for {listing(ids)})" for part, ids in by_part.items())


def _warn_of_variety(theme: Theme, warnings: Faults) -> None:
    scenes = theme.scenes.values()
    for effect in ("gain", "lose"):
        acts = (act for scene in scenes for act in scene.acts if act.effect == effect)
        verbs = {act.wording.verb.base for act in acts}
        if len(verbs) < ENOUGH_VERBS:
            warnings.add(
                None,
                f"{len(verbs)} different verbs in acts with `effect: {effect}`; {ENOUGH_VERBS} are "
                "wanted, or the stories sound alike. Write some acts with other verbs.",
            )
    kinds = [kinds for scene in scenes for kinds in scene.kinds]
    if len(kinds) < ENOUGH_KINDS:
        warnings.add(
            None,
            f"{len(kinds)} entries under `kinds`; {ENOUGH_KINDS} are wanted. Add kinds by size, "
            "pattern, state, sort or place to a scene.",
        )
    if kinds and sum(one.way == "color" for one in kinds) * 3 > len(kinds):
        warnings.add(
            None,
            "more than a third of the kinds are colors. Write others: big and small, new and old, "
            "on the shelf and on the floor.",
        )
    compared = (one.verb for scene in scenes for one in scene.compare)
    bases = {verb.base for verb in compared if verb is not None}
    if len(bases) < ENOUGH_COMPARISONS:
        warnings.add(
            None,
            f"{len(bases)} different verbs under `compare`; {ENOUGH_COMPARISONS} are wanted. Add "
            "`compare` entries with what children really do: find, pick, build, count, read.",
        )
