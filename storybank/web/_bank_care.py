"""Care of the bank: what is taken in, whether all is sound, backups."""

from datetime import datetime
from pathlib import Path
from typing import Any

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from storybank.bank import Wanted
from storybank.bank._checking import Report
from storybank.errors import BankError, StorybankError
from storybank.web._bank_open import NONE_YET, is_there, our_bank
from storybank.web._house import House
from storybank.web._working import worked_on

MOST_CHECKED = 5_000
"""Problems that a page judges at once; a larger bank is checked on the command line."""
_BACKUPS = 20
_BESIDE = ("-wal", "-shm", "-journal")
"""What the database puts beside a backup that is being read."""


def routes(house: House) -> list[Route]:
    """The addresses of the care."""

    async def show(request: Request) -> Response:
        """What can be taken in, checked and backed up."""
        return await files_page(house, request)

    async def check(request: Request) -> Response:
        """Checks the bank, every problem judged afresh, and says what is wrong with it."""
        try:
            report = await worked_on(lambda: _checked(house), long=True)
        except StorybankError as error:
            return await files_page(house, request, fault=error)
        return await files_page(house, request, report=report)

    async def back_up(request: Request) -> Response:
        """Writes a backup beside the bank."""
        try:
            await worked_on(lambda: _backed_up(house), long=True)
        except StorybankError as error:
            return await files_page(house, request, fault=error)
        return RedirectResponse("/bank/files?done=backup#backups", 303)

    return [
        Route("/bank/files", show),
        Route("/bank/check", check, methods=["POST"]),
        Route("/bank/back-up", back_up, methods=["POST"]),
    ]


async def files_page(
    house: House,
    request: Request,
    *,
    fault: StorybankError | None = None,
    taken: object = None,
    report: Report | None = None,
) -> Response:
    """The page of files and care, with what was done."""
    there = is_there(house)
    values: dict[str, Any] = {
        "fault": fault,
        "taken": taken,
        "report": report,
        "there": there,
        "bank": house.home.bank,
        "backups": _backups(house.home.bank),
        "backed_up": request.query_params.get("done") == "backup",
        "most_checked": f"{MOST_CHECKED:,}",
    }
    return house.page(
        request, "bank_files.html", 400 if fault else 200, title="Files of the bank", **values
    )


def _checked(house: House) -> Report:
    with our_bank(house) as bank:
        count = bank.count(Wanted(retired=True))
        if count > MOST_CHECKED:
            raise BankError(
                f"The bank holds {count:,} stories, and this page judges at most "
                f"{MOST_CHECKED:,} at once. On the command line any bank can be checked: storybank "
                f"bank check {house.home.bank}"
            )
        return bank.check()


def _backed_up(house: House) -> Path:
    if not is_there(house):
        raise BankError(NONE_YET)
    with our_bank(house) as bank:
        return bank.back_up()


def _backups(bank: Path) -> list[tuple[str, str]]:
    """The backups beside the bank, the latest first: the name and when each was written."""
    found = []
    try:
        for path in bank.parent.iterdir():
            ours = path.name.startswith(f"{bank.name}.backup-")
            if ours and path.is_file() and not path.name.endswith(_BESIDE):
                found.append((path.stat().st_mtime, path.name))
    except OSError:
        return []
    return [
        (name, datetime.fromtimestamp(time).strftime("%Y-%m-%d %H:%M"))
        for time, name in sorted(found, reverse=True)[:_BACKUPS]
    ]
