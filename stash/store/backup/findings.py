"""What was found when a record, a copy or a backup was looked through."""

from __future__ import annotations

from dataclasses import dataclass

from stash.fact import Fact


@dataclass(frozen=True, kw_only=True)
class Findings:
    """How many events and photographs there are, and everything that is wrong with them.

    ``subjects`` counts the things the events are about, where they were looked at.
    """

    events: int = 0
    photos: int = 0
    subjects: int = 0
    faults: tuple[Fact, ...] = ()

    @property
    def ok(self) -> bool:
        """True when nothing is wrong."""
        return not self.faults
