"""What was offered of a traced piece and kept: notches, mended dips, the grain as it was drawn."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace

import shapely
from shapely.geometry import Polygon

from stash.errors import InvalidInput
from stash.eye.paper_marks.notches import SeenNotch
from stash.model import Piece, Point
from stash.pattern.drawn import Reading
from stash.pattern.lying import turned_by
from stash.pattern.pointing import on_outline
from stash.pattern.rings import checked_ring
from stash.pattern.traced import TracedOver, upright_sizes

GRAINS = ("longest", "sheet", "arrow")
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
    return turned_by(marked, grain_deg) if grain_deg else marked


def as_kept(
    found: TracedOver, grain: str = GRAINS[0], notches: Collection[tuple[int, int]] = ()
) -> Reading:
    """The traced pieces with their grain along x, and with those of the notches that were seen.

    ``notches`` are kept by the piece's number and their own on it, both from 0. ``grain``
    "longest" runs along the longest axis of each piece, "sheet" along the long side of the first
    calibration sheet, "arrow" along the arrow on the paper, or the longest axis of a piece that
    has none.
    """
    if grain not in GRAINS:
        raise InvalidInput("grain_along_what", typed=grain)
    pieces = tuple(
        with_marks(
            piece, piece.outline_mm,
            [notch for k, notch in enumerate(found.drawn[n].notches) if (n, k) in notches],
            _grain_deg(found, n, grain))
        for n, piece in enumerate(found.reading.pieces))
    return upright_sizes(replace(found.reading, pieces=pieces))


def _grain_deg(found: TracedOver, n: int, grain: str) -> float:
    arrow = found.drawn[n].grain if grain == "arrow" else None
    return arrow.turn_deg if arrow else found.sheet_deg[n] if grain == "sheet" else 0.0


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
