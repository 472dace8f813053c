"""The pictures of pages in README: `python tests/documents/readme_pictures.py` makes them again.

Drawn by LibreOffice and pdftoppm from a set of the same command, so fonts and versions may move a
line a little.
"""

import subprocess
import sys
from pathlib import Path

from storybank import Request, documents, make_set
from storybank.documents import Layout

FOLDER = Path(__file__).parents[2] / "output_examples"
SHOWN = {"student": 1, "key": 2, "launch": 1, "exit": 1, "facts": 1, "model": 1}
"""The kinds of page in README, and which page of each."""
DOTS_AN_INCH = 54


def make(folder: Path, soffice: str = "soffice", pdftoppm: str = "pdftoppm") -> list[Path]:
    """The pictures made in `folder`, `page-student.png` and so on."""
    made = make_set(Request(theme=["autumn-harvest"], seed=1))
    names = []
    for name, data in documents.render(made, "docx", Layout(pages=tuple(SHOWN))).items():
        (folder / name).write_bytes(data)
        names.append(str(folder / name))
    subprocess.run(
        [soffice, f"-env:UserInstallation={(folder / 'profile').as_uri()}", "--headless",
         "--convert-to", "pdf", "--outdir", str(folder), *names],
        check=True, capture_output=True, timeout=300,
    )  # fmt: skip
    pictures = []
    for kind, page in SHOWN.items():
        picture = folder / f"page-{kind}"
        subprocess.run(
            [pdftoppm, "-r", str(DOTS_AN_INCH), "-gray", "-png", "-singlefile",
             "-f", str(page), "-l", str(page), str(folder / f"{kind}.pdf"), str(picture)],
            check=True, capture_output=True,
        )  # fmt: skip
        pictures.append(picture.with_suffix(".png"))
    return pictures


if __name__ == "__main__":
    import shutil
    import tempfile

    with tempfile.TemporaryDirectory() as folder:
        for picture in make(Path(folder)):
            shutil.copy(picture, FOLDER / picture.name)
    sys.exit(0)
