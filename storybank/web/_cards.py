"""What stands on the page of a set: its stories as cards, and what is said of the set."""

import secrets
from collections.abc import Container, Sequence
from dataclasses import dataclass, replace
from typing import Any

from markupsafe import Markup

from storybank import documents, strategies, vocabulary
from storybank.bank import Bank
from storybank.documents import Layout
from storybank.revision import Revised, Told
from storybank.web import _choices
from storybank.web._house import House, blocks_as_html
from storybank.web._open_page import OpenPage, made
from storybank.web._wishes import CHANGE, CLASS, KEPT, YES, Wishes

_NOT_DONE = " was not done: "
_TOLD = {
    "swap": ("Story {place} was swapped", "Story {place} was not swapped"),
    "numbers": ("Story {place} has other numbers", "Story {place} has no other numbers"),
    "renew": ("The stories that were not marked are new ones", "No story was replaced"),
    "level": ("Story {place} is told at {level}", "Story {place} was not told at another level"),
    "words": ("Story {place} is told in your words", "Story {place} is told in our words"),
    "plain": ("Story {place} is told in our words again", "Story {place} was not changed"),
    "up": ("Story {place} was moved up", "Story {place} was not moved"),
    "down": ("Story {place} was moved down", "Story {place} was not moved"),
    "remove": ("Story {place} was removed", "Story {place} was not removed"),
    "more": ("One story was added at the end", "No story was added"),
}
"""Of each kind of change: what it did, and that it was not done."""
AT_ONCE = 60
"""So many stories stand on a page; a larger set goes on on the next."""


@dataclass(frozen=True)
class Card:
    """A story as the page shows it: `place` counts from 1, `beside` is it at another level."""

    place: int
    told: Told
    equation: Markup
    worked: Markup
    watch_for: Markup
    words: Markup
    beside: str | None = None
    beside_text: str = ""
    beside_note: str = ""


def contents(house: House, page: OpenPage, revised: Revised) -> dict[str, Any]:
    """What stands on the page of a set."""
    layout = page.wishes.layout(house.usual_layout)
    count = len(revised.stories)
    first = within(page.wishes.get("from"), 1, count)
    families = any(one.problem.family is not None for one in revised.stories)
    last = _said(page.wishes.all(CHANGE)[-1:], revised.notes, of_families=families)
    notes = [*revised.problem_set.notes, *map(_plainly, revised.notes)]
    only_here = page.wishes.has(KEPT) or page.wishes.has(CLASS)
    return {
        "title": f"{count} {'story' if count == 1 else 'stories'}",
        "count": count,
        "before": page.wishes.with_(**{"from": max(1, first - AT_ONCE)}) if first > 1 else None,
        "after": (
            page.wishes.with_(**{"from": first + AT_ONCE}) if first + AT_ONCE <= count else None
        ),
        "page": page,
        "wishes": page.wishes,
        "cards": _cards(page, revised, house, layout, first),
        "notes": [one for one in notes if one != last],
        "summary": summary(revised),
        "last": last,
        "levels": vocabulary.ids(),
        "kept": page.wishes.has(KEPT),
        "had_by": _had_by(page, house),
        "command": "" if only_here else command(page.wishes, house.own_themes()),
        "spoiled": [at for at, one in enumerate(revised.stories, start=1) if is_spoiled(one)],
        "another": None if page.wishes.has(KEPT) else _another(page.wishes),
        "page_kinds": _choices.page_choices(),
        "layout": layout,
        "can_level": not revised.problem_set.levels,
    }


def is_spoiled(told: Told) -> bool:
    """Whether a teacher's words leave a story that cannot be solved as its key says."""
    return any(one.law for one in told.faults)


def _cards(
    page: OpenPage, revised: Revised, house: House, layout: Layout, first: int
) -> list[Card]:
    told = _beside(page, revised, house)
    cards = []
    shown = revised.stories[first - 1 : first - 1 + AT_ONCE]
    for place, story in enumerate(shown, start=first):
        behind = documents.behind(story.problem, layout)
        parts = (behind.equation, behind.worked, behind.watch_for, behind.words)
        cards.append(Card(place, story, *map(blocks_as_html, parts), *told.get(place, ())))
    return cards


