"""What a set covers, as a page: pictures and tables of situations, strategies, standards, words."""

from collections.abc import Mapping, Sequence

from storybank.documents._layout import Layout
from storybank.documents._page import (
    Block,
    Group,
    Heading,
    Page,
    Paragraph,
    Picture,
    Piece,
    Table,
    Title,
)
from storybank.documents._support import level_name, strategy_name
from storybank.drawings import coverage_grid
from storybank.model.coverage import Cell, Coverage

TITLE = "What the Problems Cover"
_OPERATIONS = {"+": "addition", "-": "subtraction", "list": "all pairs of parts"}
_NONE = "\N{EM DASH}"
_TABLE_1 = "Kinds and unknowns as in the Common Core (CCSS-M), glossary, Table 1."
_KEYWORDS = (
    "No word should tell which operation to use: of the stories with one word, some should add and "
    "some take away."
)


def page(coverage: Coverage, layout: Layout) -> Page:
    """The coverage of a set, or of several sets together, as a document for the teacher."""
    whole = (Title(TITLE), *blocks(coverage, layout))
    return Page(title=TITLE, top=TITLE, blocks=whole)


def blocks(coverage: Coverage, layout: Layout) -> list[Block]:
    """The blocks of the page without its title."""
    return [
        *_first(coverage),
        *_situations(coverage, layout),
        *_operations(coverage),
        *_strategies(coverage, layout),
        *_standards(coverage, layout),
        *_keywords(coverage),
    ]


def _first(coverage: Coverage) -> list[Block]:
    said = [f"{_many(coverage.problems, 'story problem')}."]
    if coverage.two_steps:
        said.append(
            f"{coverage.two_steps} of them have two steps; situations, operations and regrouping "
            f"are counted by step, {coverage.steps} steps in all."
        )
    if coverage.three_addends:
        said.append(f"{coverage.three_addends} of them add three numbers.")
    if coverage.further_numbers:
        said.append(
            "Some stories have several sets of numbers; regrouping and the size of the numbers are "
            f"counted with each, {sum(coverage.sizes.values())} sets in all."
        )
    if coverage.units:
        named = ", ".join(f"{name} {count}" for name, count in coverage.units.items())
        said.append(f"Problems with a unit: {named}.")
    levels = ", ".join(f"{level_name(name)} ({count})" for name, count in coverage.levels.items())
    return [
        Paragraph("note", " ".join(said)),
        Paragraph("note", f"{levels}.", lead="Levels of English:"),
    ]


def _situations(coverage: Coverage, layout: Layout) -> list[Block]:
    rows: dict[str, list[Cell]] = {}
    for cell in coverage.cells:
        rows.setdefault(cell.kind, []).append(cell)
    columns = max(len(row) for row in rows.values())
    drawn = [(kind, [(one.unknown, one.count) for one in row]) for kind, row in rows.items()]
    picture = Picture(coverage_grid.grid(drawn, measures=layout.measures))
    header = ("Kind", *(f"Unknown {at}" for at in range(1, columns + 1)))
    cells = [
        (
            kind,
            *(f"{one.unknown}: {one.count}" for one in row),
            *["\N{NO-BREAK SPACE}"] * (columns - len(row)),
        )
        for kind, row in rows.items()
    ]
    widths = (27, 48, 25) if layout.large_print else (18, 66, 16)
    grades = [
        (_grade(grade), _of_grade(rows, grade), str(count))
        for grade, count in coverage.grades.items()
    ]
    beyond = [
        f"{coverage.beyond(grade)} of {coverage.steps} are beyond {_grade(grade)}"
        for grade in list(coverage.grades)[:-1]
    ]
    missing = sum(not one.count for one in coverage.cells)
    told = f"{len(coverage.cells) - missing} of {len(coverage.cells)} situations are told"
    return [
        Heading(1, "Situations"),
        Paragraph("note", f"{_TABLE_1} {told}; 0 stands for one that is not."),
        picture,
        Table(header, tuple(cells), (28, *[24] * columns)),
        Heading(1, "Grade of expected mastery"),
        Paragraph(
            "note",
            f"Grades as in Table 1. {', '.join(beyond)}. Nothing is left out for it; states "
            "differ, and a state\N{RIGHT SINGLE QUOTATION MARK}s own grades come first.",
        ),
        Table(("Grade", "Situations", "Problems"), tuple(grades), widths),
    ]


