"""A stop rule made of seconds: the one clock that searches may be handed.

The pure rooms never look at a clock; they call the ``stop`` they are given.
"""

from __future__ import annotations

import time
from dataclasses import dataclass, field


def now_s() -> float:
    """The clock of all that stands here; it only runs forward."""
    return time.monotonic()


@dataclass(frozen=True)
class Deadline:
    """Callable that turns true once its moment has passed; safe to send to a worker."""

    at_s: float

    @classmethod
    def after(cls, seconds: float) -> Deadline:
        """A deadline this many seconds from now."""
        return cls(now_s() + seconds)

    def __call__(self) -> bool:
        """True once the moment has passed."""
        return now_s() >= self.at_s

    def share(self, parts: int) -> Deadline:
        """The end of one of so many equal parts of the time that is left."""
        left = max(self.at_s - now_s(), 0.0)
        return Deadline.after(left / max(parts, 1))


@dataclass(frozen=True)
class Stopwatch:
    """Says how long ago it was made."""

    since_s: float = field(default_factory=lambda: now_s())

    @property
    def seconds(self) -> float:
        """Seconds since then."""
        return now_s() - self.since_s


def never() -> bool:
    """A stop rule that lets the search run to its iteration budget."""
    return False
