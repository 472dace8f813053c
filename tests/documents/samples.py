"""Finished problem sets made by hand, for the tests of documents; the stories are our own."""

import re

from storybank import vocabulary
from storybank.model import (
    BankWord,
    Equations,
    Jump,
    Problem,
    ProblemSet,
    Reading,
    SecondWay,
    Solution,
    Story,
    WatchFor,
)

NUMBER = re.compile(r"\d+")
FRAMES = ("I start at ___.", "I jump ___ because ___.")
WORDS = (
    BankWord("leaf, leaves", "\N{FALLEN LEAF}", "A flat green part of a tree.", {"es": "hoja"}),
    BankWord("basket", "\N{BASKET}", "You carry things in it."),
)


def jumps(start: int, *sizes: int, operation: str = "+", sought: bool = False) -> Solution:
    """A solution by jumps of these signed sizes."""
    made, place = [], start
    for size in sizes:
        made.append(Jump(place, place + size, size, "a friendly jump"))
        place += size
    says = tuple(f"Jump {abs(one.by)} from {one.start} and land on {one.to}." for one in made)
    first, second = (place, start) if sought else (start, abs(sum(sizes)))
    answer_is = "sum of jumps" if sought else "landing"
    return Solution(operation, first, second, start, tuple(made), (), answer_is, says)


def lines(operation: str, first: int, second: int, *equations: str) -> Solution:
    """A solution by equations."""
    says = tuple(f"Write {one}." for one in equations)
    return Solution(operation, first, second, None, (), equations, "last line", says)


def facts(first: int, second: int) -> tuple[str, ...]:
    """The related facts of first + second."""
    whole = first + second
    return (
        f"{first} + {second} = {whole}", f"{second} + {first} = {whole}",
        f"{whole} - {second} = {first}", f"{whole} - {first} = {second}",
    )  # fmt: skip


def problem(
    code: str,
    situation: str,
    strategy: str | None,
    numbers: dict[str, int],
    unknown: str,
    sentences: tuple[str, ...],
    answer: tuple[str, str],
    equations: tuple[str, str],
    solution: Solution,
    *,
    level: int = 4,
    person: str = "Ana",
    watch: tuple[WatchFor, ...] = (),
    second: SecondWay | None = None,
) -> Problem:
    """A problem with everything that follows from its parts filled in."""
    mark = "\n" if level < 4 else " "
    text = " ".join(sentences[:-1]) + mark + sentences[-1]
    story = Story(
        telling=f"{situation}/sample",
        people=(person,),
        sentences=sentences,
        text=text,
        given=tuple(value for role, value in numbers.items() if role != unknown),
        answer_sentence=answer[0],
        answer_frame=answer[1],
        word_bank=WORDS if level < 4 else (),
        talk_frames=FRAMES if level < 4 else (),
        support=vocabulary.get(f"level-{level}").support,
        without_numbers=tuple(NUMBER.sub("some", one) for one in sentences[:-1]),
    )
    both = unknown == "parts"
    whole = max(numbers.values())
    parts = sorted(numbers.values())
    return Problem(
        code=code,
        theme="autumn",
        scene="sample",
        situation=situation,
        strategy=strategy,
        vocabulary=f"level-{level}",
        standards=("2.OA.1", "2.NBT.5"),
        numbers=numbers,
        unknown=unknown,
        answer=tuple((one, whole - one) for one in range(whole + 1)) if both else numbers[unknown],
        story=story,
        equations=Equations(*equations),
        related_facts=() if both else facts(parts[0], parts[1]),
        solution=solution,
        watch_for=watch,
        second_way=second,
        reading=Reading(len(text.split()), 2.4),
    )


HEBREW_NAME = "\u05e0\u05d5\u05e2\u05d4 \u05dc\u05d5\u05d9"

