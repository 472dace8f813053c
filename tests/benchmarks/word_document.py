"""The Word files of a set against a bare python-docx script with one shared picture."""

import subprocess
import sys
from collections.abc import Iterator
from dataclasses import replace
from statistics import median

from bare_document import write
from rounds import Row, alternate, middle_ratio, seconds

from storybank import Request, make_set
from storybank.documents import render

TITLE = "student pages and key, every line drawn, against bare python-docx with one picture"
ROUNDS, SIZES = 5, (24, 240, 1200)
PEER_AT_MOST = 240


def rows() -> Iterator[Row]:
    """The ratio at 24 problems, and ours for each problem at larger sizes."""
    whole = make_set(Request(strategy=["any"], count=max(SIZES), seed=1))
    few = replace(whole, problems=whole.problems[: SIZES[0]])
    ours, peer = alternate(lambda _: render(few, "docx"), lambda _: write(SIZES[0]), ROUNDS)
    figures = f"{1000 * median(ours):,.0f} ms, peer {1000 * median(peer):,.0f} ms"
    yield Row(f"{SIZES[0]} problems, warm", figures, middle_ratio(ours, peer), at_most=3)
    for size in SIZES[1:]:
        # The next problems of the set, so that no drawing was met before.
        first = SIZES[0] if size < len(whole.problems) - SIZES[0] else 0
        many = replace(whole, problems=whole.problems[first : first + size])
        base, more = alternate(
            lambda _: render(few, "docx"), lambda _, many=many: render(many, "docx"), 3
        )
        each = [taken / size for taken in more]
        of_few = [taken / SIZES[0] for taken in base]
        figures = f"{1000 * median(each):.2f} ms a problem, {1000 * median(of_few):.2f} at 24"
        target = 1.5 if size == max(SIZES) else None
        yield Row(f"{size} problems, for each", figures, middle_ratio(each, of_few), at_most=target)
        yield Row(f"{size} problems, files", _sizes(render(many, "docx")))
        yield Row(f"{size} problems, a process of its own", f"{_peak_memory(size)} MiB at most")
        if size <= PEER_AT_MOST:
            theirs = seconds(lambda _, size=size: write(size), 0) / size
            yield Row(f"{size} problems, the peer", f"{1000 * theirs:.2f} ms a problem")


def _sizes(files: dict[str, bytes]) -> str:
    return ", ".join(f"{name} {len(data) / 1024:,.0f} KiB" for name, data in files.items())


def _peak_memory(size: int) -> int:
    """The most memory in MiB that a process takes to make and write a set of that size."""
    script = (
        "import resource\n"
        "from storybank import Request, make_set\n"
        "from storybank.documents import render\n"
        f"render(make_set(Request(strategy=['any'], count={size}, seed=1)), 'docx')\n"
        "print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )
    return int(done.stdout)
