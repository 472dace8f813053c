"""Says on standard error how far a long command is."""

import sys
import time

_REPORT_AFTER = 1.0
_TIME_LEFT_AFTER = 5.0
_LINES = 20
_AT_LEAST_EVERY = 30.0


class Progress:
    """Says how many of what are made, once it takes longer than a second; then the time left."""

    def __init__(self, what: str = "problems made") -> None:
        """Nothing is made yet."""
        self._what = what
        self._started = self._said = time.monotonic()
        self._first: tuple[int, float] | None = None
        self._last = 0

    def __call__(self, made: int, wanted: int) -> None:
        """To be called now and then with how many are made and wanted."""
        now = time.monotonic()
        if self._first is None:
            self._first = (made, now)
        pause = max(_REPORT_AFTER, (now - self._started) / _LINES)
        if now - self._said > min(pause, _AT_LEAST_EVERY) and made != self._last:
            self._said, self._last = now, made
            left = self._left(made - self._first[0], wanted - made, now - self._first[1])
            print(f"{made:,} of {wanted:,} {self._what}{left}", file=sys.stderr, flush=True)

    def _left(self, made: int, more: int, seconds: float) -> str:
        if seconds < _TIME_LEFT_AFTER or made <= 0 or more <= 0:
            return ""
        return f", {_duration(more * seconds / made)} left"


def _duration(seconds: float) -> str:
    """About how long that is: "40 s", "12 min", "3 h 20 min"."""
    if seconds < 90:
        return f"{round(seconds)} s"
    minutes = round(seconds / 60)
    return f"{minutes} min" if minutes < 90 else f"{minutes // 60} h {minutes % 60} min"
