"""Records what is handed out: new problems kept, and all known to be had, at once or not at all."""

from typing import TYPE_CHECKING

from storybank.bank import _actions, _classes, _finding, _keeping
from storybank.bank._filling import Filling
from storybank.version import VERSION

if TYPE_CHECKING:
    from storybank.bank._open import OpenBank


def record(bank: "OpenBank", filling: Filling, label: str | None, day: str, epoch: int) -> bool:
    """Whether the hand-out was recorded; not if the class has had one of them meanwhile."""
    wanted = {*filling.numbers.values(), *(row.meaning for row in filling.new)}
    with bank.writing() as connection:
        if bank.epoch != epoch:
            return False
        if label is not None and _classes.had(connection, label, wanted):
            return False
        gone = [one for one in filling.numbers if not _finding.is_there(connection, one)]
        if gone or any(_keeping.is_retired(connection, row.digest) for row in filling.new):
            return False
        told = f"{len(filling.told)} problems" + (f" for {label}, {day}" if label else "")
        action = _actions.begin(connection, "make")
        problems = list(filling.numbers.items())
        if filling.new:
            request = _keeping.stored(filling.settled.to_json())
            recipe = _keeping.recipe(connection, request, VERSION)
            _keeping.keep(connection, filling.new, bank.shelf_numbers, recipe=recipe, action=action)
            new = _keeping.numbers_of(connection, filling.new)
            meanings = (row.meaning for row in filling.new)
            problems += zip(new, meanings, strict=True)
        if label is not None:
            _classes.record(connection, label, day, problems, action)
        _actions.tell(connection, action, told)
    bank.last = action
    bank.handed = filling.in_order([number for number, _ in problems])
    return True
