"""Slash and spread: cut from one edge to another and opened, about the far edge or evenly."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from stash.draft.altering.edge_darts import darts_of
from stash.draft.altering.marks import moved_marks, moved_one_side
from stash.draft.altering.move_dart import slash_inside
from stash.draft.altering.on_paper import Move, OnPaper, moved_edge, whole_mm
from stash.draft.altering.rigid import opening_rad, push, still, then, turn
from stash.draft.altering.ring import Spot, arc, closed, holds_still, point_at
from stash.draft.cutting_line import FOLD
from stash.draft.geometry import Path, distance
from stash.errors import InvalidInput
from stash.model import Point, SewnEdge

MOST_CUTS = 24
# A strip between cuts: its bits of the hinge, and its bits of the edge.
SlashStrip = tuple[tuple[SewnEdge, ...], tuple[SewnEdge, ...]]


@dataclass(frozen=True, kw_only=True)
class Slashes:
    """So many cuts from ``hinge`` to ``edge``, each opened by ``amount_mm`` at the edge.

    ``evenly`` opens the hinge by as much, so that the cuts stay parallel.
    """

    hinge: str
    edge: str
    cuts: int
    amount_mm: float
    evenly: bool = False


def spread(paper: OnPaper, slashes: Slashes) -> OnPaper:
    """The piece spread; ``edge`` grows by the amounts, a hinge keeps its length."""
    if FOLD in (slashes.hinge, slashes.edge) or slashes.hinge == slashes.edge:
        raise InvalidInput("spread_two_edges", piece=paper.piece.name, field="step")
    if not 1 <= slashes.cuts <= MOST_CUTS:
        raise InvalidInput("cuts_out_of_range", most=MOST_CUTS, field="cuts")
    cuts = _cuts(paper, slashes)
    strips = _strips(paper, cuts)
    moves = _moves(paper, slashes, cuts)
    if not holds_still(strips[0][0], strips[-1][1]):
        moves = _held(paper, slashes, cuts)
    return _spread(paper, strips, moves)


def _cuts(paper: OnPaper, slashes: Slashes) -> list[tuple[Spot, Spot]]:
    """The (hinge, edge) spots of each cut, in the order in which the hinge runs."""
    hinge, edge = paper.edge(slashes.hinge), paper.edge(slashes.edge)
    found = []
    for k in range(1, slashes.cuts + 1):
        share = k / (slashes.cuts + 1)
        at_hinge = _beside_darts(paper, slashes.hinge, share * whole_mm(hinge))
        at_edge = _beside_darts(paper, slashes.edge, (1 - share) * whole_mm(edge))
        cut = Spot(slashes.hinge, at_hinge), Spot(slashes.edge, at_edge)
        slash_inside(paper, tuple(point_at(paper.edges, s) for s in cut))
        found.append(cut)
    return found


def slash_lengths(paper: OnPaper, slashes: Slashes) -> tuple[float, ...]:
    """How long each cut is, mm."""
    return tuple(
        distance(*(point_at(paper.edges, s) for s in cut)) for cut in _cuts(paper, slashes)
    )


def _beside_darts(paper: OnPaper, edge: str, mm: float) -> float:
    """So far along an edge, and out of the darts on it."""
    for dart in darts_of(paper):
        if dart.edge == edge and dart.start_mm < mm < dart.end_mm:
            return dart.start_mm if mm - dart.start_mm < dart.end_mm - mm else dart.end_mm
    return mm


def _strips(paper: OnPaper, cuts: Sequence[tuple[Spot, Spot]]) -> list[SlashStrip]:
    """What lies before the first cut, between the cuts, and beyond the last."""
    first, last = cuts[0], cuts[-1]
    between = [
        (arc(paper.edges, one[0], other[0]), arc(paper.edges, other[1], one[1]))
        for one, other in zip(cuts, cuts[1:], strict=False)
    ]
    return [
        (arc(paper.edges, first[1], first[0]), ()), *between,
        ((), arc(paper.edges, last[0], last[1])),
    ]


def _moves(
    paper: OnPaper, slashes: Slashes, cuts: Sequence[tuple[Spot, Spot]]
) -> list[Move]:
    """How each strip moves when the first stays."""
    moves: list[Move] = [still]
    for hinge, edge in cuts:
        moves.append(then(_opening(paper, slashes, hinge, edge), moves[-1]))
    return moves


def _held(
    paper: OnPaper, slashes: Slashes, cuts: Sequence[tuple[Spot, Spot]]
) -> list[Move]:
    """How each strip moves when the last stays."""
    moves: list[Move] = [still]
    for hinge, edge in reversed(cuts):
        moves.append(then(_opening(paper, slashes, hinge, edge, back=True), moves[-1]))
    return moves[::-1]


def _opening(
    paper: OnPaper, slashes: Slashes, hinge: Spot, edge: Spot, *, back: bool = False
) -> Move:
    """One cut opened: what lies beyond it moves (what lies before it, going ``back``)."""
    pin, at = point_at(paper.edges, hinge), point_at(paper.edges, edge)
    away = _away(paper, at, pin, back)
    mm = slashes.amount_mm
    if slashes.evenly:
        return push((away[0] * mm, away[1] * mm))
    rad = opening_rad(pin, at, abs(mm))
    if rad is None or mm <= 0:
        raise InvalidInput(
            "spread_too_wide", piece=paper.piece.name, most_measure_mm=distance(pin, at),
            field="amount",
        )
    one, other = turn(pin, rad), turn(pin, -rad)
    return one if _along(one(at), at, away) > 0 else other


def _away(paper: OnPaper, at: Point, pin: Point, back: bool) -> Point:
    """Square to the cut, towards what moves: the ring runs clockwise or not."""
    ring = paper.ring
    turned = sum(
        x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(ring, (*ring[1:], ring[0]), strict=True)
    )
    size = distance(pin, at)
    dx, dy = (at[0] - pin[0]) / size, (at[1] - pin[1]) / size
    side = 1.0 if (turned > 0) is not back else -1.0
    return dy * side, -dx * side


def _along(p: Point, q: Point, way: Point) -> float:
    return (p[0] - q[0]) * way[0] + (p[1] - q[1]) * way[1]


def _spread(paper: OnPaper, strips: Sequence[SlashStrip], moves: Sequence[Move]) -> OnPaper:
    """The strips where they come to lie, the gaps between them bridged along both edges."""
    laid = [
        tuple(tuple(moved_edge(e, move) for e in side) for side in strip)
        for strip, move in zip(strips, moves, strict=True)
    ]
    ring: list[SewnEdge] = []
    for side in (*(hinge for hinge, _ in laid), *(edge for _, edge in reversed(laid))):
        if side and ring:
            ring.append(_bridge(ring[-1], side[0]))
        ring += side
    ring.append(_bridge(ring[-1], ring[0]))
    shapes: list[Path] = [
        tuple(p for side in strip for e in side for p in e.path_mm) for strip in strips
    ]
    return replace(
        paper, edges=closed(ring), marks=moved_marks(paper.marks, shapes, moves),
        one_side=moved_one_side(paper.one_side, shapes, moves),
    )


def _bridge(first: SewnEdge, second: SewnEdge) -> SewnEdge:
    """A straight bit from the end of one line to the start of the next."""
    return replace(first, path_mm=(first.path_mm[-1], second.path_mm[0]), notches_mm=(),
                   double_notches_mm=())
