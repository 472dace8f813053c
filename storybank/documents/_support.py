"""What is printed beside a story to support a child who is learning English.

Which of it is printed is data: the `support` of the vocabulary pack, which the story carries.
"""

from storybank.documents._by_step import by_step
from storybank.documents._layout import Layout
from storybank.drawings import Drawing, Measures, open_number_line, tape_diagram
from storybank.model import Problem, ProblemSet

_ROLES_TO_PLACE = ("start", "part1", "smaller", "bigger", "end", "whole")
_SHAPES = {
    "level-1": "\N{BLACK DIAMOND}",
    "level-2": "\N{BLACK CIRCLE}",
    "level-3": "\N{BLACK UP-POINTING TRIANGLE}",
    "level-4": "\N{BLACK SQUARE}",
}
_OTHER_SHAPE = "\N{BLACK STAR}"


def shape(vocabulary: str) -> str:
    """The sign that stands on a sheet in place of its level of English; it ranks nobody."""
    return _SHAPES.get(vocabulary, _OTHER_SHAPE)


def shape_of(problem_set: ProblemSet) -> str:
    """The shape of a set's one level; nothing where it has several."""
    levels = {problem.vocabulary for problem in problem_set.problems}
    return shape(levels.pop()) if len(levels) == 1 else ""


def for_name_and_date(problem_set: ProblemSet, layout: Layout) -> str:
    """The line at the top of a child's page: name, date, and the shape of its level."""
    return f"{name_and_date(layout)}    {shape_of(problem_set)}".rstrip()


def name_and_date(layout: Layout) -> str:
    """The line at the top of a child's page that has no level: name and date."""
    name, date = (18, 9) if layout.large_print else (24, 14)
    return f"Name {'_' * name}    Date {'_' * date}"


def has_word_bank(problem: Problem) -> bool:
    """Whether a word bank is printed beside a problem."""
    return "word-bank" in problem.story.support and bool(problem.story.word_bank)


def line_to_draw_on(problem: Problem, layout: Layout) -> Drawing | None:
    """The number line on which a child draws jumps; None where none is wanted.

    A started one holds one given number, or an empty circle where the start is asked for; of two
    steps it is that of the first.
    """
    wanted = layout.lines
    if wanted is None:
        wanted = "started" if "started-line" in problem.story.support else "blank"
    if wanted == "none":
        return None
    if wanted == "blank" or problem.number_sets or problem.missing:
        return open_number_line.blank(measures=layout.measures)
    placed = number_to_place(by_step(problem)[0])
    return open_number_line.blank(placed, empty_circle=placed is None, measures=layout.measures)


def number_to_place(problem: Problem) -> int | None:
    """The given number that a started line shows, or None when the start is asked for."""
    for role in _ROLES_TO_PLACE:
        if role == problem.unknown and role == "start":
            return None
        if role in problem.numbers and role != problem.unknown:
            return problem.numbers[role]
    return None


def bar(problem: Problem, measures: Measures) -> Drawing | None:
    """The bar diagram of a story of parts or a comparison, or None for any other story.

    Where both parts are asked for there is none, since it would show one way as the only one.
    """
    if problem.unknown == "parts":
        return None
    told = {role: None if role == problem.unknown else n for role, n in problem.numbers.items()}
    if set(told) == {"part1", "part2", "whole"}:
        return tape_diagram.parts(told["part1"], told["part2"], told["whole"], measures=measures)
    if set(told) == {"smaller", "difference", "bigger"}:
        return tape_diagram.compare(
            told["smaller"], told["difference"], told["bigger"], measures=measures
        )
    return None


def sentence_starter(frame: str) -> str:
    """The beginning of an answer frame up to its blank; the whole frame if it begins with it."""
    starter = frame.partition("___")[0].strip()
    return f"{starter} {'_' * 12}" if starter else frame


def strategy_name(strategy: str) -> str:
    """A strategy's id as words: `friendly-then-compensate` as "friendly, then compensate"."""
    return strategy.replace("-then-", ", then ").replace("-", " ")


def level_name(vocabulary: str) -> str:
    """A vocabulary's id as words: `level-1` as "Level 1"."""
    return vocabulary.replace("-", " ").capitalize()
