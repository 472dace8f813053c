"""The diagnosis as plain text for a terminal."""

from collections.abc import Iterator
from textwrap import fill

from storybank.model.diagnosis import ChildAnswers, Diagnosis, Finding, Next, WrongAnswer

WIDTH = 92


def as_text(diagnosis: Diagnosis) -> str:
    """All of the diagnosis, its hint first: the class, then each child."""
    parts = [fill(diagnosis.hint, WIDTH), "", "The class:"]
    if not diagnosis.rows:
        parts.append("  No wrong answer is one that a known mistake leads to.")
    for row in diagnosis.rows:
        names = (*row.children, *(f"perhaps {name}" for name in row.perhaps))
        who = ", ".join(names) or "no child often enough to say"
        made = f"{row.hits} of {row.chances} chances"
        parts.append(_line(f"{' or '.join(row.titles)}: {made}; {who}"))
    for title, chances in diagnosis.seldom:
        parts.append(_line(f"This set gives {_times(chances)} to see: {title}."))
    for one in diagnosis.next:
        parts.extend(_next(one))
    for child in diagnosis.children:
        parts.extend(("", *_child(child)))
    return "\n".join(parts) + "\n"


def _times(chances: int) -> str:
    return "only 1 chance" if chances == 1 else f"only {chances} chances"


def _line(text: str, indent: str = "  ") -> str:
    return fill(text, WIDTH, initial_indent=indent, subsequent_indent=f"{indent}  ")


def _child(child: ChildAnswers) -> Iterator[str]:
    yield f"{child.name}: {child.right} of {child.answered} right"
    for finding in child.findings:
        yield _line(said(finding))
    for one in child.wrong:
        yield _line(
            f"{one.number} {one.code}  {one.told}  wrote {one.given}, not {one.answer}{_why(one)}"
        )
    for following in child.next:
        yield from _next(following)


def said(finding: Finding) -> str:
    """A finding as a sentence with its hits and chances."""
    parts = [f'"{one.title}" ({one.hits} of {one.chances} chances)' for one in finding.candidates]
    if finding.open:
        return f"Wrong answers agree with one of: {', '.join(parts)}."
    sure = "Many wrong answers agree" if finding.clear else "Some wrong answers agree"
    return f"{sure} with {parts[0]}."


def _why(one: WrongAnswer) -> str:
    return f": {', '.join(one.titles)}" if one.titles else ": no known mistake"


def _next(one: Next) -> Iterator[str]:
    lead = f"{one.title}: " if one.title not in one.talk else ""
    yield _line(f"-> {lead}{one.talk}")
    if one.command:
        yield f"     {one.command}"
