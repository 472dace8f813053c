"""Checked problems a second against a template filled with random numbers and names."""

import random
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from statistics import median

from jinja2 import Template
from rounds import Row, alternate, middle_ratio

TITLE = "make_set, every law checked, one core, against Jinja2 + Faker, nothing checked"
ROUNDS = 7
SETTLED_AFTER = 12_000
CASES = (("default strategy", (), 200), ("strategy any", ("any",), 200),
         ("strategy any", ("any",), 600))  # fmt: skip

_TEMPLATE = """\
{{ name }} and {{ other }} are at the apple harvest. {{ name }} picks {{ a }} red apples in the \
morning and puts them in a big crate. Then {{ other }} brings {{ b }} more red apples. How many \
red apples are there in the crate now?
Facts: {{ a }} + {{ b }} = {{ c }}, {{ b }} + {{ a }} = {{ c }}, {{ c }} - {{ a }} = {{ b }}, \
{{ c }} - {{ b }} = {{ a }}
1. I start at {{ a }}.
2. I jump {{ near }} and land on {{ a + near }}.
3. I jumped {{ near - b }} too far, so I go back {{ near - b }}.
4. I land on {{ c }}. The answer is {{ c }}.
"""


def rows() -> Iterator[Row]:
    """A row for each case: in a fresh process, and once the caches are filled."""
    for what, strategy, count in CASES:
        yield _fresh(f"{what}, {count}: first set of a process", strategy, count)
    ours = _ours(("any",), 600)
    for number in range(SETTLED_AFTER // 600):
        ours(1000 + number)
    for what, strategy, count in CASES:
        title = f"{what}, {count}: after {SETTLED_AFTER:,} problems"
        taken = alternate(_ours(strategy, count), peer_job(count), ROUNDS)
        yield _row(title, count, taken, target=1.0)


def _fresh(what: str, strategy: tuple[str, ...], count: int) -> Row:
    """Both jobs timed in processes of their own; imports are not counted."""
    taken: tuple[list[float], list[float]] = ([], [])
    for number in range(3):
        for which in (0, 1) if number % 2 == 0 else (1, 0):
            command = [sys.executable, __file__, "ours" if which == 0 else "peer",
                       str(count), str(number), *strategy]  # fmt: skip
            done = subprocess.run(command, capture_output=True, text=True, check=True)
            taken[which].append(float(done.stdout))
    return _row(what, count, taken, target=None)


def _row(
    what: str, count: int, taken: tuple[list[float], list[float]], target: float | None
) -> Row:
    ours, peer = (count / median(times) for times in taken)
    figures = f"{ours:,.0f}/s, peer {peer:,.0f}/s"
    return Row(what, figures, middle_ratio(taken[1], taken[0]), at_least=target)


def _ours(strategy: tuple[str, ...], count: int) -> Callable[[int], object]:
    from storybank import Request, make_set

    return lambda number: make_set(Request(strategy=strategy, count=count, seed=number))


def peer_job(count: int) -> Callable[[int], list[str]]:
    """What a programmer would put together: a template, first names from Faker, random numbers."""
    from faker import Faker

    fake = Faker("en_US")
    template = Template(_TEMPLATE)

    def job(number: int) -> list[str]:
        fake.seed_instance(number)
        luck = random.Random(number)
        made = []
        for _ in range(count):
            a, b = luck.randint(11, 60), luck.randint(1, 3) * 10 + luck.choice((8, 9))
            made.append(
                template.render(
                    name=fake.first_name(),
                    other=fake.first_name(),
                    a=a,
                    b=b,
                    c=a + b,
                    near=-(-b // 10) * 10,
                )
            )
        return made

    return job


def _alone(which: str, count: str, number: str, *strategy: str) -> None:
    from rounds import seconds

    job = _ours(strategy, int(count)) if which == "ours" else peer_job(int(count))
    print(seconds(job, int(number)))


if __name__ == "__main__":
    assert Path(__file__).parent == Path(sys.path[0])
    _alone(*sys.argv[1:])