def _operations(coverage: Coverage) -> list[Block]:
    rows = [
        (_OPERATIONS.get(name, name), str(count), _share(count, coverage.steps))
        for name, count in coverage.operations.items()
    ]
    sizes = [
        (name, str(count), _share(count, sum(coverage.sizes.values())))
        for name, count in coverage.sizes.items()
    ]
    of = coverage.with_ones
    return [
        Heading(1, "Operations and numbers"),
        Paragraph(
            "note",
            f"{coverage.regrouping} of {of} ({_share(coverage.regrouping, of)}) regroup: their "
            "ones make ten or more, or are too few to take from.",
        ),
        Table(("Solved by", "Problems", "Share"), tuple(rows), (50, 25, 25)),
        Heading(2, "How large the numbers are"),
        Table(("Largest number", "Problems", "Share"), tuple(sizes), (50, 25, 25)),
    ]


def _strategies(coverage: Coverage, layout: Layout) -> list[Block]:
    named = [(strategy_name(name), count) for name, count in coverage.strategies.items()]
    drawing = coverage_grid.bars("Strategies", named, measures=layout.measures)
    opening: list[Piece] = [Heading(1, "Strategies")]
    if coverage.without_strategy:
        said = f"{_many(coverage.without_strategy, 'problem')} without a strategy (all pairs)."
        opening.append(Paragraph("note", said))
    rows = [(name, str(count), _share(count, coverage.problems)) for name, count in named]
    return [
        Group((*opening, Picture(drawing))),
        Table(("Strategy", "Problems", "Share"), tuple(rows), (54, 25, 21)),
    ]


def _standards(coverage: Coverage, layout: Layout) -> list[Block]:
    said = "A problem may practice several."
    if any(one.text for one in coverage.standards):
        said += " Codes of the Common Core (2010); the texts are our own words."
    if coverage.without_standard:
        said += f" {_many(coverage.without_standard, 'problem')} with no standard named."
    blocks: list[Block] = [Heading(1, "Standards"), Paragraph("note", said)]
    if not coverage.standards:
        return blocks
    with_text = any(one.text for one in coverage.standards)
    rows = [
        (one.code, one.grade or _NONE, *([one.text or _NONE] if with_text else []), str(one.count))
        for one in coverage.standards
    ]
    if with_text:
        header: tuple[str, ...] = ("Code", "Grade", "What it asks for", "Problems")
        widths: tuple[int, ...] = (22, 16, 37, 25) if layout.large_print else (15, 11, 58, 16)
    else:
        header, widths = ("Code", "Grade", "Problems"), (50, 25, 25)
    blocks.append(Table(header, tuple(rows), widths))
    return blocks


def _keywords(coverage: Coverage) -> list[Block]:
    with_steps = any(one.both for one in coverage.keywords)
    header = ["Word", "Stories", "Share", "Add", "Take away"]
    rows = []
    for one in coverage.keywords:
        row = [one.word, str(one.stories), _share(one.stories, coverage.problems),
               str(one.adding), str(one.taking_away)]  # fmt: skip
        rows.append((*row, str(one.both)) if with_steps else tuple(row))
    if with_steps:
        header.append("Both")
    pairs = sum(one.neither for one in coverage.keywords)
    said = (
        f"{_KEYWORDS} {coverage.without_keyword} of {coverage.problems} stories "
        f"({_share(coverage.without_keyword, coverage.problems)}) use none of these words."
    )
    if pairs:
        said += " Stories that ask for all pairs are counted under Stories alone."
    widths = (27, 20, 17, 15, 21, 16)[: len(header)]
    return [
        Heading(1, "Keywords"),
        Paragraph("note", said),
        Table(tuple(header), tuple(rows), widths),
    ]


def _of_grade(rows: Mapping[str, Sequence[Cell]], grade: str) -> str:
    """The situations of a grade: the kinds, each with its unknowns."""
    found = {kind: [one.unknown for one in row if one.grade == grade] for kind, row in rows.items()}
    said = [f"{kind.lower()}: {', '.join(names)}" for kind, names in found.items() if names]
    return "; ".join(said)


def _grade(grade: str) -> str:
    return "kindergarten" if grade == "K" else f"grade {grade}"


def _share(count: int, of: int) -> str:
    return f"{(200 * count + of) // (2 * of)}%" if of else _NONE


def _many(count: int, what: str) -> str:
    return f"{count} {what}{'' if count == 1 else 's'}"
