"""`storybank make`: a set of problems as files, or as JSON on standard output."""

import argparse
import sys
import time
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from storybank.cli import _settings
from storybank.errors import RequestError, unknown_value

if TYPE_CHECKING:
    from storybank.documents import Layout

DEFAULT_FORMATS = "docx,json"
DEFAULT_FOLDER = "storybank-set"
_REPORT_AFTER = 1.0


def add_to(commands: Any) -> None:
    """Adds the command to the parser."""
    make = commands.add_parser("make", help="make a set of problems")
    several: dict[str, Any] = {"action": "extend", "nargs": "+", "default": []}
    make.add_argument("--theme", metavar="NAME", help="theme packs (see: list themes)", **several)
    make.add_argument(
        "--without", metavar="SUBJECT", help="birthdays, buying, meals, pets, sweets", **several
    )
    make.add_argument(
        "--festivals",
        metavar="NAME",
        help="observances, or theme packs tied to one, that may be told of",
        **several,
    )
    make.add_argument("--strategy", metavar="ID", help="strategies to practise, or any", **several)
    make.add_argument(
        "--situation", metavar="ID", help="situations to tell (see: list situations)", **several
    )
    make.add_argument("--steps", type=int, metavar="1|2", default=1, help="steps of a problem (1)")
    make.add_argument(
        "--then", metavar="ID", help="with --steps 2: situations of the second step", **several
    )
    make.add_argument(
        "--addends", type=int, metavar="2|3|4", default=2, help="parts of a whole (2)"
    )
    make.add_argument("--within", type=int, metavar="N", help="largest number, 5 to 1000 (100)")
    make.add_argument("--count", type=int, metavar="N", default=12, help="problems, 1 to 2000 (12)")
    make.add_argument(
        "--vocabulary", metavar="NAME", help="level-1 to level-4, or your own: my-district.yaml"
    )
    make.add_argument(
        "--allow", metavar="RULE", help="rules as loose as at level 4 (see: list rules)", **several
    )
    make.add_argument("--forbid", metavar="RULE", help="rules as plain as at level 1", **several)
    make.add_argument(
        "--pair", metavar='"46 + 38"', help="tell stories for exactly these numbers", **several
    )
    make.add_argument(
        "--units",
        metavar="KIND",
        help="tell of amounts: lengths, money, minutes, points, or any",
        **several,
    )
    make.add_argument(
        "--crossing",
        metavar="always|never|any|PERCENT",
        default="any",
        help="whether the numbers regroup, or how many percent do",
    )
    make.add_argument(
        "--diagnose",
        action="store_true",
        help="only numbers for which known mistakes give different wrong answers",
    )
    make.add_argument(
        "--fact-families",
        action="store_true",
        help="four stories in one scene for the four facts of three numbers",
    )
    make.add_argument(
        "--keywords",
        metavar="mixed|none",
        default="mixed",
        help="none: no more, left, in all ... outside comparisons; mixed: no word gives it away",
    )
    make.add_argument(
        "--levels-side-by-side",
        action="store_true",
        help="the same stories at all four levels of English, a sheet for each",
    )
    make.add_argument(
        "--number-sets",
        type=int,
        metavar="N",
        help="several sets of numbers for each story, such as 10 20 100",
        **several,
    )
    make.add_argument(
        "--extra-number", action="store_true", help="a number in each story that is not needed"
    )
    make.add_argument(
        "--missing",
        action="store_true",
        help="a needed number is left out: what else do you need to know?",
    )
    make.add_argument(
        "--home-language",
        metavar="CODE",
        help="languages of the word bank: es, vi ... or none",
        **several,
    )
    make.add_argument("--translations", metavar="FILE", help="your own: leaf: {vi: ...}")
    make.add_argument(
        "--standards", metavar="FILE", help="your state's own codes in place of the Common Core's"
    )
    make.add_argument("--names", metavar="FILE", help="a class list: one name a line")
    make.add_argument("--names-from", metavar="NAME", help="a list of names (see: list names)")
    _settings.add_to(make)
    make.add_argument("--seed", type=int, metavar="N", help="the same seed gives the same set")
    make.add_argument(
        "--format", metavar="docx,json,csv,html", default=DEFAULT_FORMATS, help="(docx,json)"
    )
    make.add_argument(
        "--pages",
        metavar="KIND",
        help="kinds of page: student, key ... (see: list pages)",
        **several,
    )
    make.add_argument("--paper", metavar="letter|a4", help="(letter)")
    make.add_argument(
        "--large-print", action="store_true", default=None, help="18 points and more everywhere"
    )
    make.add_argument("--font", metavar="NAME", help="a font of your machine (Verdana)")
    make.add_argument(
        "--lines",
        metavar="started|blank|none",
        help="the number lines for children (as their level has them)",
    )
    make.add_argument(
        "--unknown",
        metavar="box|blank|question-mark",
        default="box",
        help="the number to find (box)",
    )
    make.add_argument(
        "--drawings",
        metavar="pictures|shapes",
        default="pictures",
        help="shapes: to be moved in Word (pictures)",
    )
    make.add_argument(
        "--template", metavar="FILE", help="a Word file of your school: its styles and header"
    )
    make.add_argument(
        "--out", metavar="FOLDER", default=DEFAULT_FOLDER, help="or - for JSON on standard output"
    )
    make.add_argument("--overwrite", action="store_true", help="replace files that are there")
    make.set_defaults(command=run)


