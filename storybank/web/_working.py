"""Work that takes its time goes to a thread, so that the page of another teacher does not wait."""

from collections.abc import Callable
from typing import TypeVar

from starlette.concurrency import run_in_threadpool

T = TypeVar("T")


async def worked_on(work: Callable[[], T]) -> T:
    """What `work` gives, done in a thread."""
    return await run_in_threadpool(work)
