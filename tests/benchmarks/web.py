"""The page: a first set, a swap and a download, each beside one call of `make_set`."""

import http.client
from collections.abc import Iterator
from statistics import median
from urllib.parse import urlencode

from _web_load import asked, server
from rounds import Row, alternate, middle_ratio

from storybank import Request, make_set

TITLE = "the page: a first set, a swap and a download, beside one make_set of 12"
ROUNDS = 40
_FIRST = 5000
TAKEN = urlencode({"what": "student"})


def rows() -> Iterator[Row]:
    """Ratios of the time of an answer, from a server on this machine, to one `make_set`."""
    with server() as (port, _):
        connection = http.client.HTTPConnection("127.0.0.1", port)

        def answered(method: str, address: str, body: str | None = None) -> None:
            status, _ = asked(connection, method, address, body)
            if status != 200:
                raise AssertionError(f"{address}: {status}")

        def page(query: str) -> None:
            answered("GET", f"/set?{query}")

        def peer(number: int) -> None:
            make_set(Request(seed=_FIRST + number))

        for number in range(ROUNDS):
            page(f"seed={number}")
            make_set(Request(seed=number))
        kinds = {
            "the first page of a set of 12": lambda number: page(f"seed={_FIRST + number}"),
            "the page after a swap": lambda number: page(f"seed={_FIRST + number}&change=swap-3"),
            "the student pages in Word": lambda number: answered(
                "POST", f"/take?seed={_FIRST + number}", TAKEN
            ),
        }
        for what, ours in kinds.items():
            mine, theirs = alternate(ours, peer, ROUNDS)
            figures = (
                f"median {1000 * median(mine):.1f} ms, make_set {1000 * median(theirs):.1f} ms"
            )
            first = what.startswith("the first")
            yield Row(what, figures, middle_ratio(mine, theirs), at_most=10 if first else None)
        connection.close()
