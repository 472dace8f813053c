"""One story for every telling, level and tense, kept as text to be read in a review.

Run this file to write the golden file again after a wished change of words:
`.venv/bin/python tests/whole/test_golden_tellings.py`.
"""

from collections.abc import Iterator
from pathlib import Path

from storybank import number_choice, situations, tellings, themes, vocabulary
from storybank.number_choice import Wish
from storybank.people import Person
from storybank.story import numbers_told, plans_for, tell

GOLDEN = Path(__file__).parent / "golden_tellings.txt"
PEOPLE = (Person("Nia", "she"), Person("Omar", "he"))


def stories() -> Iterator[str]:
    """A line for every telling at every level that tells it: the first plan of the first pack."""
    for situation in situations.in_grade_order():
        for telling in tellings.of(situation.id):
            for level in vocabulary.ids():
                story = first_story(situation.id, telling.id, level)
                if story:
                    yield f"{telling.id} {level}: {story}"


def first_story(situation_id: str, telling_id: str, level: str) -> str | None:
    """The first plan of that telling, told with numbers of its own supply."""
    situation = situations.get(situation_id)
    for theme in map(themes.get, themes.ids()):
        for scene in theme.scenes.values():
            for thing in scene.things:
                found = plans_for(theme, scene, thing, situation_id, vocabulary.get(level))
                for plan in found.get(telling_id, ()):
                    supply = number_choice.supply(Wish(situation=situation_id, room=plan.room))
                    triple = number_choice.choose(supply, telling_id)
                    if triple is not None:
                        people = PEOPLE[: plan.skeleton.people]
                        told = tell(plan, people, numbers_told(situation, triple))
                        return f"{' '.join(told.sentences)} => {told.answer_sentence}"
    return None


def test_every_telling_tells_its_golden_story() -> None:
    assert list(stories()) == GOLDEN.read_text(encoding="utf-8").splitlines()


def test_every_telling_is_told_at_each_of_its_levels() -> None:
    told = {line.split(":", 1)[0] for line in stories()}
    for situation_id in situations.ids():
        for telling in tellings.of(situation_id):
            low, high = telling.levels
            levels = [f"{telling.id} level-{level}" for level in range(low, high + 1)]
            assert any(level in told for level in levels), telling.id


if __name__ == "__main__":
    GOLDEN.write_text("\n".join(stories()) + "\n", encoding="utf-8")
