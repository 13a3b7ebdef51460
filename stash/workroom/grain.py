"""Where the grain of a cut runs, pointed out by the person: an arrow turned, or a selvedge."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import atan2, cos, degrees, hypot, radians, sin

from stash.errors import Conflict, InvalidInput
from stash.ledger.grain import GrainBy
from stash.ledger.selvedges import still_edges
from stash.ledger.shapes import from_polygon, polygon
from stash.model import Outline
from stash.model.outline import Point, SelvedgeLine
from stash.store import Stash
from stash.workroom.cuts import CutRecorded
from stash.workroom.grain_kept import grain_is_presumed, keep_grain
from stash.workroom.recorded import Recorded

__all__ = [
    "GrainBy", "StraightEdge", "edges_along", "grain_is_presumed", "straight_edges", "turn_grain",
]

MOST_EDGES = 6
STRAIGHT_MM = 5.0
"""A side that bends by less than this is one edge to the eye."""
ALONG_DEG = 3.0
LEAST_SHARE = 0.15
"""An edge shorter than this share of the longest is not offered."""


@dataclass(frozen=True, kw_only=True)
class StraightEdge:
    """A side that may be the selvedge; ``turn_deg`` is how it runs, from the length upward."""

    start_mm: Point
    stop_mm: Point
    length_mm: float
    turn_deg: float


def straight_edges(outline: Outline) -> tuple[StraightEdge, ...]:
    """The straight sides of an outline, longest first."""
    ring = list(polygon(outline).exterior.simplify(STRAIGHT_MM).coords)
    found = [_edge(a, b) for a, b in pairwise((x, y) for x, y, *_ in ring)]
    found.sort(key=lambda edge: -edge.length_mm)
    return tuple(
        edge for edge in found[:MOST_EDGES]
        if edge.length_mm >= LEAST_SHARE * found[0].length_mm)


def edges_along(outline: Outline) -> tuple[tuple[SelvedgeLine, float], ...]:
    """(edge, its length in mm) of every straight side along the grain, longest first."""
    return tuple(((edge.start_mm, edge.stop_mm), edge.length_mm)
                 for edge in straight_edges(outline) if abs(edge.turn_deg) < ALONG_DEG)


def _edge(start: Point, stop: Point) -> StraightEdge:
    along, across = stop[0] - start[0], stop[1] - start[1]
    turn_deg = (degrees(atan2(across, along)) + 90) % 180 - 90
    return StraightEdge(
        start_mm=start, stop_mm=stop, length_mm=hypot(along, across), turn_deg=turn_deg)


def turn_grain(
    stash: Stash, code: str, turn_deg: float, token: str | None = None, *,
    by: GrainBy = GrainBy.TOLD, selvedge_mm: SelvedgeLine | None = None,
) -> CutRecorded:
    """The grain runs so far from the length of the outline, counter-clockwise.

    The outline is laid with its grain lengthwise; ``selvedge_mm`` is the edge that told.
    Conflict while a plan holds some of it: its lay was made for the outline as it was.
    """
    if not -180 <= turn_deg <= 180:
        raise InvalidInput("turn_out_of_range", field="turn")
    from shapely import affinity  # loaded with the first such outline only

    with stash.act(token) as act:
        card = stash.cuts.card(code)
        outline = stash.cuts.get(code).outline
        if card.holds and turn_deg:
            raise Conflict("held_with_its_grain", plan=card.holds[0].plan)
        turned, lines = outline, () if turn_deg else stash.cuts.get(code).selvedges_mm
        if selvedge_mm:
            lines = (*(one for one in lines if one != selvedge_mm), selvedge_mm)
        if turn_deg:
            turned = from_polygon(affinity.rotate(polygon(outline), -turn_deg, origin=(0, 0)))
            lines = tuple(_turned(line, -turn_deg) for line in lines)
        event = stash.cuts.remeasure(
            code, turned, selvedges_mm=still_edges(lines, turned, STRAIGHT_MM),
            width_presumed=stash.cuts.get(code).width_presumed)
        keep_grain(stash, event.code, by)
    return Recorded(
        event=act.event or act.earlier or event, now=stash.cuts.card(event.code))


def _turned(line: SelvedgeLine, turn_deg: float) -> SelvedgeLine:
    """Counter-clockwise about the origin."""
    c, s = cos(radians(turn_deg)), sin(radians(turn_deg))
    (x0, y0), (x1, y1) = line
    return (x0 * c - y0 * s, x0 * s + y0 * c), (x1 * c - y1 * s, x1 * s + y1 * c)
