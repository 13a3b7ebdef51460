"""No-fit regions: where the origin of one shape may not lie, seen from another.

B placed at p (A at the origin) overlaps A exactly when p lies inside the Minkowski
sum of A and -B (Adamowicz and Albano 1976). Sums are taken between convex parts,
where the sum is the hull of all vertex sums, and united. They depend on the pieces
only, never on the cloth, so they are remembered for the next cut.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np
import shapely
from shapely import Polygon

from stash.lay.shapes import Ring, convex_parts

Flip = tuple[int, int]
SLIVER_MM2 = 1e-3


@lru_cache(maxsize=20_000)
def between(a: Ring, b: Ring, flip: Flip) -> np.ndarray:
    """Edges (n, 4) x0 y0 x1 y1 round the no-fit region of ``b``, flipped, moving about ``a``."""
    return _edges(_sum(_parts(a), [p * flip for p in _parts(b)]))


def around(obstacle: Polygon, b: Ring, flip: Flip) -> np.ndarray:
    """Edges round the no-fit region of ``b``, flipped, moving about a fixed obstacle."""
    return _edges(_sum(convex_parts(obstacle), [p * flip for p in _parts(b)]))


@lru_cache(maxsize=2_000)
def _parts(ring: Ring) -> list[np.ndarray]:
    return convex_parts(Polygon(ring))


def _sum(a: list[np.ndarray], b: list[np.ndarray]) -> shapely.Geometry:
    clouds = [(p[:, None, :] - q[None, :, :]).reshape(-1, 2) for p in a for q in b]
    points = shapely.points(np.vstack(clouds))
    owner = np.repeat(np.arange(len(clouds)), [len(c) for c in clouds])
    return shapely.union_all(shapely.convex_hull(shapely.multipoints(points, indices=owner)))


def _edges(region: shapely.Geometry) -> np.ndarray:
    rings = shapely.get_rings(shapely.get_parts(region))
    corners = [np.asarray(r.coords) for r in rings if Polygon(r).area > SLIVER_MM2]
    return np.vstack([np.hstack([c[:-1], c[1:]]) for c in corners])
