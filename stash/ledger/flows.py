"""Where the cloth came from and where it went: every event as running metres in or out.

Running metres are an area divided by the width the cloth came in, so that a strip or a
remnant counts by its share. What came in and was found, less what was used, lost and given
away, is what is here.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
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


def flows(events: Iterable[Event]) -> tuple[Flow, ...]:
    """Every flow of cloth, in order; undone events are left out."""
    states: dict[str, FoldedState | None] = {}
    roots: dict[str, tuple[str, float]] = {}
    found: list[Flow] = []
    for event in standing(events):
        if not event.stands or event.kind is Kind.UNDO:
            continue
        before = {s: _area_mm2(states.get(s)) for s in event.change}
        for subject in event.change:
            states[subject] = applied(states.get(subject), event, subject)
        found += _of_event(event, before, states, roots)
    return tuple(found)


def _of_event(
    event: Event, before: dict[str, float], states: dict[str, FoldedState | None],
    roots: dict[str, tuple[str, float]],
) -> list[Flow]:
    found = []
    born = dict.fromkeys(before, 0.0)
    cuts = {code: s for code in before if isinstance(s := states[code], CutState)}
    for code, state in cuts.items():
        if code not in roots:
            parent = _parent(event, code, state)
            roots[code] = roots.get(parent, (code, state.outline.width_mm)) if parent else (
                code, state.outline.width_mm)
            if parent in born and parent in roots:
                born[parent] += _area_mm2(state)
                before[code] = _area_mm2(state)
    for code, state in cuts.items():
        change = _area_mm2(state) - before[code] + born[code]
        if abs(change) > LEAST_MM2:
            found.append(_flow(event, code, state, change, roots[code]))
    return found


def _flow(
    event: Event, code: str, state: CutState, change_mm2: float, root: tuple[str, float]
) -> Flow:
    kind, part = _main_step(event, code)
    way = WAYS.get(kind, Direction.FOUND)
    mm = change_mm2 / root[1]
    return Flow(
        event=event, code=code, root=root[0], cloth=state.cloth, way=way,
        mm=mm if way in (Direction.IN, Direction.FOUND) else -mm, plan=part.get("plan"),
        waste_mm=float(part.get("waste_mm2") or 0.0) / root[1],
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
