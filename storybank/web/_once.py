"""A button that is pressed twice does its work once."""

import asyncio
import time
from collections.abc import Callable, Hashable
from typing import Any, TypeVar

from storybank.web._working import worked_on

T = TypeVar("T")
AGAIN = 2.0
"""Seconds after which pressing the button again is meant."""


class Once:
    """Work under marks: while that of a mark goes on, and shortly after, it is not begun again.

    Who asks again meanwhile is given what the first one gets.
    """

    def __init__(self) -> None:
        """Nothing is going on."""
        self._running: dict[Hashable, asyncio.Task[Any]] = {}
        self._ended: dict[Hashable, float] = {}

    async def __call__(self, mark: Hashable, work: Callable[[], T]) -> T:
        """What `work` gives, or what it gave just before under the same mark."""
        self._forget()
        task = self._running.get(mark)
        if task is None:
            task = asyncio.ensure_future(worked_on(work, long=True))
            task.add_done_callback(lambda done: self._end(mark, done))
            self._running[mark] = task
        found: T = await asyncio.shield(task)
        return found

    def _end(self, mark: Hashable, done: asyncio.Task[Any]) -> None:
        failed = done.cancelled() or done.exception() is not None
        self._ended[mark] = 0.0 if failed else time.monotonic()

    def _forget(self) -> None:
        until = time.monotonic() - AGAIN
        for mark in [one for one, ended in self._ended.items() if ended <= until]:
            del self._ended[mark], self._running[mark]
