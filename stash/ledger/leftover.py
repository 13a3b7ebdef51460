"""What is left of a cut once a lay has been cut out of it: its true shape, and the remnants."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from stash.errors import Conflict
from stash.ledger.shapes import from_polygon, polygon
from stash.model import Outline
from stash.model.cloth import REMNANT_MM

SLIVER_MM = 40.0
"""Strips narrower than this between pieces are waste: common practice, no source."""
SMOOTH_MM = 1.0
"""Corners of a leftover may move by this much: less than shears can follow."""
GRID_MM = 0.01
"""All corners lie on this grid: geometry that is nearly, not quite, touching misleads GEOS."""


@dataclass(frozen=True, kw_only=True)
class Leftover:
    """``rest`` is the largest part, in the cut's frame; ``remnants`` the others, largest first.

    ``waste_mm2`` is what is left over and too narrow or too small to keep.
    """

    rest: Outline | None
    remnants: tuple[Outline, ...]
    waste_mm2: float


def leftover(
    cloth: Outline, pieces: Sequence[Polygon], *, least_mm: float = REMNANT_MM,
    keep: Sequence[Polygon] = (),
) -> Leftover:
    """Take the pieces, as they were laid in the cloth's frame, out of the cloth.

    What does not take a circle of ``least_mm`` across is rag. ``keep`` are pieces that are
    still to be cut: the cloth under them stays, and ``rest`` is the part they lie on;
    Conflict when they lie on parts that have come apart.
    """
    used = shapely.union_all(shapely.set_precision(pieces, GRID_MM), grid_size=GRID_MM)
    remains = shapely.difference(polygon(cloth), used, grid_size=GRID_MM)
    kept = _without_slivers(remains)
    needed: BaseGeometry = Polygon()
    if keep:
        needed = shapely.union_all(shapely.set_precision(keep, GRID_MM), grid_size=GRID_MM)
        needed = shapely.intersection(remains, needed, grid_size=GRID_MM)
        kept = shapely.union_all(
            [part for shape in (kept, needed) for part in shapely.get_parts(shape)
             if isinstance(part, Polygon)], grid_size=GRID_MM)
    parts = sorted(
        (p for p in shapely.get_parts(kept)
         if worth_a_label(p, least_mm) or (keep and p.intersection(needed).area > 0)),
        key=lambda p: (not _carries(p, keep), -p.area),
    )
    if sum(_carries(part, keep) for part in parts) > 1:
        raise Conflict("pieces_come_apart")
    outlines = [from_polygon(part) for part in parts]
    return Leftover(
        rest=outlines[0] if outlines else None,
        remnants=tuple(outlines[1:]),
        waste_mm2=remains.area - sum(part.area for part in parts),
    )


def _carries(part: Polygon, keep: Sequence[Polygon]) -> bool:
    return any(part.intersection(piece).area > piece.area / 2 for piece in keep)


def _without_slivers(shape: BaseGeometry) -> BaseGeometry:
    """Shrink and grow again: whatever was narrower than a sliver does not come back."""
    half = SLIVER_MM / 2
    with np.errstate(all="ignore"):  # GEOS divides by nothing at nearly parallel edges, harmlessly
        shrunk = shapely.set_precision(_grown(shape, -half), GRID_MM)
        opened = _grown(shrunk.simplify(SMOOTH_MM), half)
    return shapely.intersection(opened, shape, grid_size=GRID_MM)


def _grown(shape: BaseGeometry, by_mm: float) -> BaseGeometry:
    """By so much all round; right angles stay, spikes do not."""
    return shape.buffer(by_mm, join_style="mitre", mitre_limit=2.0)


def worth_a_label(part: object, least_mm: float) -> bool:
    """Whether it is cloth that takes a circle so wide; what does not is rag."""
    return isinstance(part, Polygon) and not part.buffer(-least_mm / 2).is_empty