PROBLEMS = (
    problem(
        "K7QX", "join-result-unknown", "friendly-then-compensate",
        {"start": 46, "change": 38, "end": 84}, "end",
        ("Ana has 46 leaves in her basket.", "She picks up 38 more leaves under the big tree.",
         "How many leaves does Ana have now?"),
        ("Ana has 84 leaves now.", "Ana has ___ leaves now."), ("46 + 38 = ?", "46 + 38 = ?"),
        jumps(46, 40, -2),
        watch=(
            WatchFor(88, ("fixed-the-wrong-way",), "Jumped 2 on instead of 2 back (86 + 2 = 88)."),
            WatchFor(86, ("forgot-to-fix",), "Jumped 40 and did not give 2 back."),
            WatchFor(74, ("ten-dropped",), "Left out the new ten."),
        ),
        second=SecondWay("next-ten-first", jumps(46, 4, 34)),
    ),
    problem(
        "M2RD", "separate-result-unknown", "friendly-then-compensate",
        {"end": 35, "change": 47, "start": 82}, "end",
        ("There are 82 ducks on the lake.", "Then 47 ducks fly to the field.",
         "How many ducks are still on the lake?"),
        ("There are 35 ducks on the lake.", "There are ___ ducks on the lake."),
        ("82 - 47 = ?", "82 - 47 = ?"), jumps(82, -50, 3, operation="-"),
        watch=(WatchFor(45, ("smaller-from-larger", "ten-kept"), "Took 2 from 7."),),
        second=SecondWay("same-difference", lines("-", 82, 47, "82 + 3 = 85", "85 - 50 = 35")),
    ),
    problem(
        "P4TW", "join-change-unknown", "count-up",
        {"start": 67, "change": 15, "end": 82}, "change",
        (f"{HEBREW_NAME} has 67 shells.", f"{HEBREW_NAME} finds some more shells.",
         f"Now {HEBREW_NAME} has 82 shells.", f"How many shells did {HEBREW_NAME} find?"),
        (f"{HEBREW_NAME} found 15 shells.", f"{HEBREW_NAME} found ___ shells."),
        ("67 + ? = 82", "82 - 67 = ?"), jumps(67, 3, 12, operation="-", sought=True),
        level=3, person=HEBREW_NAME,
    ),
    problem(
        "R6VB", "join-start-unknown", "tens-then-ones",
        {"start": 32, "change": 25, "end": 57}, "start",
        ("Leo starts with some leaves.", "Leo gets 25 leaves.", "Now Leo has 57 leaves.",
         "How many leaves did Leo have first?"),
        ("Leo had 32 leaves first.", "Leo had ___ leaves first."),
        ("? + 25 = 57", "57 - 25 = ?"), jumps(57, -20, -5, operation="-"), level=1, person="Leo",
    ),
    problem(
        "T8XG", "both-parts-unknown", None, {"whole": 12}, "parts",
        ("Mia has 12 books for a red box and a blue box.",
         "How many books can go in each box? Find all the ways."),
        ("The 13 ways are listed.", "___ books can go in the red box."),
        ("12 = ? + ?", "12 = ? + ?"),
        Solution(None, None, None, None, (),
                 tuple(f"12 = {one} + {12 - one}" for one in range(13)), "all lines", ()),
        person="Mia",
    ),
    problem(
        "V3ZK", "whole-unknown", "split-tens-and-ones",
        {"part1": 34, "part2": 25, "whole": 59}, "whole",
        ("Kai has 34 red leaves.", "Kai has 25 gold leaves.", "How many leaves does Kai have?"),
        ("Kai has 59 leaves.", "Kai has ___ leaves."), ("34 + 25 = ?", "34 + 25 = ?"),
        lines("+", 34, 25, "30 + 20 = 50", "4 + 5 = 9", "50 + 9 = 59"), level=1, person="Kai",
    ),
    problem(
        "X5CM", "compare-difference-unknown-fewer", "same-difference",
        {"smaller": 39, "difference": 33, "bigger": 72}, "difference",
        ("The baker has 72 rolls.", "The cook has 39 rolls.",
         "How many fewer rolls does the cook have than the baker?"),
        ("The cook has 33 fewer rolls.", "The cook has ___ fewer rolls."),
        ("39 + ? = 72", "72 - 39 = ?"), lines("-", 72, 39, "72 + 1 = 73", "39 + 1 = 40",
                                             "73 - 40 = 33"), level=2, person="the baker",
    ),
    problem(
        "Z7FN", "compare-bigger-unknown-fewer", "skip-count",
        {"smaller": 34, "difference": 40, "bigger": 74}, "bigger",
        ("Zoe made 34 cards.", "She made 40 fewer cards than Omar.",
         "How many cards did Omar make?"),
        ("Omar made 74 cards.", "Omar made ___ cards."), ("? - 40 = 34", "34 + 40 = ?"),
        jumps(34, 10, 10, 10, 10), person="Zoe",
    ),
    problem(
        "B9HP", "separate-change-unknown", "friendly-then-compensate",
        {"end": 44, "change": 38, "start": 82}, "change",
        ("Ivy had 82 seeds.", "She planted some of them in the garden.", "Then she had 44 seeds.",
         "How many seeds did Ivy plant?"),
        ("Ivy planted 38 seeds.", "Ivy planted ___ seeds."), ("82 - ? = 44", "82 - 44 = ?"),
        jumps(44, 40, -2, operation="-", sought=True), person="Ivy",
    ),
    problem(
        "D2KR", "part-unknown", "related-fact",
        {"part1": 8, "part2": 4, "whole": 12}, "part2",
        ("Eli has 12 apples in a bag.", "8 of them are red and the other apples are green.",
         "How many apples are green?"),
        ("4 apples are green.", "___ apples are green."), ("8 + ? = 12", "12 - 8 = ?"),
        lines("-", 12, 8, "8 + 4 = 12", "12 - 8 = 4"), level=3, person="Eli",
    ),
    problem(
        "F4MT", "compare-smaller-unknown-more", "next-ten-first",
        {"smaller": 46, "difference": 17, "bigger": 63}, "smaller",
        ("Nora read 63 pages.", "She read 17 more pages than Sam.", "How many pages did Sam read?"),
        ("Sam read 46 pages.", "Sam read ___ pages."), ("? + 17 = 63", "63 - 17 = ?"),
        jumps(63, -3, -14, operation="-"), person="Nora",
    ),
    problem(
        "H6PV", "separate-start-unknown", "give-and-take",
        {"end": 28, "change": 67, "start": 95}, "start",
        ("The farmer starts with some eggs.", "He sells 67 eggs in the village.",
         "Now he has 28 eggs.", "How many eggs did the farmer start with?"),
        ("The farmer started with 95 eggs.", "The farmer started with ___ eggs."),
        ("? - 67 = 28", "28 + 67 = ?"),
        lines("+", 28, 67, "28 + 2 = 30", "67 - 2 = 65", "30 + 65 = 95"), person="the farmer",
    ),
)  # fmt: skip

REQUEST = {
    "theme": ["autumn"], "strategy": ["any"], "situation": [], "within": 100, "count": 12,
    "vocabulary": "level-4", "pair": [], "crossing": "any", "diagnose": False, "names": None,
    "names_from": None, "seed": 7,
}  # fmt: skip


def sample_set() -> ProblemSet:
    """Twelve problems over situations, levels, and solutions with jumps and with lines."""
    return ProblemSet(REQUEST, PROBLEMS, "0.1.0")


def level_set(level: int) -> ProblemSet:
    """Four problems of one vocabulary level."""
    made = [one for one in PROBLEMS if one.vocabulary == f"level-{level}"]
    return ProblemSet({**REQUEST, "vocabulary": f"level-{level}"}, tuple(made * 4)[:4], "0.1.0")