def run(options: argparse.Namespace) -> int:
    """Makes the set; files are checked for before anything is made, and written at the end."""
    from storybank import documents, vocabulary
    from storybank.problem_set import make_set
    from storybank.request import Request

    formats = _formats(options.format, list(documents.formats()))
    to_stdout = options.out == "-"
    if to_stdout and formats != ["json"] and options.format != DEFAULT_FORMATS:
        raise RequestError(
            f'--out - writes JSON only, but the format asked for is "{options.format}". '
            "Use --format json with it, or name a folder."
        )
    wish = _settings.merged(options, vars(options))
    folder, layout = Path(options.out), _layout(wish)
    if not to_stdout:
        levels = vocabulary.ids() if options.levels_side_by_side else ()
        documents.check(folder, formats, levels=levels, layout=layout, overwrite=options.overwrite)
    made = make_set(
        Request(
            theme=options.theme,
            without=wish["without"],
            festivals=wish["festivals"],
            strategy=options.strategy,
            situation=options.situation,
            within=options.within if options.number_sets else wish["within"],
            count=options.count,
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
        ),
        _Progress(),
    )
    for note in made.notes:
        print(f"note: {note}", file=sys.stderr)
    if options.seed is None:
        seed = made.request["seed"]
        print(
            f"seed {seed}: the same wish with --seed {seed} gives this set again", file=sys.stderr
        )
    if to_stdout:
        sys.stdout.write(made.to_text())
        return 0
    written = documents.write(made, folder, formats, options.overwrite, layout)
    print(f"{len(made.problems)} problems:")
    for path in written:
        print(f"  {path}")
    return 0


def _layout(wish: Mapping[str, Any]) -> "Layout":
    """The pages and their looks. `--pages student,key` may be written too."""
    from storybank.documents import Layout, kinds

    pages = [one.strip() for text in wish["pages"] for one in text.split(",") if one.strip()]
    if wish["pages"] and not pages:
        raise RequestError(f"--pages is empty. Choose from: {', '.join(kinds.ids())}.")
    said = {key: wish[key] for key in ("paper", "large_print", "font") if wish[key] is not None}
    if pages:
        said["pages"] = tuple(dict.fromkeys(pages))
    if wish["template"] is not None:
        said["template"] = Path(wish["template"])
    looks = {key: wish[key] for key in ("lines", "unknown", "drawings")}
    return Layout(**looks, **said)


def _formats(text: str, valid: list[str]) -> list[str]:
    chosen = [name.strip() for name in text.split(",") if name.strip()]
    for name in chosen:
        if name not in valid:
            raise RequestError(unknown_value("format", name, valid))
    if not chosen:
        raise RequestError(f"--format is empty. Choose from: {', '.join(valid)}.")
    return list(dict.fromkeys(chosen))


class _Progress:
    """Says on standard error how far a make is, once it takes longer than a second."""

    def __init__(self) -> None:
        self.started = self.said = time.monotonic()

    def __call__(self, made: int, wanted: int) -> None:
        now = time.monotonic()
        if now - self.started > _REPORT_AFTER and (now - self.said > _REPORT_AFTER):
            self.said = now
            print(f"{made} of {wanted} problems made", file=sys.stderr, flush=True)