def _beside(page: OpenPage, revised: Revised, house: House) -> dict[int, tuple[str, str, str]]:
    """Each story at the level that is asked for beside it, and what has to be said of it.

    Where it cannot be told there level and text are empty, and the note says why.
    """
    level = page.wishes.get("beside")
    places = [
        at for at, one in enumerate(revised.stories, start=1) if one.problem.vocabulary != level
    ]
    if level not in vocabulary.ids() or page.wishes.has(KEPT) or not places:
        return {}
    changes = (*page.wishes.all(CHANGE), *(f"level-{at}-{level}" for at in places))
    other = made(replace(page, wishes=page.wishes.with_(change=changes)), house)
    said = [one.partition(_NOT_DONE) for one in other.notes]
    why = {change: reason[:1].upper() + reason[1:] for change, _, reason in said}
    found = {}
    for at in places:
        problem = other.stories[at - 1].problem
        if problem.vocabulary == level:
            # Such as that another child stands in, whose name is short enough for the level.
            of_it = [one for one in other.notes if one.startswith(f"Story {at}: ")]
            found[at] = (level, problem.text, " ".join(of_it))
        else:
            found[at] = ("", "", why.get(f"level-{at}-{level}", ""))
    return found


def _had_by(page: OpenPage, house: House) -> list[tuple[str, str, int]]:
    """Which classes have had stories of the bank that are shown, on which day, and how many."""
    numbers = page.wishes.all(KEPT)
    if not numbers:
        return []
    with Bank(house.home.bank, create=False) as bank:
        return bank.had_by([int(one) for one in numbers])


def summary(revised: Revised) -> str:
    """What a set is, in a line: how many, which strategies, which numbers, which English."""
    asked, problems = revised.problem_set.request, revised.problem_set.problems
    count = len(problems)
    ways = list(dict.fromkeys(one.strategy for one in problems if one.strategy in strategies.ids()))
    named = strategies.get(ways[0]).title if len(ways) == 1 and ways[0] else ""
    told = named or (f"{len(ways)} strategies" if ways else "")
    levels = list(dict.fromkeys(one.vocabulary for one in problems))
    english = ", ".join(one.replace("-", " ") for one in levels)
    parts = [
        f"{count} {'story' if count == 1 else 'stories'}",
        told,
        f"numbers to {asked.get('within')}",
        f"English {english}",
    ]
    return " \N{MIDDLE DOT} ".join(one for one in parts if one)


def command(wishes: Wishes, own: Container[str] = ()) -> str:
    """The command line that makes the same set; themes of her `own` are named by their file."""
    parts = ["storybank make"]
    for key, values in wishes.values.items():
        if key in YES:
            parts.append(f"--{key}")
        elif key not in ("beside", "from", CLASS):
            named = [f"{one}.yaml" if key == "theme" and one in own else one for one in values]
            parts.append(f"--{key} {' '.join(_quoted(one) for one in named)}")
    return " ".join(parts)


def _quoted(value: str) -> str:
    return f'"{value}"' if " " in value else value


def _said(changes: Sequence[str], notes: Sequence[str], *, of_families: bool) -> str:
    """What the last change did, for the line that offers to undo it, or why it was not done."""
    if not changes:
        return ""
    for note in notes:
        if note.startswith(f"{changes[0]}{_NOT_DONE}"):
            return _plainly(note)
    kind, place, more = _parts(changes[0])
    if kind == "swap" and of_families:
        return f"Story {place} was swapped, with the three others of its fact family."
    done = _TOLD[kind][0].format(place=place, level=more.replace("-", " "))
    return f"{done}."


def _plainly(note: str) -> str:
    """A note in a teacher's words: a change that was not made is told as what did not happen."""
    change, not_done, reason = note.partition(_NOT_DONE)
    if not not_done:
        return note
    kind, place, _ = _parts(change)
    return f"{_TOLD[kind][1].format(place=place)}: {reason}"


def _parts(change: str) -> tuple[str, str, str]:
    """The kind of a change, its first place, and what stands behind that."""
    kind, _, rest = change.partition("-")
    place, _, more = rest.partition("-")
    return kind, place, more


def _another(wishes: Wishes) -> Wishes:
    """The same wishes with other luck, without the changes."""
    return wishes.with_(seed=secrets.randbelow(1_000_000), change=None, **{"from": None})


def within(text: str | None, low: int, high: int) -> int:
    """The number that a text says, or the nearest that there is; the lowest for any other text."""
    number = int(text) if text and text.isascii() and text.isdigit() and len(text) < 6 else low
    return min(max(number, low), high)


def is_large(wishes: Wishes) -> bool:
    """Whether the set has more stories than stand on a page."""
    count = wishes.get("count")
    return len(wishes.all(KEPT)) > AT_ONCE or (count.isdecimal() and int(count) > AT_ONCE)
