"""Judges every plan of the measured things of a pack, and warns of those that are never told."""

from collections.abc import Iterator

from storybank import checks, situations, vocabulary
from storybank.located import Faults
from storybank.model import Situation, Triple
from storybank.model.words import Scene, Theme
from storybank.story import Plan, measured_drafts, numbers_told, tell
from storybank.theme_check._places import Places
from storybank.theme_check._plans import PEOPLE

_SOME = (17, 26, 43)


def note(theme: Theme, places: Places, faults: Faults, warnings: Faults) -> None:
    """Notes each law that a measured story breaks, and warns where nothing can be told.

    A fault stands at the line of the measured thing, or of its act; each check is said once there.
    """
    for scene in theme.scenes.values():
        for name in scene.measured:
            told = False
            found: dict[tuple[int | None, str], str] = {}
            for level, situation, plan in _plans(theme, scene, name):
                told = True
                line = _line(places, scene.id, name, plan)
                for check, message in _faults(theme, level, situation, plan):
                    found.setdefault((line, check), message)
            for (line, _), message in found.items():
                faults.add(line, f'the measured thing "{name}" of "{scene.id}": {message}')
            if not told:
                warnings.add(
                    places.line("scenes", scene.id, "measured", name),
                    f'no story tells of the measured thing "{name}" of "{scene.id}". Shorten its '
                    "words, give it `some:` or a wider range, or delete it.",
                )


def _plans(theme: Theme, scene: Scene, name: str) -> Iterator[tuple[str, Situation, Plan]]:
    for level in vocabulary.ids():
        for situation in situations.in_grade_order():
            grouped = measured_drafts(theme, scene, name, situation.id, vocabulary.get(level))
            for draft in (one for drafts in grouped.values() for one in drafts):
                if draft.plan is not None:
                    yield level, situation, draft.plan


def _line(places: Places, scene: str, name: str, plan: Plan) -> int | None:
    under = ("scenes", scene, "measured", name)
    acts = [
        places.line(*under, "acts", part) for part in plan.detail.rpartition(":")[0].split("+")[1:]
    ]
    return next((line for line in acts if line is not None), places.line(*under))


def _faults(
    theme: Theme, level: str, situation: Situation, plan: Plan
) -> Iterator[tuple[str, str]]:
    context = checks.Context(
        limit=1000,
        vocabulary=vocabulary.get(level),
        theme=theme,
        people=PEOPLE,
        measured=True,
    )
    numbers = numbers_told(situation, Triple(*_SOME))
    story = tell(plan, PEOPLE[: plan.skeleton.people], numbers)
    for check, at, message in checks.language_faults(story, situation.id, context):
        told = (*story.sentences, story.answer_sentence, story.answer_frame)
        sentence = told[at] if 0 <= at < len(told) else story.text.replace("\n", " ")
        yield check, f'"{sentence}" ({level}) may stand in no story: {message}'
