"""What a set is to be made of, as options of every command that makes problems."""

import argparse
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from storybank.request import Request


def add_to(command: Any) -> None:
    """Adds the options to a command."""
    more = several()
    command.add_argument("--theme", metavar="NAME", help="theme packs (see: list themes)", **more)
    command.add_argument(
        "--without", metavar="SUBJECT", help="birthdays, buying, meals, pets, sweets", **more
    )
    command.add_argument(
        "--festivals",
        metavar="NAME",
        help="observances, or theme packs tied to one, that may be told of",
        **more,
    )
    command.add_argument("--strategy", metavar="ID", help="strategies to practise, or any", **more)
    command.add_argument(
        "--situation", metavar="ID", help="situations to tell (see: list situations)", **more
    )
    command.add_argument(
        "--steps", type=int, metavar="1|2", default=1, help="steps of a problem (1)"
    )
    command.add_argument(
        "--then", metavar="ID", help="with --steps 2: situations of the second step", **more
    )
    command.add_argument(
        "--addends", type=int, metavar="2|3|4", default=2, help="parts of a whole (2)"
    )
    command.add_argument("--within", type=int, metavar="N", help="largest number, 5 to 1000 (100)")
    command.add_argument(
        "--vocabulary", metavar="NAME", help="level-1 to level-4, or your own: my-district.yaml"
    )
    command.add_argument(
        "--allow", metavar="RULE", help="rules as loose as at level 4 (see: list rules)", **more
    )
    command.add_argument("--forbid", metavar="RULE", help="rules as plain as at level 1", **more)
    command.add_argument(
        "--pair", metavar='"46 + 38"', help="tell stories for exactly these numbers", **more
    )
    command.add_argument(
        "--units",
        metavar="KIND",
        help="tell of amounts: lengths, money, minutes, points, or any",
        **more,
    )
    command.add_argument(
        "--crossing",
        metavar="always|never|any|PERCENT",
        default="any",
        help="whether the numbers regroup, or how many percent do",
    )
    command.add_argument(
        "--diagnose",
        action="store_true",
        help="only numbers for which known mistakes give different wrong answers",
    )
    command.add_argument(
        "--fact-families",
        action="store_true",
        help="four stories in one scene for the four facts of three numbers",
    )
    command.add_argument(
        "--keywords",
        metavar="mixed|none",
        default="mixed",
        help="none: no more, left, in all ... outside comparisons; mixed: no word gives it away",
    )
    command.add_argument(
        "--levels-side-by-side",
        action="store_true",
        help="the same stories at all four levels of English, a sheet for each",
    )
    command.add_argument(
        "--number-sets",
        type=int,
        metavar="N",
        help="several sets of numbers for each story, such as 10 20 100",
        **more,
    )
    command.add_argument(
        "--extra-number", action="store_true", help="a number in each story that is not needed"
    )
    command.add_argument(
        "--missing",
        action="store_true",
        help="a needed number is left out: what else do you need to know?",
    )
    command.add_argument(
        "--home-language",
        metavar="CODE",
        help="languages of the word bank: es, vi ... or none",
        **more,
    )
    command.add_argument("--translations", metavar="FILE", help="your own: leaf: {vi: ...}")
    command.add_argument(
        "--standards", metavar="FILE", help="your state's own codes in place of the Common Core's"
    )
    command.add_argument("--names", metavar="FILE", help="a class list: one name a line")
    command.add_argument("--names-from", metavar="NAME", help="a list of names (see: list names)")


def several() -> dict[str, Any]:
    """What is said of an option that takes several values and may be repeated."""
    return {"action": "extend", "nargs": "+", "default": []}


def request(options: argparse.Namespace, wish: Mapping[str, Any]) -> "Request":
    """The request that the options say, with the teacher's settings where they say nothing."""
    from storybank import vocabulary
    from storybank.request import Request

    return Request(
        theme=options.theme,
        without=wish["without"],
        festivals=wish["festivals"],
        strategy=options.strategy,
        situation=options.situation,
        within=options.within if options.number_sets else wish["within"],
        count=getattr(options, "count", 1),
        vocabulary=wish["vocabulary"] or vocabulary.DEFAULT,
        allow=options.allow,
        forbid=options.forbid,
        pair=options.pair,
        crossing=options.crossing,
        diagnose=options.diagnose,
        keywords=options.keywords,
        levels_side_by_side=options.levels_side_by_side,
        number_sets=options.number_sets,
        extra_number=options.extra_number,
        missing=options.missing,
        home_language=options.home_language,
        translations=options.translations,
        standards=wish["standards"],
        names=wish["names"],
        names_from=wish["names_from"],
        seed=options.seed,
        fact_families=options.fact_families,
        steps=options.steps,
        then=options.then,
        addends=options.addends,
        units=options.units,
    )
