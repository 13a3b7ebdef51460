"""No-fit regions: where the origin of one shape may not lie, seen from another.

B placed at p (A at the origin) overlaps A exactly when p lies inside the Minkowski
sum of A and -B (Adamowicz and Albano 1976). Sums are taken between convex parts and
united. They depend on the pieces only, never on the cloth, so they are remembered for
the next cut.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np
import shapely
from shapely import Polygon

from stash.lay.cloth.outlines import Flip, Ring, convex_parts
from stash.lay.nofit.minkowski import UNIT_MM, Parts, outline, whole

SLIVER_MM2 = 1e-3
GRID_MM = 1e-6  # without a grid the union now and then loses a part


@lru_cache(maxsize=20_000)
def between(a: Ring, b: Ring, flip: Flip) -> np.ndarray:
    """Edges (n, 4) x0 y0 x1 y1 round the no-fit region of ``b``, flipped, moving about ``a``."""
    return _region(_parts(a), _parts(b), flip)


def around(obstacle: Polygon, b: Ring, flip: Flip) -> np.ndarray:
    """Edges round the no-fit region of ``b``, flipped, moving about a fixed obstacle."""
    return _region(whole(convex_parts(obstacle)), _parts(b), flip)


@lru_cache(maxsize=2_000)
def _parts(ring: Ring) -> Parts:
    return whole(convex_parts(Polygon(ring)))


def _region(a: Parts, b: Parts, flip: Flip) -> np.ndarray:
    closed, sides = outline(a, b, -flip[0], -flip[1])
    return sides * UNIT_MM if closed else _edges(_united(_rings(a), _rings(b), flip))


def _rings(parts: Parts) -> list[np.ndarray]:
    return np.split(parts.corners * UNIT_MM, parts.first[1:-1])


def _united(a: list[np.ndarray], b: list[np.ndarray], flip: Flip) -> shapely.Geometry:
    """The region by shapely: slower, and sure."""
    clouds = [(p[:, None, :] - flip * q[None, :, :]).reshape(-1, 2) for p in a for q in b]
    owner = np.repeat(np.arange(len(clouds)), [len(c) for c in clouds])
    points = shapely.linestrings(np.vstack(clouds), indices=owner)
    return shapely.union_all(shapely.convex_hull(points), grid_size=GRID_MM)


def _edges(region: shapely.Geometry) -> np.ndarray:
    rings = shapely.get_rings(shapely.get_parts(region))
    corners = [np.asarray(r.coords) for r in rings if Polygon(r).area > SLIVER_MM2]
    return np.vstack([np.hstack([c[:-1], c[1:]]) for c in corners])
