"""Where the grain of a traced cut runs: who said so, read off the events like its figures."""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum

from stash.ledger.event import Event, Kind


class GrainBy(StrEnum):
    """What said where the grain of an outline runs."""

    ARROW = "arrow"
    LONGEST = "longest"
    TOLD = "told"
    SELVEDGE = "selvedge"

    @property
    def presumed(self) -> bool:
        """Nobody said so: the longest way was taken."""
        return self is GrainBy.LONGEST


def grain_subject(code: str) -> str:
    """The subject under which it is recorded."""
    return f"grain:{code}"


def grain_by(events: Iterable[Event], code: str) -> GrainBy | None:
    """What said where the grain runs; None for cloth that was never traced."""
    subject = grain_subject(code)
    for event in sorted(events, key=lambda one: -one.id):
        if not event.stands or event.kind is Kind.UNDO or subject not in event.change:
            continue
        part = event.change[subject]
        record = part["steps"][-1]["part"]["record"] if "steps" in part else part["record"]
        return GrainBy(record["by"])
    return None
