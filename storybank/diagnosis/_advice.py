"""What a teacher may talk about with a child, and which problems to give next."""

from collections.abc import Mapping, Sequence

from storybank import mistakes
from storybank.diagnosis import _wish
from storybank.diagnosis._answered import Answered, Item
from storybank.model.diagnosis import Candidate, ChildAnswers, ClassRow, Next

FEW_ANSWERS = 4
_NOTHING = "No known mistake leads to any of the wrong answers."


def for_child(
    found: Sequence[tuple[Candidate, ...]], answered: Answered, given: Mapping[int, int]
) -> tuple[Next, ...]:
    """What to do after the findings of one child; `given` are its answers by place."""
    if found:
        return tuple(_after(one, answered) for one in found)
    items = answered.items
    wrong = [items[at] for at in given if given[at] != items[at].answer]
    if len(given) < FEW_ANSWERS:
        count = "1 answer is" if len(given) == 1 else f"{len(given)} answers are"
        talk = f"{count} too few to say anything. Let the child finish the set first."
        return (Next("", talk, None),)
    if not wrong:
        return ()
    hit = [items[at] for at in given if given[at] in items[at].watched]
    first = (hit or wrong)[0]
    ask = f"Ask how the child worked out problem {first.number} ({first.code}), and listen."
    why = "Too little agrees with a known mistake to name one." if hit else _NOTHING
    return (Next("", f"{why} {ask}", None),)


def for_class(
    rows: Sequence[ClassRow], children: Sequence[ChildAnswers], answered: Answered
) -> tuple[Next, ...]:
    """What to do with the whole class: for each mistake found with two children or more."""
    found = []
    for row in rows:
        if len(row.children) < 2:
            continue
        talk = (
            f"Found with {len(row.children)} of {len(children)} children. Work one such problem "
            "with all of them and name nobody: why might somebody answer so?"
        )
        found.append(
            Next(
                " or ".join(row.titles),
                talk,
                _wish.command(row.mistakes[0], answered.items, answered.within),
            )
        )
    return tuple(found)


def _after(candidates: tuple[Candidate, ...], answered: Answered) -> Next:
    first = candidates[0]
    mistake = first.mistakes[0]
    title = ", or ".join(one.title for one in candidates)
    talk = _talk(mistake, first.problems, answered.items)
    if len(candidates) > 1:
        talk = (
            "These problems do not tell which of them it is; how the child worked them out "
            f"does. {talk}"
        )
    return Next(title, talk, _wish.command(mistake, answered.items, answered.within))


def _talk(mistake: str, problems: Sequence[int], items: Sequence[Item]) -> str:
    """What is said about a problem in which the mistake was made, best where it stands first."""
    hit = [one for one in items if one.number in problems]
    for item in hit:
        for watched in item.watched.values():
            if watched.mistakes[0] == mistake and watched.says:
                return (
                    f"Look at problem {item.number} ({item.code}) together. {_first(watched.says)}"
                )
    title = mistakes.get(mistake).TITLE
    numbers = ", ".join(str(one.number) for one in hit[:3])
    return (
        f'Look at problem {numbers} together and let the child show each step. "{title}" may be '
        "what happened."
    )


def _first(says: str) -> str:
    """What is said, without the other mistakes that lead to the same number."""
    return says.partition(" The same number also comes from ")[0]
