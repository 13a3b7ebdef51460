"""The seam allowance of a piece of her own: added, found inside the outline, or none.

A notch of the cut edge stays in the cut edge.
"""

from __future__ import annotations

from dataclasses import replace

from shapely.geometry import JOIN_STYLE, Polygon

from stash.errors import InvalidInput
from stash.model import Piece, Point
from stash.pattern.edge_marks import on_new_edge

MITRE = 2.5
MOST_MM = 100.0
EDGE = "edge"


def known_mm(piece: Piece) -> float | None:
    """The allowance that is the same all round; None where it is not known or differs."""
    match piece.allowances_mm:
        case ((name, mm),) if name == EDGE:
            return mm
    return None


def with_allowance(piece: Piece, mm: float) -> Piece:
    """So much is cut beyond the stitching line: the one there is, else the outline so far."""
    if not 0 < mm <= MOST_MM:
        raise InvalidInput("allowance_out_of_range", most_measure_mm=MOST_MM, field="allowance")
    sewn = piece.stitch_mm or piece.outline_mm
    wide = Polygon(sewn).buffer(mm, join_style=JOIN_STYLE.mitre, mitre_limit=MITRE)
    return on_new_edge(replace(
        piece, outline_mm=_ring(wide), stitch_mm=sewn, allowances_mm=((EDGE, mm),), edges=(),
    ), piece)


def with_stitching(piece: Piece, mm: float) -> Piece:
    """The stitching line found inside an outline that holds its allowance already."""
    if mm == 0:
        return replace(
            piece, stitch_mm=piece.outline_mm, allowances_mm=((EDGE, 0.0),), edges=()
        )
    sewn = Polygon(piece.outline_mm).buffer(-mm, join_style=JOIN_STYLE.mitre, mitre_limit=MITRE)
    if not isinstance(sewn, Polygon) or sewn.is_empty:
        raise InvalidInput("allowance_fills_piece", piece=piece.name, field="included")
    return replace(piece, stitch_mm=_ring(sewn), allowances_mm=((EDGE, mm),), edges=())


def without_allowance(piece: Piece) -> Piece:
    """Cut along its stitching line, where there is one: nothing is allowed beyond it."""
    sewn = piece.stitch_mm or piece.outline_mm
    return on_new_edge(replace(
        piece, outline_mm=sewn, stitch_mm=sewn, allowances_mm=((EDGE, 0.0),), edges=()
    ), piece)


def _ring(shape: Polygon) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in shape.exterior.coords[:-1])
