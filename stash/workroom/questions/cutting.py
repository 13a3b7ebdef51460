"""Cutting a planned lay: the cloth it was held on becomes what is left, true to its shape."""

from __future__ import annotations

from dataclasses import replace

from shapely.geometry import Polygon

from stash.errors import Conflict
from stash.lay.check import placed_polygon
from stash.ledger import CutHold, Event
from stash.ledger.leftover import leftover
from stash.ledger.shapes import polygon
from stash.match.gather import gather
from stash.model import Cut, Piece, Placement
from stash.store import Stash
from stash.workroom.questions.orders import planned_orders

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
            raise Conflict(f"The plan “{plan.name}” holds no lay there that could be cut.")
        for cut, hold in held:
            _cut_one(stash, stash.cuts.get(cut), hold)
    return _cut_by_cut(act.event)


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
    cloth = cut.cloth
    if not cut.washed and (cloth.shrink_along_pct or cloth.shrink_across_pct):
        raise Conflict(
            f"The lay on {cut.code} is for the cloth once washed. Please wash it and record that "
            "first."
        )
    left = leftover(cut.outline, _laid(stash, cut, hold))
    return stash.cuts.cut_out(
        cut.code, left.rest, lay=hold.lay, plan=hold.plan,
        remnants=[(None, outline) for outline in left.remnants],
    )


def _laid(stash: Stash, cut: Cut, hold: CutHold) -> list[Polygon]:
    """The pieces where they were laid; Conflict when they do not lie on the cloth."""
    pieces = {piece.name: piece for piece in _pieces(stash, hold)}
    placements = (hold.lay or {}).get("placements", ())
    names = {p["piece"].rpartition("#")[0] for p in placements}
    if not placements or not names <= pieces.keys():
        raise _stale(hold, cut)
    laid = [
        placed_polygon(pieces[p["piece"].rpartition("#")[0]], _placement(p)) for p in placements
    ]
    cloth = polygon(cut.outline)
    if any(shape.difference(cloth).area > OUTSIDE_MM2 for shape in laid):
        raise _stale(hold, cut)
    return laid


def _pieces(stash: Stash, hold: CutHold) -> tuple[Piece, ...]:
    """As they were when the lay was held; drafted again only where they were not kept."""
    kept = (hold.lay or {}).get("pieces")
    if kept:
        return tuple(
            Piece(name=p["name"], outline_mm=tuple((x, y) for x, y in p["outline_mm"]))
            for p in kept
        )
    orders = planned_orders(stash, stash.plans.get(hold.plan))
    return gather([order.drafted() for order in orders])


def _placement(plain: dict) -> Placement:
    return Placement(
        piece=plain["piece"], x_mm=plain["x_mm"], y_mm=plain["y_mm"],
        turn_deg=plain["turn_deg"], mirrored=plain["mirrored"],
    )


def _stale(hold: CutHold, cut: Cut) -> Conflict:
    return Conflict(
        f"The lay that “{hold.plan}” holds on {cut.code} no longer lies on the cloth. Hold "
        "the plan on it again, then cut."
    )
