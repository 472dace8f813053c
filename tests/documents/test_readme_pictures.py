"""README shows pages as they are made now: its pictures are made again and compared."""

from collections.abc import Callable
from pathlib import Path

from documents import readme_pictures
from PIL import Image, ImageChops, ImageStat

README = Path(__file__).parents[2] / "README.md"
NEAR = 12.0
"""The mean difference of the dots, of 255, that other fonts and versions may make."""


def difference(first: Path, second: Path) -> float:
    one, other = (Image.open(path).convert("L").resize((153, 198)) for path in (first, second))
    return float(ImageStat.Stat(ImageChops.difference(one, other)).mean[0])


def test_the_pictures_show_the_pages_of_today(
    tmp_path: Path, needs_program: Callable[[str], str]
) -> None:
    made = readme_pictures.make(tmp_path, needs_program("soffice"), needs_program("pdftoppm"))
    for picture in made:
        shown = readme_pictures.FOLDER / picture.name
        assert f"output_examples/{picture.name}" in README.read_text(encoding="utf-8")
        assert difference(picture, shown) < NEAR, picture.name
    # The measure tells pages apart: each is nearest to its own picture.
    for picture in made:
        others = [difference(picture, one) for one in made if one != picture]
        assert min(others) > 2 * difference(picture, readme_pictures.FOLDER / picture.name)
