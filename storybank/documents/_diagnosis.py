"""The page about a class's answers: a hint first, a table of the class, then each child."""

from storybank.documents._notation import mathematics, quoted
from storybank.documents._page import Block, Group, Heading, Page, Paragraph, Piece, Table, Title
from storybank.model.diagnosis import ChildAnswers, ClassRow, Diagnosis, Finding, Next, WrongAnswer

TITLE = "What the Answers Agree With"
NO_MISTAKE = "no known mistake"
GIVE_NEXT = "Problems to give next:"
"""Before the command that makes them."""


def page(diagnosis: Diagnosis) -> Page:
    """The page for the teacher: names of children stand on it and nowhere else."""
    blocks: list[Block] = [
        Title(TITLE),
        Paragraph("note", _text(diagnosis.hint)),
        Heading(1, "The class"),
        *_of_class(diagnosis),
        Heading(1, "Each child", new_page=len(diagnosis.children) > 1),
    ]
    blocks.extend(_of_child(child) for child in diagnosis.children)
    top = f"{TITLE} \N{MIDDLE DOT} for the teacher"
    return Page(title=TITLE, top=top, blocks=tuple(blocks))


def _of_class(diagnosis: Diagnosis) -> list[Block]:
    count = len(diagnosis.children)
    of = "1 child" if count == 1 else f"{count} children"
    problems = "1 problem" if diagnosis.problems == 1 else f"{diagnosis.problems} problems"
    blocks: list[Block] = [
        Paragraph(
            "note",
            f"{of}, {problems}. A chance is an answered problem for which the mistake leads to a "
            "wrong answer; a hit is that very answer.",
        )
    ]
    if diagnosis.rows:
        header = ("Mistake", "Found with", "Chances", "Hits")
        rows = tuple(_row(row) for row in diagnosis.rows)
        blocks.append(Table(header, rows, (35, 30, 20, 15)))
    else:
        blocks.append(Paragraph("fact", "No wrong answer is one that a known mistake leads to."))
    if diagnosis.next:
        blocks.append(Heading(2, "With the class"))
        blocks.extend(piece for one in diagnosis.next for piece in _next(one))
    notes = [*_seldom(diagnosis), *diagnosis.notes]
    if notes:
        blocks.append(Heading(2, "To bear in mind"))
        blocks.extend(Paragraph("note", _text(one)) for one in notes)
    return blocks


def _seldom(diagnosis: Diagnosis) -> list[str]:
    """What the set can hardly show, so that nobody takes silence for an answer."""
    said = []
    for title, chances in diagnosis.seldom:
        times = "1 chance" if chances == 1 else f"{chances} chances"
        said.append(f"This set gives only {times} to see: {title}.")
    return said


def _row(row: ClassRow) -> tuple[str, ...]:
    names = (*row.children, *(f"perhaps {name}" for name in row.perhaps))
    who = ", ".join(names) or "\N{EN DASH}"
    return " or ".join(row.titles), who, str(row.chances), str(row.hits)


def _of_child(child: ChildAnswers) -> Group:
    """A child that stays together: findings, what to do next, then the wrong answers."""
    blocks: list[Piece] = [
        Heading(2, child.name),
        Paragraph("note", f"{child.right} of {child.answered} answers right."),
    ]
    blocks.extend(Paragraph("fact", _finding(one), lead=_sure(one)) for one in child.findings)
    blocks.extend(piece for one in child.next for piece in _next(one))
    blocks.extend(_wrong(one) for one in child.wrong)
    return Group(tuple(blocks))


def _sure(finding: Finding) -> str:
    if finding.open:
        return "One of these, the problems do not tell which:"
    return "Many wrong answers agree with" if finding.clear else "Some wrong answers agree with"


def _finding(finding: Finding) -> str:
    parts = [f"{one.title} ({one.hits} of {one.chances} chances)" for one in finding.candidates]
    return f"{'; '.join(parts)}."


def _wrong(one: WrongAnswer) -> Paragraph:
    why = " or ".join(one.titles) or NO_MISTAKE
    text = f"{one.told}, wrote {one.given}, not {one.answer}: {why}"
    return Paragraph("fact", _text(text), lead=f"{one.number} \N{MIDDLE DOT} {one.code}")


def _next(one: Next) -> list[Piece]:
    title = f"{one.title}. " if one.title not in one.talk else ""
    pieces: list[Piece] = [Paragraph("note", _text(f"{title}{one.talk}"), lead="To talk about:")]
    if one.command:
        pieces.append(Paragraph("note", one.command, lead=GIVE_NEXT))
    return pieces


def _text(text: str) -> str:
    return quoted(mathematics(text))
