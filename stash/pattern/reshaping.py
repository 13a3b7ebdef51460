"""A piece's outline drawn anew, as over its photograph: what lies on it follows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from shapely.geometry import Polygon, box

from stash.errors import InvalidInput
from stash.model import Piece, Point
from stash.pattern.drawn import Drawn, opened_out
from stash.pattern.edge_marks import on_new_edge
from stash.pattern.lying import drawn_of, moved_to
from stash.pattern.rings import checked_ring
from stash.pattern.seam_allowance import known_mm, with_stitching

FOLD = ((0.0, 0.0), (1.0, 0.0))
FAR_MM = 1e5


def edited_ring(piece: Piece) -> tuple[Point, ...]:
    """The outline as it is corrected: of a piece on the fold its half, over the photograph."""
    if not piece.on_fold:
        return piece.outline_mm
    low, high = (-FAR_MM, 0.0) if piece.under and piece.under.middle_mm[1] < 0 else (0.0, FAR_MM)
    half = Polygon(piece.outline_mm).intersection(box(-FAR_MM, low, FAR_MM, high))
    if not isinstance(half, Polygon):
        raise InvalidInput("fold_not_on_edge", piece=piece.name, field="outline")
    return tuple((float(x), float(y)) for x, y in half.exterior.coords[:-1])


def reshaped(piece: Piece, ring: Sequence[Point]) -> Piece:
    """The piece with this outline, as :func:`edited_ring` gave it and somebody moved its points.

    A half is opened out again; an allowance that is the same all round lies as far inside as
    before, and notches of the edge go with it. InvalidInput when it is no outline.
    """
    drawn = checked_ring(ring, f"The piece “{piece.name}”")
    if piece.on_fold:
        drawn = opened_out(Drawn(name=piece.name, ring=drawn), FOLD).ring
    drawn_on = on_new_edge(replace(piece, outline_mm=drawn), piece)
    moved = moved_to(drawn_on, drawn_of(drawn_on), keep_y=piece.on_fold)
    allowed = known_mm(piece)
    return moved if allowed is None else with_stitching(moved, allowed)
