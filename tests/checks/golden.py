"""Good problems written by hand over families and levels; stories and theme are our own."""

from dataclasses import dataclass

from storybank import vocabulary
from storybank.checks import Context
from storybank.model import (
    BankWord,
    Equations,
    Jump,
    Problem,
    Reading,
    SecondWay,
    Solution,
    Story,
    WatchFor,
)
from storybank.model.words import (
    Act,
    Comparison,
    Goal,
    Header,
    Holder,
    Kinds,
    Noun,
    Occasion,
    Scene,
    Side,
    Theme,
    Thing,
    Times,
    Verb,
    Wording,
)


@dataclass(frozen=True)
class Named:
    """A person of a story."""

    name: str
    pronoun: str | None


PEOPLE = (Named("Nia", "she"), Named("Omar", "he"), Named("Tove", None), Named("Ana María", "she"))

APPLE, PEAR = Noun("an apple", "apples"), Noun("a pear", "pears")
LEAF, FRUIT = Noun("a leaf", "leaves"), Noun("a piece of fruit", "pieces of fruit")
ROOM = {"apple": (1, 100), "pear": (1, 100), "leaf": (1, 100), "lantern": (1, 30)}
THEME = Theme(
    header=Header("farm", "Farm", "autumn", (9,), "any", None, "our own invention", "nobody"),
    things={
        "apple": Thing("apple", APPLE, "\N{RED APPLE}", "a round fruit"),
        "pear": Thing("pear", PEAR, "\N{PEAR}", "a soft fruit"),
        "leaf": Thing("leaf", LEAF, "\N{FALLEN LEAF}", "a flat part of a tree"),
        "lantern": Thing("lantern", Noun("a lantern", "lanterns"), None, "a lamp to carry"),
    },
    words=(),
    scenes={
        "orchard": Scene(
            id="orchard",
            theme="farm",
            title="Picking fruit",
            setting="in the orchard",
            occasion=Occasion(Verb("help", "helps", "helped", "helped"), "on the farm", ("apple",)),
            things=("apple", "pear", "leaf", "lantern"),
            holders={
                "child": Holder("child", "person", None, None, "in a basket", ROOM, None),
                "crate": Holder("crate", "place", "a crate", "in", None, ROOM, "a box"),
                "tree": Holder("tree", "place", "the old tree", "on", None, ROOM, None),
            },
            acts=(
                Act("pick", "gain", ("child",), ("apple",), (1, 60),
                    Wording(Verb("pick", "picks", "picked", "picked"),
                            "{who} {verb} up {n} {things}"), None),
                Act("take", "lose", ("crate",), ("apple",), (1, 60),
                    Wording(Verb("take", "takes", "took", "taken"),
                            "{who} {verb} {n} {things} out of {holder}"),
                    Wording(Verb("take", "takes", "took", "taken"),
                            "{who} {verb} {n} {things} from {holder}")),
                Act("fall", "lose", ("tree",), ("leaf",), (1, 60),
                    Wording(Verb("fall", "falls", "fell", "fallen"),
                            "{n} {things} {verb} to the ground"), None),
            ),
            kinds=(
                Kinds("color", "color", "apple", APPLE, Side("red", "red", "red", APPLE),
                      Side("green", "green", "green", APPLE), ("child",), (2, 100)),
                Kinds("fruit", "sort", "", FRUIT, Side(None, "apples", "an apple", APPLE, "apple"),
                      Side(None, "pears", "a pear", PEAR, "pear"), ("crate",), (2, 100)),
            ),
            compare=(Comparison("pick", Verb("pick", "picks", "picked", "picked"), (), ("apple",),
                                (1, 100)),),
            goal=Goal(Verb("need", "needs", "needed", "needed"), "for the party", ("child",),
                      ("apple",), (1, 100)),
            times=(Times("in the morning", "in the afternoon", "that day", ("pick",)),),
        )
    },
)  # fmt: skip

APPLES = BankWord("apples", "\N{RED APPLE}", "a round fruit")
PEARS = BankWord("pears", "\N{PEAR}", "a soft fruit")
LEAVES = BankWord("leaves", "\N{FALLEN LEAF}", "a flat part of a tree")
MORE = BankWord("more", None, "extra ones, or a bigger number")
FEWER = BankWord("fewer", None, "a smaller number of")
TOGETHER = BankWord("together", None, "counting them all")
OTHER = BankWord("other", None, "the ones not told about yet")
FIRST = BankWord("at first", None, "before anything changes")


def walk(operation: str, a: int, b: int, start: int, *sizes: int) -> Solution:
    """A solution by jumps; the answer is their sum where they start at b."""
    made, at = [], start
    for size in sizes:
        made.append(Jump(at, at + size, size, f"jump {abs(size)}"))
        at += size
    says = tuple(f"From {one.start} I land on {one.to}." for one in made)
    summed = operation == "-" and start == b
    return Solution(
        operation, a, b, start, tuple(made), (), "sum of jumps" if summed else "landing", says
    )


