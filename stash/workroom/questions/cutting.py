"""Cutting a planned lay: the cloth it was held on becomes what is left, true to its shape."""

from __future__ import annotations

from dataclasses import replace

from shapely.geometry import Polygon

from stash.errors import Conflict
from stash.lay.check import placed_polygon
from stash.ledger import CutHold, Event
from stash.ledger.leftover import leftover
from stash.ledger.shapes import polygon
from stash.model import Cut
from stash.store import Stash
from stash.workroom.questions.held import held_laid, laid_for_the_wash

OUTSIDE_MM2 = 500.0
"""A lay that leaves the cloth by more than this no longer belongs to it."""


def cut_plan(
    stash: Stash, name: str, code: str | None = None, token: str | None = None
) -> tuple[Event, ...]:
    """Record that the lays a plan holds were cut, on all its cuts or on one.

    It is one event with one undo, told cut by cut: of each, ``arrivals`` are the codes of
    its remnants. The plan's hold on that cloth ends. Conflict when it holds none, when
    the cloth has yet to be washed, or when the lay no longer lies on the cloth.
    """
    with stash.act(token) as act:
        if act.earlier:
            return _cut_by_cut(act.earlier)
        plan = stash.plans.get(name)
        held = sorted(stash.plans.holdings(name).cuts.items())
        if code is not None:
            wanted = stash.cuts.get(code).code
            held = [(c, hold) for c, hold in held if c == wanted]
        if not held:
            raise Conflict("plan_holds_no_lay", plan=plan.name)
        for cut, hold in held:
            _cut_one(stash, stash.cuts.get(cut), hold)
    return _cut_by_cut(act.became)


def _cut_by_cut(event: Event) -> tuple[Event, ...]:
    """What one event says of each cut that was cut out, with the remnants of that cut."""
    remnants = {code: event.change[code]["cut"]["came_from"] for code in event.arrivals}
    return tuple(
        replace(event, code=code, change={
            code: part, **{r: event.change[r] for r, parent in remnants.items() if parent == code}
        })
        for code, part in event.change.items() if code not in remnants
    )


def _cut_one(stash: Stash, cut: Cut, hold: CutHold) -> Event:
    if laid_for_the_wash(hold, cut):
        raise Conflict("wash_before_cutting", cut=cut.code)
    left = leftover(cut.outline, _laid(cut, hold))
    return stash.cuts.cut_out(
        cut.code, left.rest, lay=hold.laid or hold.lay, plan=hold.plan,
        remnants=[(None, outline) for outline in left.remnants],
    )


def _laid(cut: Cut, hold: CutHold) -> list[Polygon]:
    """The pieces where they were laid; Conflict when they do not lie on the cloth."""
    held = held_laid(hold, cut)
    if held is None:
        raise _stale(hold, cut)
    pieces = {piece.name: piece for piece in held.pieces}
    laid = [
        placed_polygon(pieces[p.piece.rpartition("#")[0]], p) for p in held.lay.placements
    ]
    cloth = polygon(cut.outline)
    if any(shape.difference(cloth).area > OUTSIDE_MM2 for shape in laid):
        raise _stale(hold, cut)
    return laid


def _stale(hold: CutHold, cut: Cut) -> Conflict:
    return Conflict("lay_is_stale", plan=hold.plan, cut=cut.code)
