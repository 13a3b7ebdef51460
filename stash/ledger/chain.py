"""Each event carries a checksum of itself and of the event before it.

An event that was altered, taken out or put in by anything but the ledger no longer fits
its neighbours, and can be named.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum

from stash.ledger.event import Event

BEGINNING = ""
"""What stands before the first event."""


class Break(StrEnum):
    """How the chain may be broken."""

    ALTERED = "event_altered"
    MISSING = "events_missing"


@dataclass(frozen=True)
class Broken:
    """The chain does not hold: an altered event, or the events ``first`` to ``last`` are gone."""

    how: Break
    first: int
    last: int


def checksum(before: str, event: Event) -> str:
    """SHA-256 (hexadecimal) of the checksum before it and of everything the event says."""
    said = [
        before, event.id, event.at, event.kind.value, event.code, event.change,
        event.who, event.device, event.token, event.undoes,
    ]
    text = json.dumps(said, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def broken(events: Iterable[Event], newest: int | None = None) -> Iterator[Broken]:
    """Where the chain of events, oldest first, does not hold.

    ``newest`` is the number of the last event ever written, where that is known: it tells
    whether events are missing at the end.
    """
    number, before, whole = 0, BEGINNING, True
    for event in events:
        if event.id != number + 1:
            yield Broken(Break.MISSING, number + 1, event.id - 1)
            whole = False
        # After a gap the checksum before is unknown, so this one event cannot be judged.
        if whole and event.checksum != checksum(before, event):
            yield Broken(Break.ALTERED, event.id, event.id)
        number, before, whole = event.id, event.checksum, True
    if newest is not None and newest > number:
        yield Broken(Break.MISSING, number + 1, newest)
