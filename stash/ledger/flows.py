"""Where the cloth came from and where it went: every event as running metres in or out.

Running metres are an area divided by the width the cloth came in, so that a strip or a
remnant counts by its share. What came in and was found, less what was used, lost and given
away, is what is here.
"""

from __future__ import annotations

from collections.abc import Iterable, Set
from dataclasses import dataclass, field
from enum import StrEnum

from stash.ledger.cuts import CutState
from stash.ledger.event import Event, Kind
from stash.ledger.fold import FoldedState, applied, standing

LEAST_MM2 = 1.0


class Direction(StrEnum):
    """Which way cloth went."""

    IN = "in"
    USED = "used"
    LOST = "lost"
    AWAY = "away"
    FOUND = "found"


WAYS = {
    Kind.RECEIPT: Direction.IN, Kind.WASH: Direction.LOST,
    Kind.CUT_OFF: Direction.USED, Kind.CUT_OUT: Direction.USED, Kind.JOIN: Direction.USED,
    Kind.GIFT: Direction.AWAY, Kind.SELL: Direction.AWAY, Kind.DISCARD: Direction.AWAY,
}


@dataclass(frozen=True, kw_only=True)
class Flow:
    """One event on one cut; ``mm`` of running length is never negative but for LOST and FOUND.

    ``root`` is the cut it came in as, ``cloth`` the subject of its cloth; ``waste_mm`` is
    the part of a cutting out that was too small to keep, ``waste_mm2`` its area; ``sold_minor``
    what it brought.
    """

    event: Event
    code: str
    root: str
    cloth: str
    way: Direction
    mm: float
    plan: str | None = None
    waste_mm: float = 0.0
    waste_mm2: float = 0.0
    sold_minor: int | None = None


@dataclass(frozen=True, kw_only=True)
class CameInAs:
    """What a cut came in as: the cut it is of, how wide that was, and the day it came itself."""

    root: str
    width_mm: float
    on: str


@dataclass(kw_only=True)
class FlowFold:
    """Folds standing events, in order, into flows of cloth.

    Only of these ``codes``, or of all; then only events that touch them are wanted, and
    ``sources`` must know the other cuts that those events touch. ``taken`` is the day when
    each cut last became more or less, after it came.
    """

    codes: Set[str] | None = None
    sources: dict[str, CameInAs] = field(default_factory=dict)
    states: dict[str, FoldedState | None] = field(default_factory=dict)
    taken: dict[str, str] = field(default_factory=dict)

    def after(self, event: Event) -> list[Flow]:
        """What this event did."""
        had_mm2 = self._applied(event)
        cuts = {s: state for s in had_mm2 if isinstance(state := self.states[s], CutState)}
        new = {code: cuts[code] for code in cuts if code not in self.sources}
        for code, state in {**new, **self._others(event)}.items():
            parent = _parent(event, code, state)
            if parent:  # what a remnant is, it had within its parent
                had_mm2[code] = _area_mm2(state)
                had_mm2[parent] = had_mm2.get(parent, 0.0) - had_mm2[code]
            if code in new:
                self.sources[code] = self._source(event, code, parent, state)
        found = [_flow(event, code, state, change, self.sources[code])
                 for code, state in cuts.items()
                 if abs(change := _area_mm2(state) - had_mm2[code]) > LEAST_MM2]
        self.taken.update({flow.code: event.at[:10] for flow in found if flow.code not in new})
        return found

    def _applied(self, event: Event) -> dict[str, float]:
        """Bring the states up; the areas (mm2) that there were before."""
        own = [s for s in event.change if self.codes is None or s in self.codes]
        before = {s: _area_mm2(self.states.get(s)) for s in own}
        for subject in own:
            self.states[subject] = applied(self.states.get(subject), event, subject)
        return before

    def _others(self, event: Event) -> dict[str, CutState]:
        """The remnants that this event takes out of a cut that is asked about."""
        if self.codes is None or len(event.change) == 1:
            return {}
        new = (code for code in event.arrivals if code not in self.codes)
        states = ((code, applied(None, event, code)) for code in new)
        return {code: state for code, state in states if isinstance(state, CutState)}

    def _source(
        self, event: Event, code: str, parent: str | None, state: CutState
    ) -> CameInAs:
        known = self.sources.get(parent or "")
        return CameInAs(
            root=known.root if known else code, on=event.at[:10],
            width_mm=known.width_mm if known else state.outline.width_mm)


def flows(events: Iterable[Event]) -> tuple[Flow, ...]:
    """Every flow of cloth, in order; undone events are left out."""
    folding = FlowFold()
    return tuple(flow for event in standing(events) if event.stands and event.kind is not Kind.UNDO
                 for flow in folding.after(event))


def _flow(event: Event, code: str, state: CutState, change_mm2: float, source: CameInAs) -> Flow:
    kind, part = _main_step(event, code)
    way = WAYS.get(kind, Direction.FOUND)
    mm = change_mm2 / source.width_mm
    return Flow(
        event=event, code=code, root=source.root, cloth=state.cloth, way=way,
        mm=mm if way in (Direction.IN, Direction.FOUND) else -mm, plan=part.get("plan"),
        waste_mm=float(part.get("waste_mm2") or 0.0) / source.width_mm,
        waste_mm2=float(part.get("waste_mm2") or 0.0),
        sold_minor=part.get("price_minor"),
    )


def _main_step(event: Event, code: str) -> tuple[Kind, dict]:  # type: ignore[type-arg]
    part = dict(event.change[code])
    for step in part.get("steps", ()):
        if Kind(step["kind"]) in WAYS or Kind(step["kind"]) is Kind.REMEASURE:
            return Kind(step["kind"]), dict(step["part"])
    if "cut" in part:
        return Kind.RECEIPT, part
    return event.kind, part


def _parent(event: Event, code: str, state: CutState) -> str | None:
    """The cut whose cloth this is: of a remnant its parent, of two joined the first."""
    return state.came_from if state.came_from in event.change and state.came_from != code else None


def _area_mm2(state: FoldedState | None) -> float:
    return state.outline.area_mm2 if isinstance(state, CutState) and not state.gone else 0.0
