"""Stories told in several threads at once are those told one after another."""

import random
import sys
import threading
from collections.abc import Iterator
from dataclasses import replace

import pytest

from storybank import Request, documents, make_set

KINDS = (
    Request(count=6),
    Request(strategy=("any",), within=20, count=6),
    Request(steps=2, count=4),
    Request(addends=3, count=4),
    Request(units=("lengths",), count=4),
    Request(number_sets=(10, 20, 100), count=3),
    Request(extra_number=True, count=4),
    Request(missing=True, count=4),
    Request(fact_families=True, within=20, count=4),
    Request(levels_side_by_side=True, count=3),
    Request(vocabulary="level-1", allow=("past",), count=4),
    Request(theme=("winter-days",), diagnose=True, count=4),
)
THREADS = 6


@pytest.fixture
def threads_in_quick_turns() -> Iterator[None]:
    """Python changes from thread to thread as often as it can."""
    usual = sys.getswitchinterval()
    sys.setswitchinterval(1e-5)
    yield
    sys.setswitchinterval(usual)


@pytest.mark.usefixtures("threads_in_quick_turns")
def test_sets_made_in_threads_are_those_made_alone() -> None:
    asked = [replace(one, seed=seed) for one in KINDS for seed in (41, 42)]
    told: dict[tuple[int, int], str] = {}
    faults: list[BaseException] = []

    def work(thread: int) -> None:
        order = list(range(len(asked)))
        random.Random(thread).shuffle(order)
        try:
            for at in order:
                made = make_set(asked[at])
                told[thread, at] = made.to_text()
                if at % 8 == 0:
                    documents.render(made, "docx")
        except BaseException as error:
            faults.append(error)

    threads = [threading.Thread(target=work, args=(number,)) for number in range(THREADS)]
    for one in threads:
        one.start()
    for one in threads:
        one.join()
    assert not faults
    alone = [make_set(one).to_text() for one in asked]
    assert len(told) == THREADS * len(asked)
    assert [key for key, text in told.items() if text != alone[key[1]]] == []
