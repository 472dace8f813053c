"""Coverage of any problems, of one set or of several: counts of what they practise."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from storybank import situations, standards, strategies
from storybank.coverage._reading import covered, read_sets
from storybank.model import Problem
from storybank.model.coverage import (
    Cell,
    Coverage,
    Covered,
    CoveredStep,
    KeywordUse,
    StandardUse,
)
from storybank.tellings import KEYWORDS, keywords_in

__all__ = ["count", "coverage", "covered", "read_sets"]

OTHER = "Other"
_UNKNOWNS = (
    "result", "change", "start", "whole", "one part", "both parts", "difference", "bigger",
    "smaller",
)  # fmt: skip
"""In the order of CCSS-M Table 1, row by row."""
_WORDINGS = ("none", "more", "fewer")
_SIZES = {"to 10": 10, "11 to 20": 20, "21 to 100": 100, "101 to 1000": 1000}
_LARGER = "over 1000"


def coverage(problems: Sequence[Problem], state: standards.Mapping | None = None) -> Coverage:
    """What finished problems cover: of one set, or of several together, such as a week's.

    With a `state` its grades stand beside its codes, and codes that nothing practises with 0.
    """
    return count([covered(one.to_json()) for one in problems], state)


def count(told: Sequence[Covered], state: standards.Mapping | None = None) -> Coverage:
    """What problems cover, from what is needed of each; `state` as for `coverage`.

    A step regroups where the ones of its parts make ten or more (CCSS-M 2.NBT.7: compose or
    decompose a ten); the same numbers regroup whether they are added or taken apart.
    """
    steps = [step for one in told for step in one.steps]
    cells = _cells(Counter(step.situation for step in steps))
    grades = {one.grade: 0 for one in situations.in_grade_order()}
    for cell in cells:
        if cell.grade is not None:
            grades[cell.grade] += cell.count
    further = [step for one in told for step in one.further]
    with_ones = [step for step in (*steps, *further) if step.parts]
    largest = [max(step.whole for step in one.steps) for one in told]
    named = [one for one in told if one.strategies]
    return Coverage(
        problems=len(told),
        steps=len(steps),
        cells=cells,
        grades=grades,
        operations=_counted((step.operation for step in steps), ("+", "-", "list")),
        regrouping=sum(_regroups(step) for step in with_ones),
        with_ones=len(with_ones),
        sizes=_counted(map(_size, (*largest, *(step.whole for step in further))), _SIZES),
        strategies=_counted(
            (name for one in named for name in one.strategies),
            (one.id for one in strategies.by_rank()),
        ),
        without_strategy=len(told) - len(named),
        levels=_counted((name for one in told for name in sorted(one.levels)), ()),
        standards=_standards(told, state),
        without_standard=sum(not one.standards for one in told),
        keywords=_keywords(told),
        without_keyword=sum(not keywords_in(one.text.lower()) for one in told),
        two_steps=sum(len(one.steps) > 1 for one in told),
        three_addends=sum(any(len(step.parts) > 2 for step in one.steps) for one in told),
        units=_counted((one.unit for one in told if one.unit), ()),
        further_numbers=len(further),
    )


def _counted(found: Iterable[str], known: Iterable[str]) -> Mapping[str, int]:
    """How often each is found: the known ones in their order, then the others by name."""
    counts = Counter(found)
    names = list(dict.fromkeys(known))
    return {name: counts[name] for name in (*names, *sorted(set(counts) - set(names)))}


def _cells(counts: Mapping[str, int]) -> tuple[Cell, ...]:
    """All situations as in CCSS-M Table 1, row by row, then those that we do not know."""
    rows: dict[str, list[tuple[int, Cell]]] = {}
    known = [situations.get(name) for name in situations.ids()]
    for one in sorted(known, key=lambda one: (_WORDINGS.index(one.wording), one.id)):
        kind, _, rest = one.title.partition(": ")
        kind = kind if one.wording == "none" else f"{kind}, {one.wording}"
        unknown = rest.partition(" unknown")[0]
        place = _UNKNOWNS.index(unknown) if unknown in _UNKNOWNS else len(_UNKNOWNS)
        cell = Cell(one.id, kind, unknown, one.grade, counts.get(one.id, 0))
        rows.setdefault(kind, []).append((place, cell))
    in_order = sorted(
        (sorted(row, key=lambda one: one[0]) for row in rows.values()), key=lambda row: row[0][0]
    )
    others = sorted(set(counts) - set(situations.ids()))
    return (
        *(cell for row in in_order for _, cell in row),
        *(Cell(name, OTHER, name, None, counts[name]) for name in others),
    )


def _regroups(step: CoveredStep) -> bool:
    return sum(part % 10 for part in step.parts) >= 10


def _size(largest: int) -> str:
    return next((name for name, high in _SIZES.items() if largest <= high), _LARGER)


def _standards(told: Sequence[Covered], state: standards.Mapping | None) -> tuple[StandardUse, ...]:
    """All codes of the state, those of the Common Core that are practised, the others by name."""
    ours = {one.code: one for one in standards.common_core()}
    theirs = {one.code: one.grade for one in state.entries} if state else {}
    counts = Counter(code for one in told for code in one.standards)
    found = dict.fromkeys((*theirs, *(code for code in ours if code in counts), *sorted(counts)))
    return tuple(
        StandardUse(
            code,
            theirs.get(code) or (ours[code].grade if code in ours else None),
            ours[code].text if code in ours else "",
            counts[code],
        )
        for code in found
    )


def _keywords(told: Sequence[Covered]) -> tuple[KeywordUse, ...]:
    uses: dict[str, Counter[str]] = {word: Counter() for word in KEYWORDS}
    for one in told:
        kinds = {step.operation for step in one.steps}
        kind = kinds.pop() if len(kinds) == 1 else "both"
        for word in keywords_in(one.text.lower()):
            uses[word][kind] += 1
    return tuple(
        KeywordUse(word, use.total(), use["+"], use["-"], use["both"], use["list"])
        for word, use in uses.items()
    )
