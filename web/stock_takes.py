"""Stock-takes in progress: what was scanned in each place so far.

Kept by the running app and not in the record, so that a phone may scan while the desk
watches; only what the person confirms is written down.
"""

from __future__ import annotations

import threading
from collections.abc import Iterable

from stash.workroom.stock_take import key_of


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
