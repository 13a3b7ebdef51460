"""A stop rule made of seconds: the one clock that searches may be handed.

The pure rooms never look at a clock; they call the ``stop`` they are given.
"""

from __future__ import annotations

import time
from dataclasses import dataclass


@dataclass(frozen=True)
class Deadline:
    """Callable that turns true once its moment has passed; safe to send to a worker."""

    at_s: float

    @classmethod
    def after(cls, seconds: float) -> Deadline:
        """A deadline this many seconds from now."""
        return cls(time.monotonic() + seconds)

    def __call__(self) -> bool:
        """True once the moment has passed."""
        return time.monotonic() >= self.at_s


def never() -> bool:
    """A stop rule that lets the search run to its iteration budget."""
    return False
