"""What was offered of a traced piece and kept: notches, mended dips, the grain as it was drawn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import shapely
from shapely.geometry import Polygon

from stash.eye.paper_marks.notches import SeenNotch
from stash.model import Piece, Point
from stash.pattern.correcting import PieceChange, corrected
from stash.pattern.pointing import on_outline
from stash.pattern.rings import checked_ring

SEAM_MM = 0.05  # by which a mended dip overlaps the outline, so that the two are one


def with_marks(
    piece: Piece, ring_mm: Sequence[Point], notches: Sequence[SeenNotch], grain_deg: float
) -> Piece:
    """The piece with this outline, these notches on it, and its grain turned along x.

    Where a notch was cut in, the outline is straight again. ``grain_deg`` is how the grain
    runs in the outline as it lies, counter-clockwise from x.
    """
    whole = _mended(ring_mm, [n.dip_mm for n in notches if n.dip_mm])
    drawn = replace(piece, outline_mm=whole)
    marked = replace(drawn, notches_mm=tuple(on_outline(drawn, n.at_mm) for n in notches))
    return corrected(marked, PieceChange(grain_deg=grain_deg)) if grain_deg else marked


def _mended(ring: Sequence[Point], dips: Sequence[Sequence[Point]]) -> tuple[Point, ...]:
    """The outline with these dips filled."""
    if not dips:
        return tuple(ring)
    filled = shapely.union_all([Polygon(ring), *(Polygon(d).buffer(SEAM_MM) for d in dips)])
    if not isinstance(filled, Polygon):
        return tuple(ring)
    simple = filled.simplify(2 * SEAM_MM)
    assert isinstance(simple, Polygon)  # keeping its topology, a polygon stays one
    return checked_ring([(float(x), float(y)) for x, y in simple.exterior.coords[:-1]],
                        "The outline")
