"""Held lays that the cloth bears no longer: it was measured, washed or found flawed since."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from shapely.geometry import Polygon

from stash.fact import Fact, fact
from stash.lay.check import placed_polygon
from stash.ledger import CutHold
from stash.ledger.shapes import polygon
from stash.model import Cut, Laid, Piece, Placement
from stash.store import Stash
from stash.workroom.questions.held import held_laid
from stash.workroom.questions.plan_view import PlanView

OUTSIDE_MM2 = 500.0
"""A piece that leaves the cloth by more than this no longer lies on it."""


def piece_of(laid: Laid, copy: str) -> Piece:
    """The piece that a placement's name is a copy of: "front" of "front#2"."""
    return next(p for p in laid.pieces if p.name == copy.rpartition("#")[0])


def shape_of(laid: Laid, placement: Placement) -> Polygon:
    """What a placed piece covers, in mm of the cloth as it will be when it is cut into."""
    return placed_polygon(piece_of(laid, placement.piece), placement)


def off_the_cloth(laid: Laid) -> tuple[str, ...]:
    """The placed pieces that reach beyond the cloth, or into a hole of it."""
    cloth = polygon(laid.cloth)
    return tuple(
        placement.piece for placement in laid.lay.placements
        if shape_of(laid, placement).difference(cloth).area > OUTSIDE_MM2)


def strayed_from(cut: Cut, holds: Iterable[CutHold]) -> tuple[Fact, ...]:
    """What is said of each held lay that no longer lies on this cut, as the cut is now."""
    said = []
    for hold in holds:
        laid = held_laid(hold, cut)
        if laid and (off := off_the_cloth(laid)):
            said.append(fact("lay_strayed", plan=hold.plan, cut=cut.code, count=len(off)))
    return tuple(said)


def strayed_in(stash: Stash, view: PlanView) -> Mapping[str, tuple[Fact, ...]]:
    """The same of all that a plan holds, by the code of the cut."""
    return {
        code: strayed_from(stash.cuts.get(code), (hold,))
        for code, hold in view.holdings.cuts.items()
    }
