"""What an act hands back: the event that was written, and the thing as it now is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Generic, TypeVar

from stash.ledger import Event

Thing = TypeVar("Thing")


@dataclass(frozen=True, kw_only=True)
class Recorded(Generic[Thing]):
    """``event`` is what an undo takes back; ``now`` is what the event was about, after it."""

    event: Event
    now: Thing
