"""Stock-takes in progress: what was scanned in each place so far.

Kept by the running app and not in the record, so that a phone may scan while the desk
watches; only what the person confirms is written down.
"""

from __future__ import annotations

import threading
from collections.abc import Iterable
from dataclasses import dataclass

from stash.store import Stash
from stash.store.naming import key_of


@dataclass(frozen=True)
class Standing:
    """A place as it stands: codes found as expected, missing, and out of place."""

    found: tuple[str, ...]
    missing: tuple[str, ...]
    strays: tuple[str, ...]
    unknown: tuple[str, ...]

    @property
    def complete(self) -> bool:
        """True when nothing is missing and nothing is out of place."""
        return not (self.missing or self.strays or self.unknown)


class StockTakes:
    """The codes seen, by place."""

    def __init__(self) -> None:
        self._seen: dict[str, dict[str, None]] = {}
        self._lock = threading.Lock()

    def see(self, place: str, codes: Iterable[str]) -> None:
        """Add what was just scanned."""
        with self._lock:
            self._seen.setdefault(key_of(place), {}).update(dict.fromkeys(codes))

    def seen(self, place: str) -> list[str]:
        """What was scanned so far, in order."""
        return list(self._seen.get(key_of(place), ()))

    def end(self, place: str) -> None:
        """Forget it."""
        with self._lock:
            self._seen.pop(key_of(place), None)


def compare(stash: Stash, place: str, seen: Iterable[str]) -> Standing:
    """What was scanned against what is said to be there."""
    expected = stash.places.contents(place)
    there = dict.fromkeys(seen)
    things = [c for c in there if stash.labels.state(c) in ("cut", "bin")]
    return Standing(
        found=tuple(c for c in expected if c in there),
        missing=tuple(c for c in expected if c not in there),
        strays=tuple(c for c in things if c not in expected),
        unknown=tuple(c for c in there if stash.labels.state(c) in ("blank", "unknown")),
    )
