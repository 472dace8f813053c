"""Files of the bank: what a search found taken out, and what others kept taken in."""

import os
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Any

from starlette.background import BackgroundTask
from starlette.datastructures import FormData, UploadFile
from starlette.requests import Request
from starlette.responses import FileResponse, Response
from starlette.routing import Route

from storybank import documents
from storybank.bank import as_set, look_at, take_out
from storybank.documents import Layout
from storybank.errors import BankError, RequestError, StorybankError, unknown_value
from storybank.finished import read_set
from storybank.web._bank_care import files_page
from storybank.web._bank_open import our_bank, problems_said
from storybank.web._bank_pages import bank_page
from storybank.web._bank_search import Search
from storybank.web._house import House
from storybank.web._limits import form_of
from storybank.web._taking import TYPES, file_answer, zipped
from storybank.web._working import worked_on

MOST_TEXT = 32 << 20
"""Bytes of a file of problems that is taken in."""
MOST_BANK = 64 << 20
"""Bytes of another bank that is taken in; a larger one is for the command line."""
LIMITS = {"/bank/take-in": MOST_BANK + (1 << 20)}
_IS_BANK = b"SQLite format 3\x00"
"""How every file of SQLite begins (sqlite.org, "Database File Format", section 1.3)."""
_NAMES = {".csv": "uploaded.csv", ".jsonl": "uploaded.jsonl", ".json": "uploaded.json"}
_BANK = "uploaded.bank"
_JSON_LINES = "application/jsonl; charset=utf-8"
"""No media type is registered; this one is in common use (jsonlines.org, from memory)."""
_SHOWN = 100


@dataclass(frozen=True, slots=True)
class TakenIn:
    """What was taken in: a sentence, the bad lines that were passed over, what has to be said."""

    text: str
    bad: tuple[tuple[int, str], ...] = ()
    more: int = 0
    notes: tuple[str, ...] = ()


def routes(house: House) -> list[Route]:
    """The addresses of files."""

    async def out(request: Request) -> Response:
        """The file of what the search of the address finds."""
        form = await form_of(request)
        what = form.get("what")
        try:
            search = Search.of(request.query_params.multi_items())
            if what == "docx":
                return file_answer(*await worked_on(lambda: _word(house, search), long=True))
            if what not in ("jsonl", "csv"):
                raise RequestError(unknown_value("file", str(what)[:40], ("jsonl", "csv", "docx")))
            path = await worked_on(lambda: _written(house, search, what), long=True)
        except StorybankError as error:
            return await bank_page(house, request, error)
        return FileResponse(
            path,
            media_type=TYPES[".csv"] if what == "csv" else _JSON_LINES,
            filename=f"storybank-bank.{what}",
            background=BackgroundTask(path.unlink, missing_ok=True),
        )

    async def take_in(request: Request) -> Response:
        """Takes in the file that was sent, and says what is new."""
        form = await form_of(request)
        try:
            done = await worked_on(lambda: _taken_in(house, form), long=True)
        except StorybankError as error:
            return await files_page(house, request, fault=error)
        finally:
            await form.close()
        return await files_page(house, request, taken=done)

    return [
        Route("/bank/take-out", out, methods=["POST"]),
        Route("/bank/take-in", take_in, methods=["POST"]),
    ]


def _written(house: House, search: Search, kind: str) -> Path:
    """A temporary file of what was found; whoever sends it takes it away."""
    with tempfile.NamedTemporaryFile("w", encoding="utf-8", newline="", delete=False) as file:
        path = Path(file.name)
        try:
            with our_bank(house) as bank:
                count = take_out(bank, search.wanted(), file, kind)
            if not count:
                raise BankError("Nothing was found, so there is no file. Ask for less at once.")
        except OSError as error:
            path.unlink(missing_ok=True)
            raise BankError(
                f"The file could not be written ({error.strerror}). The bank is as it was. Free "
                "some room on the disk, or ask for more at once."
            ) from error
        except BaseException:
            path.unlink(missing_ok=True)
            raise
    return path


def _word(house: House, search: Search) -> tuple[str, bytes]:
    with our_bank(house) as bank:
        found = as_set(bank, search.wanted())
    layout = Layout(**house.usual_layout)
    documents.check_template(["docx"], layout)
    return "storybank-bank.zip", zipped(documents.render(found, "docx", layout))


def _taken_in(house: House, form: FormData) -> TakenIn:
    upload = form.get("file")
    if not isinstance(upload, UploadFile) or not upload.size:
        raise BankError("No file came, or an empty one. Choose a file, then press again.")
    begin = upload.file.read(len(_IS_BANK))
    upload.file.seek(0)
    if begin == _IS_BANK:
        name, most = _BANK, MOST_BANK
    else:
        # What the file is called says what is in it; nothing on the disk is called so.
        suffix = Path((upload.filename or "").lower()).suffix
        name, most = _NAMES.get(suffix, ""), MOST_TEXT
    if not name:
        raise BankError(
            "This is neither a bank nor a file whose name ends in .jsonl, .csv or .json, so "
            "nothing was taken in. Choose a file that Storybank has written."
        )
    if upload.size > most:
        raise BankError(
            f"The file has {upload.size:,} bytes, and this page takes in at most {most:,}. On the "
            f"command line any size can be taken in: {_command(name)}."
        )
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, name)
        try:
            with path.open("wb") as file:
                _copy(upload.file, file)
            return _from(house, path, skip_bad=form.get("skip-bad") == "yes")
        except OSError as error:
            raise BankError(
                f"The file could not be put aside ({error.strerror}), so nothing was taken in. "
                "Free some room on the disk."
            ) from error
        except StorybankError as error:
            # The folder is gone before anybody could look into it.
            raise BankError(str(error).replace(f"{folder}{os.sep}", "")) from error


def _copy(source: Any, target: IO[bytes]) -> None:
    while part := source.read(1 << 20):
        target.write(part)


def _command(name: str) -> str:
    if name == _BANK:
        return "storybank bank merge OUR.bank OTHER.bank"
    if name.endswith(".json"):
        return "storybank bank add OUR.bank set.json"
    return "storybank bank import OUR.bank FILE"


def _from(house: House, path: Path, *, skip_bad: bool) -> TakenIn:
    if path.name == _BANK:
        look_at(path)  # Before a bank is made here for nothing.
        with our_bank(house, create=True) as bank:
            new, count = bank.merge(path)
        return TakenIn(f"{new:,} of {problems_said(count)} of the other bank are new here.")
    if path.suffix == ".json":
        found = read_set(path)
        with our_bank(house, create=True) as bank:
            added = bank.add(found)
        return TakenIn(_counted(added.new, added.there), notes=added.notes)
    with our_bank(house, create=True) as bank:
        done = bank.take_in(path, skip_bad=skip_bad)
    passed = f" {done.passed_over:,} bad ones were passed over." if done.passed_over else ""
    return TakenIn(
        _counted(done.new, done.there) + passed,
        tuple(done.bad[:_SHOWN]),
        done.passed_over - len(done.bad[:_SHOWN]),
        tuple(done.notes[:_SHOWN]),
    )


def _counted(new: int, there: int) -> str:
    return f"{problems_said(new)} kept; {there:,} were there already."
