"""Work that takes its time goes to a thread, so that the page of another teacher does not wait.

Python works in one thread at a time, so many of them only take turns, and what gives its turn away
often (Word files do) would come last each time. So few work at once, and the others wait in line.
"""

import asyncio
from collections.abc import Callable
from typing import TypeVar
from weakref import WeakKeyDictionary

from anyio import CapacityLimiter, to_thread

T = TypeVar("T")
AT_ONCE = 2
"""So many pieces of short work are done at once, and as many of long work beside them."""
Lines = dict[bool, CapacityLimiter]
_lines: "WeakKeyDictionary[asyncio.AbstractEventLoop, Lines]" = WeakKeyDictionary()
"""The two lines of each event loop: a server has one loop, tests have many."""


async def worked_on(work: Callable[[], T], *, long: bool = False) -> T:
    """What `work` gives, done in a thread.

    `long` work, such as a week, or what waits for another program to leave the bank, stands in a
    line of its own.
    """
    lines = _lines.setdefault(asyncio.get_running_loop(), {})
    line = lines.setdefault(long, CapacityLimiter(AT_ONCE))
    return await to_thread.run_sync(work, limiter=line)
