"""The bank of the home, opened for one piece of work; it is made when something is first kept."""

from storybank.bank import Bank
from storybank.errors import BankError
from storybank.web._house import House

WAIT = 10.0
"""Seconds that a page waits for another program that writes to the bank."""
NONE_YET = "There is no bank here yet, so there is nothing to do it to. Keep a set first."


def is_there(house: House) -> bool:
    """Whether something was kept already; whether that is a bank is another question."""
    return house.home.bank.exists()


def our_bank(house: House, *, create: bool = False) -> Bank:
    """The bank, opened; with `create` it is made where there is none, with its folder.

    Raises BankError where it cannot be used.
    """
    path = house.home.bank
    if not create and not is_there(house):
        raise BankError(NONE_YET)
    if create:
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise BankError(
                f'The folder of the bank, "{path.parent}", cannot be made ({error.strerror}). '
                "Nothing was kept. Free that name, or ask for the right to write there."
            ) from error
    return Bank(path, create=create, wait=WAIT)


def problems_said(count: int) -> str:
    """The number with its noun: "1 story", "1,200 stories"."""
    return f"{count:,} {'story' if count == 1 else 'stories'}"
