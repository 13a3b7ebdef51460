"""From happenings to what is there: the state is always a fold over the ledger.

A subject is a cut, a bin, or a record: any other plain JSON document (a person, a
cloth, a place, a plan...), which each entry replaces as a whole. An entry may also
only need a record, as a cut needs its cloth: then that cannot be undone under it.

What the fold once accepted it must accept for ever, or an old ledger could no longer
be read: its checks may be loosened, never tightened.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Set
from dataclasses import replace
from typing import Any

from stash.errors import Conflict
from stash.fact import Term
from stash.ledger import bins, cuts
from stash.ledger.bins import BinState
from stash.ledger.cuts import CutState
from stash.ledger.event import Entry, Event, Kind

FoldedState = CutState | BinState | Mapping[str, Any]


def applied(state: FoldedState | None, entry: Entry, subject: str) -> FoldedState | None:
    """The subject's state after one entry; Conflict or NotEnough when it cannot be."""
    part = entry.change[subject]
    if "steps" in part:
        for step in part["steps"]:
            one = Entry(kind=Kind(step["kind"]), code=entry.code, change={subject: step["part"]})
            state = applied(state, one, subject)
        return state
    if "record" in part:
        record: Mapping[str, Any] | None = part["record"]
        return record
    if "needs" in part:
        if state is None:
            noun = subject.partition(":")[0]
            raise Conflict("recorded_since", what=Term(noun))
        return state
    if "cut" in part or "bin" in part:
        if state is not None:
            raise Conflict("label_in_use", code=subject)
        return cuts.received(part["cut"]) if "cut" in part else bins.received(part["bin"])
    if isinstance(state, CutState):
        return cuts.changed(state, entry.kind, part, subject)
    if isinstance(state, BinState):
        return bins.changed(state, entry.kind, part, subject)
    raise Conflict("nothing_at_that_moment", subject=subject)


def held_off(undos: Iterable[tuple[int, int]]) -> set[int]:
    """The numbers of the events that do not stand, from (number, number undone) of all undos.

    Read from the newest back: an undo that stands holds off the event it names, so
    undoing an undo lets the first event stand again.
    """
    off: set[int] = set()
    for number, undone in sorted(undos, reverse=True):
        if number not in off:
            off.add(undone)
    return off


def standing(events: Iterable[Event]) -> list[Event]:
    """All events in order, each marked whether it stands; undos must be among them."""
    ordered = sorted(events, key=lambda e: e.id)
    off = held_off((e.id, e.undoes) for e in ordered if e.undoes is not None)
    return [e if e.stands == (e.id not in off) else replace(e, stands=e.id not in off)
            for e in ordered]


def fold(events: Iterable[Event], off: Set[int] | None = None) -> dict[str, FoldedState]:
    """The state of every subject; subjects that no standing event made are left out.

    With ``off``, the numbers of those that do not stand, the events come in order and
    are not all held at once.
    """
    states: dict[str, FoldedState | None] = {}
    for event in standing(events) if off is None else (e for e in events if e.id not in off):
        if event.stands and event.kind is not Kind.UNDO:
            for subject in event.change:
                states[subject] = applied(states.get(subject), event, subject)
    return {subject: state for subject, state in states.items() if state is not None}


def fold_subject(events: Iterable[Event], subject: str) -> FoldedState | None:
    """The state of one subject from the events that touch it."""
    state: FoldedState | None = None
    for event in standing(events):
        if event.stands and event.kind is not Kind.UNDO:
            state = applied(state, event, subject)
    return state
