"""All pages in all their states: how each is come to, for whoever looks at every one of them.

A new page or state is one line in `STATES`.
"""

from collections.abc import Callable
from typing import NamedTuple

from playwright.sync_api import Page

Step = Callable[[Page], object]
SET = "theme=winter-days&seed=7&count=3&vocabulary=level-3"
SEVERAL = "theme=winter-days&seed=7&count=2"
NAMES = "Zofi\nQuim\nYnes"


class State(NamedTuple):
    """The address that a state is come to from, and what is done there."""

    address: str
    steps: tuple[Step, ...] = ()

    def come_to(self, page: Page) -> None:
        """Brings a page into the state."""
        page.goto(self.address)
        for step in self.steps:
            step(page)


def at(address: str, *steps: Step) -> State:
    """The state that an address leads to, once the steps are done."""
    return State(address, steps)


def unroll(page: Page, width: int) -> None:
    """Makes the window as high as the page: a bar at its edge then lies on nothing."""
    page.set_viewport_size({"width": width, "height": 768})
    height = page.evaluate("() => document.documentElement.scrollHeight")
    page.set_viewport_size({"width": width, "height": height})


def open_all(page: Page) -> None:
    """Opens all that can be opened."""
    page.evaluate("() => document.querySelectorAll('details').forEach((one) => one.open = true)")


def with_names(page: Page) -> None:
    """Sends the form with the names of a class."""
    page.get_by_label("Or your class list").fill(NAMES)
    with page.expect_navigation():
        page.get_by_role("button", name="Show the stories").click()


def spoil(page: Page) -> None:
    """Takes the numbers out of the first story."""
    page.locator("#story-1").get_by_text("Change the words").click()
    field = page.get_by_label("The story, its question last").first
    field.fill("".join(one for one in field.input_value() if not one.isdigit()))
    with page.expect_navigation():
        page.get_by_role("button", name="Check and use these words").first.click()


def press(name: str) -> Step:
    """Presses the first button or link of this name."""

    def pressed(page: Page) -> None:
        doer = page.get_by_role("button", name=name).or_(page.get_by_role("link", name=name))
        with page.expect_navigation():
            doer.first.click()

    return pressed


def open_some(page: Page) -> None:
    """Opens the first things of a page that is very long when all is opened."""
    page.evaluate(
        "() => [...document.querySelectorAll('details')].slice(0, 6)"
        ".forEach((one) => one.open = true)"
    )


def fill(label: str, text: str) -> Step:
    """Writes a text into the field of this name."""
    return lambda page: page.get_by_label(label, exact=True).first.fill(text)


def go(address: str) -> Step:
    """Goes on to an address."""
    return lambda page: page.goto(address)


keep = press("Keep in the bank")


def hand_out(page: Page) -> None:
    """Hands the set of the form out to a class."""
    page.locator("#for-a-class").get_by_label("Class").fill("2B")
    with page.expect_navigation():
        page.get_by_role("button", name="Hand out and record").click()


def choose_what_cannot_be(page: Page) -> None:
    """Chooses two things that the form then says do not go together."""
    page.locator("#more > summary").click()
    page.get_by_label("Two steps").check()
    page.get_by_label("Addends").select_option("3")
    page.locator(".send .fault").wait_for(state="visible")


def hide_observances(page: Page) -> None:
    """Hides the themes of observances for good."""
    with page.expect_navigation():
        page.get_by_role("button", name="Hide themes").click()


STATES: dict[str, State] = {
    # choosing
    "form": at("/"),
    "form, everything opened": at("/", open_all),
    "form, told what does not go together": at("/", choose_what_cannot_be),
    "form, observances hidden": at("/", hide_observances),
    "form, filled": at(f"/?{SET}&strategy=any&units=money&allow=past&without=pets", open_all),
    "form, refused": at("/set?steps=2&addends=3&seed=1"),
    "form, refused for one field": at("/set?count=many"),
    # the set
    "set": at(f"/set?{SET}"),
    "set, everything opened": at(f"/set?{SET}", open_all),
    "set, changed": at(f"/set?{SET}&change=swap-2#story-2"),
    "set, a change that was not made": at(f"/set?{SET}&change=swap-9"),
    "set, beside level 2": at(f"/set?{SET}&beside=level-2"),
    "set of one": at("/set?theme=winter-days&seed=7&count=1"),
    "set at all levels": at(f"/set?{SEVERAL}&levels-side-by-side=yes", open_all),
    "set of two steps": at(f"/set?{SEVERAL}&steps=2", open_all),
    "set of several sets of numbers": at(f"/set?{SEVERAL}&number-sets=10&number-sets=20", open_all),
    "set with names": at(f"/?{SET}", with_names),
    "set with names, everything opened": at(f"/?{SET}", with_names, open_all),
    "set with names, beside level 2": at(f"/?{SET}", with_names, press("level 2")),
    "set, reworded badly": at(f"/set?{SET}", spoil),
    "set, reworded badly, everything opened": at(f"/set?{SET}", spoil, open_all),
    # the board
    **{f"board, step {at_}": at(f"/board?{SET}&story=1&step={at_}") for at_ in range(5)},
    "board, with names": at(f"/?{SET}", with_names, press("Show on the board"), press("Next step")),
    # a sum explained
    "explain": at("/explain"),
    "explain, found": at("/explain?numbers=46+%2B+38", open_all),
    "explain, not read": at("/explain?numbers=many"),
    # errors
    "error, no such page": at("/nothing"),
    "error, not to be come to so": at("/take"),
    "error, an address that no set has": at("/set?nothing=1"),
    # the bank
    "bank, nothing kept": at("/bank"),
    "bank, files": at("/bank/files"),
    "bank, classes": at("/bank/classes"),
    "bank, kept": at(f"/set?{SET}", keep),
    "bank, found": at(f"/set?{SET}", keep, go("/bank"), open_all),
    "bank, nothing found": at(f"/set?{SET}", keep, go("/bank?words=zebra")),
    "bank, not read": at(f"/set?{SET}", keep, go("/bank?within=many")),
    "bank, handed out": at(f"/?{SET}", hand_out),
    "bank, handed out with names": at(f"/?{SET}", with_names, press("Keep in the bank")),
    "bank, what a class had": at(f"/?{SET}", hand_out, go("/bank/classes")),
    "bank, checked": at(f"/set?{SET}", keep, go("/bank/files"), press("Check the bank")),
    # the week
    "week": at("/week", open_all),
    "week, refused": at("/week", fill("Largest number", "many"), press("Make the week")),
    "week, made": at("/week", press("Make the week"), open_some),
    # themes
    "themes": at("/themes"),
    "themes, for a day": at("/themes?day=2027-01-18"),
    "theme of her own": at("/themes/own"),
    "theme of her own, faults": at("/themes/own", fill("The text", "a: b"), press("Check")),
    "theme of her own, checked": at("/themes/own", press("Check")),
    # counting, coverage, answers
    "count": at("/count"),
    "count, shown": at("/count?by=10&from=37&count=3&seed=1"),
    "count, refused": at("/count?count=99"),
    "coverage": at(f"/set/coverage?{SET}"),
    "answers": at("/diagnose"),
    "answers to a set": at(f"/diagnose?{SET}"),
    "answers to a set, refused": at(f"/diagnose?{SET}", press("See what they agree with")),
    # what there is
    "words": at("/words"),
    # other pages; a line for each state
}