def lines(operation: str, a: int, b: int, *equations: str) -> Solution:
    """A solution by lines."""
    says = tuple(f"I write {one}." for one in equations)
    return Solution(operation, a, b, None, (), equations, "last line", says)


def golden(
    situation: str,
    level: int,
    numbers: dict[str, int],
    unknown: str,
    told: str,
    answer: tuple[str, str],
    equations: tuple[str, str],
    strategy: str | None,
    solution: Solution,
    standards: tuple[str, ...],
    reading: tuple[int, float],
    *,
    people: tuple[str, ...] = ("Nia",),
    bank: tuple[BankWord, ...] = (APPLES,),
    watch: tuple[WatchFor, ...] = (),
    second: SecondWay | None = None,
) -> Problem:
    """A problem; `told` has its sentences one a line, which none of the figures is taken from."""
    sentences = tuple(told.split("\n"))
    questions = 2 if unknown == "parts" else 1
    first, last = " ".join(sentences[:-questions]), " ".join(sentences[-questions:])
    values = list(numbers.values())
    facts: tuple[str, ...] = ()
    if unknown != "parts":
        a, b, c = values
        facts = (f"{a} + {b} = {c}", f"{b} + {a} = {c}", f"{c} - {a} = {b}", f"{c} - {b} = {a}")
        facts = facts if a != b else facts[::2]
    story = Story(
        telling="by-hand",
        people=people,
        sentences=sentences,
        text=f"{first}{' ' if level == 4 else chr(10)}{last}",
        given=tuple(int(word) for word in first.split() if word.isdigit()),
        answer_sentence=answer[0],
        answer_frame=answer[1],
        word_bank=bank,
        talk_frames=("I start at ___.",),
    )
    return Problem(
        code="K7QX2",
        theme="farm",
        scene="orchard",
        situation=situation,
        strategy=strategy,
        vocabulary=f"level-{level}",
        standards=standards,
        numbers=numbers,
        unknown=unknown,
        answer=(
            tuple((one, values[0] - one) for one in range(values[0] + 1))
            if unknown == "parts"
            else numbers[unknown]
        ),
        story=story,
        equations=Equations(*equations),
        related_facts=facts,
        solution=solution,
        watch_for=watch,
        second_way=second,
        reading=Reading(*reading),
    )


