"""What may happen to the stash, and how one happening is written down."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

from stash.fact import Fact, fact

NEEDS = {"needs": True}
"""What an entry says of a record that it leaves alone and depends on."""


class Kind(StrEnum):
    """The happenings; each says in :mod:`stash.ledger` what it changes.

    A new kind comes with a new migration of the store, so that older versions, which
    could not read it, refuse the store.
    """

    RECEIPT = "receipt"
    CUT_OFF = "cut-off"
    CUT_OUT = "cut-out"
    TAKE = "take"
    PUT = "put"
    COUNT = "count"
    REMEASURE = "re-measure"
    WASH = "wash"
    MOVE = "move"
    HOLD = "hold"
    RELEASE = "release"
    GIFT = "gift"
    DISCARD = "discard"
    CORRECTION = "correction"
    UNDO = "undo"
    SEVERAL = "several"
    SELL = "sell"
    JOIN = "join"
    LEND = "lend"
    BACK = "back"

    @property
    def called(self) -> Fact:
        """A happening as the history calls it, without its figures."""
        if self is Kind.SEVERAL:
            return fact("event_several_things")
        return fact(f"event_{self.value.replace('-', '_')}")


@dataclass(frozen=True, kw_only=True)
class Entry:
    """Something to be written into the ledger.

    ``code`` is what it is mainly about. ``change`` is plain JSON: for everything it
    touches, what a replay needs to know. Its keys are label codes of cuts and bins,
    and ``"person:odile"`` and the like for the rest. In an entry of kind SEVERAL each
    subject has ``{"steps": [{"kind": ..., "part": ...}, ...]}``, in the order they came.
    """

    kind: Kind
    code: str
    change: Mapping[str, Mapping[str, Any]] = field(default_factory=dict)
    undoes: int | None = None

    @property
    def arrivals(self) -> tuple[str, ...]:
        """The codes of the cuts and bins that this brings in: a receipt's, or remnants'."""
        return tuple(s for s, part in self.change.items() if any(map(_arrives, parts_of(part))))


@dataclass(frozen=True, kw_only=True)
class Event(Entry):
    """An entry once written: its number, moment (ISO 8601, the clock of the place it was written
    at, with what that is off UTC) and hand.

    ``checksum`` ties it to the event before it (see :mod:`stash.ledger.chain`);
    ``stands`` is worked out on reading: false while an undo holds it off.
    """

    id: int
    at: str
    who: str = ""
    device: str = ""
    token: str | None = None
    checksum: str = ""
    stands: bool = True


def parts_of(part: Mapping[str, Any]) -> tuple[Mapping[str, Any], ...]:
    """What an entry says of one subject, step by step; one step where it is not of several."""
    return tuple(step["part"] for step in part["steps"]) if "steps" in part else (part,)


def _arrives(part: Mapping[str, Any]) -> bool:
    return "cut" in part or "bin" in part
