"""The open page: the wishes of its address, and what it alone holds: names and own words."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

from starlette.datastructures import UploadFile
from starlette.requests import Request

from storybank import finished, people
from storybank.bank import Bank
from storybank.errors import RequestError, StorybankError
from storybank.model import ProblemSet
from storybank.people import Roster
from storybank.people.tables import decode
from storybank.revision import Revised, Words, changes_of, revise
from storybank.version import VERSION
from storybank.web._house import House
from storybank.web._limits import form_of
from storybank.web._wishes import CHANGE, CLASS, KEPT, FieldError, Wishes

MOST_NAMES = 60_000
"""Letters of a class list."""
MOST_WORDS = 60
_CLASS_LIST = "class-list.txt"
"""What every list of names is called in a request: all names of the set are children's then."""


@dataclass(frozen=True)
class OpenPage:
    """What a page was asked for: `wishes` from the address, `names` and `words` from the page."""

    wishes: Wishes
    names: str = ""
    words: tuple[Words, ...] = ()
    checked: tuple[str, ...] = ()
    """Which boxes of stories were checked."""

    @property
    def is_open(self) -> bool:
        """Whether the page holds what no address does."""
        return bool(self.names.strip() or self.words)

    @property
    def hidden(self) -> list[tuple[str, str]]:
        """What each form of the page has to hand on."""
        found = [("names", self.names)] if self.names.strip() else []
        for at, one in enumerate(self.words, start=1):
            found += [(f"words-{at}", one.text), (f"answer-{at}", one.answer_sentence)]
        return found

    def roster(self) -> Roster | None:
        """The class list, or None. Raises FieldError where it holds no name."""
        if not self.names.strip():
            return None
        try:
            return people.read_class_list(_CLASS_LIST, self.names.encode("utf-8"))
        except StorybankError as error:
            raise FieldError("names", str(error)) from error


async def opened(request: Request, without: Sequence[str] = ()) -> OpenPage:
    """What a page was asked for; keys of the address `without` are no wishes.

    Raises FieldError for what cannot be read.
    """
    pairs = request.query_params.multi_items()
    wishes = Wishes.of(one for one in pairs if one[0] not in without)
    if request.method != "POST":
        return OpenPage(wishes)
    form = await form_of(request, files=2)
    names = [one for one in form.getlist("names") if isinstance(one, str)]
    for upload in form.getlist("names-file"):
        if isinstance(upload, UploadFile) and upload.size:
            names.append(_names_in(await upload.read()))
    text = "\n".join(one.strip("\n") for one in names if one.strip())
    if len(text) > MOST_NAMES:
        raise FieldError(
            "names", f"The list of names has {len(text):,} letters. Give one class at a time."
        )
    if text and not wishes.has(KEPT):
        wishes = wishes.with_(**{CLASS: "yes"})
    words = []
    for at in range(1, MOST_WORDS + 1):
        told = form.get(f"words-{at}")
        if not isinstance(told, str):
            break
        answer = form.get(f"answer-{at}")
        words.append(Words(told, answer if isinstance(answer, str) else ""))
    checked = tuple(one for one in form.getlist("keep") if isinstance(one, str))
    return OpenPage(wishes, text, tuple(words), checked)


def _names_in(data: bytes) -> str:
    """The text of a class list in a file, in whatever encoding spreadsheets save it."""
    try:
        return decode(data, "the file of names")[0]
    except StorybankError as error:
        raise FieldError("names", str(error)) from error


def made(page: OpenPage, house: House) -> Revised:
    """The set of a page. Raises FieldError, or another StorybankError that says what to change."""
    changes = changes_of(page.wishes.all(CHANGE))
    if page.wishes.has(KEPT):
        return revise(_kept(page, house), changes, page.words)
    request = page.wishes.request(house.usual_request, house.own_themes(), page.roster())
    if request.seed is None:
        raise FieldError("seed", "This address has no seed.")
    revised = revise(request, changes, page.words)
    if page.names.strip():
        ours = page.wishes.request(house.usual_request, house.own_themes())
        return _with_codes_of(revised, revise(ours, changes, page.words))
    return revised


def _with_codes_of(revised: Revised, other: Revised) -> Revised:
    """A set with the codes that its stories have under our own names, as its address gives them."""
    stories = tuple(
        replace(
            one,
            problem=one.problem.with_code(like.problem.code),
            made=one.made.with_code(like.problem.code),
        )
        for one, like in zip(revised.stories, other.stories, strict=True)
    )
    problems = tuple(one.problem for one in stories)
    return replace(
        revised, stories=stories, problem_set=replace(revised.problem_set, problems=problems)
    )


def _kept(page: OpenPage, house: House) -> ProblemSet:
    """The set of problems kept in the bank, with the names of the class where they fit."""
    numbers = page.wishes.all(KEPT)
    for one in numbers:
        if not (one.isascii() and one.isdigit() and len(one) < 12):
            raise FieldError(KEPT, "A kept problem is named by its number in the bank.")
    if not house.home.bank.is_file():
        raise RequestError("There is no bank here yet, so this set is not in it.")
    with Bank(house.home.bank, create=False) as bank:
        found = bank.named([f"#{one}" for one in dict.fromkeys(numbers)])
        told = [one.problem() for one in found]
        asked = dict(bank.recipe_of(found[0])[0])
    house.open_own(one.theme for one in told)
    roster = page.roster() or _usual_roster(house)
    if roster is not None:
        dealt: Counter[str] = Counter()
        told = [finished.told_of_class(one, roster, f"{at}", dealt) for at, one in enumerate(told)]
        asked["names"] = _CLASS_LIST
    most = max(max(one.numbers.values()) for one in told)
    asked["within"] = max(int(asked.get("within") or 0), most)
    return ProblemSet(asked, tuple(told), VERSION)


def _usual_roster(house: House) -> Roster | None:
    """The class list that her settings name, or None."""
    named = house.usual_request.get("names")
    return None if named is None else people.read_class_list(named)
