"""The pages as LibreOffice lays them out: no worked problem is torn apart."""

import subprocess
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from random import Random

from documents import samples

from storybank import documents


def test_no_worked_problem_goes_over_a_page(
    tmp_path: Path, needs_program: Callable[[str], str]
) -> None:
    luck = Random(0)
    drawn = [one for one in samples.PROBLEMS if one.solution.jumps]
    watch = samples.PROBLEMS[0].watch_for
    problems = tuple(
        replace(one, watch_for=watch[: luck.randint(0, 3)] + watch[: luck.randint(1, 2)])
        for one in luck.choices(drawn, k=24)
    )
    key = documents.render(replace(samples.sample_set(), problems=problems), "docx")["key.docx"]
    (tmp_path / "key.docx").write_bytes(key)
    subprocess.run(
        [needs_program("soffice"), f"-env:UserInstallation={(tmp_path / 'profile').as_uri()}",
         "--headless", "--convert-to", "pdf", "--outdir", str(tmp_path),
         str(tmp_path / "key.docx")],
        check=True, capture_output=True, timeout=120,
    )  # fmt: skip
    pdf = tmp_path / "key.pdf"
    text = subprocess.run(
        [needs_program("pdftotext"), "-layout", str(pdf), "-"],
        check=True, capture_output=True, text=True,
    ).stdout  # fmt: skip
    pages = [page for page in text.split("\f")[:-1] if "Words in this set" not in page]
    worked = pages[next(at for at, page in enumerate(pages) if "Worked problems" in page) + 1 :]
    assert len(worked) > 4
    for page in worked:
        lines = [line.strip() for line in page.splitlines() if line.strip()]
        assert lines[0].endswith("Answer Key")
        assert lines[1].startswith("Problem "), lines[1]
