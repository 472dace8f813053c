"""Pictures of the whole way, to look at: `python tests/web/browser/pictures.py FOLDER`.

Each page in windows of several widths, light and dark, and at 200 %; and those of README, which
are small: a part of the page in few colours.
"""

import io
import re
import shutil
import sys
import tempfile
from pathlib import Path
from typing import Any

from PIL import Image
from playwright.sync_api import Browser, sync_playwright

sys.path.insert(0, str(Path(__file__).parents[2]))

from web.browser.running import Server
from web.browser.states import STATES, State, at, unroll

LOOKS: dict[str, dict[str, Any]] = {
    **{
        f"{width}-{scheme}": {
            "viewport": {"width": width, "height": 800},
            "color_scheme": scheme,
        }
        for width in (360, 1024, 1920)
        for scheme in ("light", "dark")
    },
    "200-percent": {"viewport": {"width": 640, "height": 400}, "device_scale_factor": 2},
}
SHOWN = (
    "form", "form, told what does not go together", "form, filled", "form, refused",
    "set, changed", "set with names, everything opened", "set, beside level 2",
    "set, reworded badly", "board, step 3", "explain, found", "error, no such page",
)  # fmt: skip
_SET = "theme=autumn-harvest&seed=7&count=12"
README: dict[str, tuple[State, int, int]] = {
    # The strategies: what stands above them changes with the season.
    "page-choose": (at("/#strategy"), 1024, 900),
    "page-set": (at(f"/set?{_SET}&change=swap-1"), 1024, 760),
    "page-board": (at(f"/board?{_SET}&story=1&step=2"), 1024, 700),
    "page-phone": (at(f"/set?{_SET}"), 360, 720),
}
"""Each with the width and the height of its window."""
_COLOURS = 48


def make(browser: Browser, address: str, folder: Path) -> None:
    """Writes a picture of each page in each look into a folder."""
    for look, options in LOOKS.items():
        for name in SHOWN:
            with browser.new_context(base_url=address, **options) as context:
                page = context.new_page()
                STATES[name].come_to(page)
                unroll(page, options["viewport"]["width"])
                plain = "-".join(re.findall("[a-z0-9]+", name))
                page.screenshot(path=folder / f"{plain}-{look}.png")


def for_readme(browser: Browser, address: str, folder: Path) -> list[Path]:
    """The pictures of README, written into a folder."""
    written = []
    for name, (state, width, height) in README.items():
        viewport: Any = {"width": width, "height": height}
        with browser.new_context(
            base_url=address, viewport=viewport, reduced_motion="reduce"
        ) as context:
            page = context.new_page()
            state.come_to(page)
            picture = Image.open(io.BytesIO(page.screenshot()))
        path = folder / f"{name}.png"
        picture.convert("RGB").quantize(_COLOURS, dither=Image.Dither.NONE).save(
            path, optimize=True
        )
        written.append(path)
    return written


def main(folder: Path) -> None:
    """Makes all of them."""
    program = shutil.which("chromium")
    if program is None:
        raise SystemExit("the program chromium is not installed")
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as home, sync_playwright() as playwright:
        server = Server(Path(home))
        server.start()
        browser = playwright.chromium.launch(executable_path=program, args=["--no-sandbox"])
        try:
            make(browser, server.address, folder)
            for_readme(browser, server.address, folder)
        finally:
            browser.close()
            server.stop()


if __name__ == "__main__":
    main(Path(sys.argv[1]))
