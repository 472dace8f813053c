"""The browser of whoever sits here: a page shown in it, and a message where there is no window."""

import os
import tempfile
import webbrowser
from html import escape
from pathlib import Path


def show(address: str) -> bool:
    """Whether a browser was told to open an address.

    A browser of the terminal is left alone unless the account names it (BROWSER): it would take
    the terminal that Ctrl+C is to be typed in.
    """
    try:
        browser = webbrowser.get()
        if type(browser) is webbrowser.GenericBrowser and not os.environ.get("BROWSER"):
            return False
        return webbrowser.open(address)
    except (webbrowser.Error, OSError):
        return False


def show_message(message: str) -> Path:
    """The file that a message was written to for the browser to show it.

    It stands in the folder for temporary files, so that nothing is made in the teacher's own.
    """
    handle, name = tempfile.mkstemp(prefix="storybank-says-", suffix=".html")
    with os.fdopen(handle, "w", encoding="utf-8") as file:
        file.write(
            '<!DOCTYPE html>\n<html lang="en">\n<head><meta charset="utf-8">\n'
            "<title>Storybank could not be started</title></head>\n<body>\n"
            f"<h1>Storybank could not be started</h1>\n<p>{escape(message)}</p>\n</body>\n</html>\n"
        )
    path = Path(name)
    show(path.as_uri())
    return path