TWO = ("2.OA.1", "2.NBT.5")
GOLDEN = {
    "join, level 4": golden(
        "join-result-unknown", 4, {"start": 46, "change": 38, "end": 84}, "end",
        "Nia had 46 apples in a basket.\nThen she picked up 38 more apples.\n"
        "How many apples did Nia have after that?",
        ("Nia had 84 apples after that.", "Nia had ___ apples after that."),
        ("46 + 38 = ?", "46 + 38 = ?"), "friendly-then-compensate",
        walk("+", 46, 38, 46, 40, -2), TWO, (22, 1.5),
        watch=(WatchFor(86, ("forgot-to-fix",), "Jumped 40 and did not go back."),
               WatchFor(74, ("ten-dropped",), "Left out the new ten.")),
        second=SecondWay("tens-then-ones", walk("+", 46, 38, 46, 30, 8)),
    ),
    "join change by a goal, level 1": golden(
        "join-change-unknown", 1, {"start": 64, "change": 14, "end": 78}, "change",
        "Tove needs 78 apples for the party.\nTove has 64 apples.\n"
        "How many more apples does Tove need?",
        ("Tove needs 14 more apples.", "Tove needs ___ more apples."),
        ("64 + ? = 78", "78 - 64 = ?"), "tens-then-ones",
        walk("-", 78, 64, 64, 10, 4), TWO, (18, 1.4),
        people=("Tove",), bank=(APPLES, MORE),
    ),
    "join start, level 2": golden(
        "join-start-unknown", 2, {"start": 12, "change": 1, "end": 13}, "start",
        "Nia has some apples.\nThen she picks up 1 more apple.\nNow she has 13 apples.\n"
        "How many apples did Nia have at first?",
        ("Nia had 12 apples at first.", "Nia had ___ apples at first."),
        ("? + 1 = 13", "13 - 1 = ?"), "count-on", walk("-", 13, 1, 13, -1),
        ("2.OA.1", "2.OA.2"), (24, 1.4), bank=(APPLES, MORE, FIRST),
    ),
    "separate from a place, level 3": golden(
        "separate-result-unknown", 3, {"end": 35, "change": 47, "start": 82}, "end",
        "There were 82 leaves on the old tree.\nThen 47 leaves fell to the ground.\n"
        "How many leaves were on the old tree after that?",
        ("There were 35 leaves on the old tree after that.",
         "There were ___ leaves on the old tree after that."),
        ("82 - 47 = ?", "82 - 47 = ?"), "tens-then-ones", walk("-", 82, 47, 82, -40, -7), TWO,
        (25, 1.7), people=(), bank=(LEAVES,),
        second=SecondWay("same-difference",
                         lines("-", 82, 47, "82 + 3 = 85", "47 + 3 = 50", "85 - 50 = 35")),
    ),
    "separate change, sought, level 3": golden(
        "separate-change-unknown", 3, {"end": 67, "change": 14, "start": 81}, "change",
        "Nia had 81 apples in a basket.\nThen some apples fell to the ground.\n"
        "After that, Nia had 67 apples in the basket.\nHow many apples fell to the ground?",
        ("So 14 apples fell to the ground.", "So ___ apples fell to the ground."),
        ("81 - ? = 67", "81 - 67 = ?"), "next-ten-first",
        walk("-", 81, 67, 67, 3, 11), TWO, (30, 1.6),
    ),
    "whole, doubles, level 3": golden(
        "whole-unknown", 3, {"part1": 8, "part2": 8, "whole": 16}, "whole",
        "Ana María had 8 red apples.\nAna María had 8 green apples.\n"
        "How many apples did Ana María have?",
        ("Ana María had 16 apples.", "Ana María had ___ apples."),
        ("8 + 8 = ?", "8 + 8 = ?"), "doubles", lines("+", 8, 8, "8 + 8 = 16"),
        ("1.OA.1", "1.OA.6"), (16, 1.3), people=("Ana María",),
    ),
    "whole of sorts, level 2": golden(
        "whole-unknown", 2, {"part1": 1, "part2": 24, "whole": 25}, "whole",
        "There is 1 apple in a box.\nThere are 24 pears in the box.\n"
        "How many pieces of fruit are in the box?",
        ("There are 25 pieces of fruit in the box.", "There are ___ pieces of fruit in the box."),
        ("1 + 24 = ?", "1 + 24 = ?"), "count-on", walk("+", 24, 1, 24, 1), TWO, (23, 1.9),
        people=(), bank=(APPLES, PEARS),
    ),
    "part, level 4": golden(
        "part-unknown", 4, {"part1": 53, "part2": 45, "whole": 98}, "part2",
        "Nia had 98 apples.\nShe had 53 red apples.\nThe other apples were green.\n"
        "How many green apples did Nia have?",
        ("Nia had 45 green apples.", "Nia had ___ green apples."),
        ("53 + ? = 98", "98 - 53 = ?"), "split-tens-and-ones",
        lines("-", 98, 53, "90 - 50 = 40", "8 - 3 = 5", "40 + 5 = 45"), TWO, (21, 1.3),
        bank=(APPLES, OTHER),
    ),
    "both parts, level 1": golden(
        "both-parts-unknown", 1, {"whole": 7}, "parts",
        "Tove has 7 apples.\nEach apple is red or green.\nHow many red apples could Tove have?\n"
        "How many green apples could Tove have?",
        ("Tove could have 1 red apple and 6 green apples.",
         "Tove could have ___ red apples and ___ green apples."),
        ("7 = ? + ?", "7 = ? + ?"), None,
        Solution("+", None, None, None, (), tuple(f"7 = {one} + {7 - one}" for one in range(8)),
                 "all lines", ()),
        ("K.OA.3",), (24, 1.4), people=("Tove",), bank=(APPLES,
        BankWord("each", None, "every single one")),
    ),
    "compare difference, level 4": golden(
        "compare-difference-unknown-fewer", 4, {"smaller": 39, "difference": 33, "bigger": 72},
        "difference",
        "Nia and Omar helped on the farm.\nNia picked 72 apples.\nOmar picked 39 apples.\n"
        "How many fewer apples did Omar pick than Nia?",
        ("Omar picked 33 fewer apples than Nia.", "Omar picked ___ fewer apples than Nia."),
        ("39 + ? = 72", "72 - 39 = ?"), "same-difference",
        lines("-", 72, 39, "72 + 1 = 73", "39 + 1 = 40", "73 - 40 = 33"), TWO, (24, 1.4),
        people=("Nia", "Omar"), bank=(APPLES, FEWER),
        second=SecondWay("friendly-then-compensate", walk("-", 72, 39, 72, -40, 1)),
    ),
    "compare smaller, level 1": golden(
        "compare-smaller-unknown-more", 1, {"smaller": 46, "difference": 17, "bigger": 63},
        "smaller",
        "Nia has 63 apples.\nNia has 17 more apples than Tove.\nHow many apples does Tove have?",
        ("Tove has 46 apples.", "Tove has ___ apples."), ("? + 17 = 63", "63 - 17 = ?"),
        "next-ten-first", walk("-", 63, 17, 63, -3, -14), TWO, (17, 1.3),
        people=("Nia", "Tove"), bank=(APPLES, MORE),
    ),
}  # fmt: skip


def context_for(problem: Problem, **changes: object) -> Context:
    """What the problem is judged by."""
    wishes = {"limit": 100, "theme": THEME, "people": PEOPLE, **changes}
    wishes.setdefault("names_are_listed", "Ana María" not in problem.story.people)
    return Context(vocabulary=vocabulary.get(problem.vocabulary), **wishes)
