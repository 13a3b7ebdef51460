"""Where the size or the amount on record comes from: read off the events, never kept twice.

An event that sets a size may carry a figure beside it, under the subject ``figure:CODE``.
What sets a size without one was measured or counted by hand.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from stash.ledger.event import Event, Kind
from stash.model.exact import from_plain
from stash.model.measured import Measured

SETS = {Kind.RECEIPT, Kind.REMEASURE, Kind.COUNT, Kind.WASH}


def figure_subject(code: str) -> str:
    """The subject under which the figure of a cut or a bin is recorded."""
    return f"figure:{code}"


def origin_of(events: Iterable[Event], code: str) -> Measured | None:
    """The figure behind the present size or amount; None when it was set by hand.

    ``events`` are those that touch the code, in any order. What was taken off since is
    known exactly, so the figure's error holds; its value is that of its own day.
    """
    for event in sorted(events, key=lambda one: -one.id):
        if not event.stands or event.kind is Kind.UNDO or code not in event.change:
            continue
        if figure_subject(code) in event.change:
            return _figure(event.change[figure_subject(code)])
        if _sets(event, event.change[code]):
            return None
    return None


def _sets(event: Event, part: Mapping[str, Any]) -> bool:
    if "steps" in part:
        return any(Kind(step["kind"]) in SETS for step in part["steps"])
    return event.kind in SETS or "left_mm" in part


def _figure(part: Mapping[str, Any]) -> Measured:
    record = part["steps"][-1]["part"]["record"] if "steps" in part else part["record"]
    return from_plain(Measured, record)
