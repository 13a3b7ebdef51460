"""A traced edge made a clean outline: smooth lines between true corners."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from stash.eye.floor.find_sheets import Array
from stash.eye.outlines.edges import SPACING_MM, evenly
from stash.model import Point

CORNER_DEG = 24.0
ARM = (3, 14)  # points from a corner over which the lines that meet in it are fitted
SMOOTH_HALF = 9  # points on each side that a smoothed point is fitted to
KEEP_MM = 0.2  # how far the final outline may stray from the smoothed edge


def clean_outline(edge: Array) -> tuple[Point, ...]:
    """The outline of a traced edge (closed, in mm), not closed."""
    ring = evenly(edge, SPACING_MM)
    if len(ring) < 4 * ARM[1]:
        return _kept(ring)
    corners = corner_indices(ring)
    if not len(corners):
        return _kept(_smooth_loop(ring))
    met = [_meeting(ring, int(i)) for i in corners]
    parts = []
    for here, there, start in zip(corners, np.roll(corners, -1), met, strict=True):
        count = (int(there) - int(here)) % len(ring) or len(ring)
        between = ring[(int(here) + np.arange(count)) % len(ring)]
        parts += [np.array([start]), _smooth_stretch(between)]
    return _kept(np.vstack(parts))


def corner_indices(ring: Array) -> NDArray[np.int_]:
    """Where the edge turns sharply: the sharpest point of each such place."""
    turn = _turning(ring, *ARM)
    sharp = np.abs(turn) > np.radians(CORNER_DEG)
    reach = ARM[1]
    strongest = np.array([
        np.abs(np.take(turn, range(i - reach, i + reach + 1), mode="wrap")).max() if sharp[i] else 9
        for i in range(len(ring))
    ])
    return np.nonzero(sharp & (np.abs(turn) >= strongest))[0]


def _turning(ring: Array, near: int, far: int) -> Array:
    """The angle between the lines before and after each point."""
    before = np.roll(ring, near, axis=0) - np.roll(ring, far, axis=0)
    after = np.roll(ring, -far, axis=0) - np.roll(ring, -near, axis=0)
    cross = before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]
    return np.arctan2(cross, (before * after).sum(axis=1))


def _meeting(ring: Array, index: int) -> Array:
    """Where the lines fitted to both sides of a corner meet."""
    steps = np.arange(ARM[0], ARM[1] + 1)
    sides = [ring[(index + sign * steps) % len(ring)] for sign in (-1, 1)]
    (p, u), (q, v) = (_fitted_line(side) for side in sides)
    cross = u[0] * v[1] - u[1] * v[0]
    if abs(cross) < 0.2:
        return ring[index]
    along = ((q[0] - p[0]) * v[1] - (q[1] - p[1]) * v[0]) / cross
    corner = p + along * u
    return corner if np.hypot(*(corner - ring[index])) < 6 * SPACING_MM else ring[index]


def _fitted_line(points: Array) -> tuple[Array, Array]:
    """(a point, a direction) of the line nearest to points."""
    middle = points.mean(axis=0)
    _, _, directions = np.linalg.svd(points - middle)
    return middle, directions[0]


def _smooth_stretch(points: Array) -> Array:
    """The stretch between two corners, each point fitted to a parabola through its neighbours."""
    skip = ARM[0]
    kept = points[skip:-skip] if len(points) > 2 * skip + 5 else points[len(points) // 2 :][:1]
    if len(kept) < 5:
        return kept
    return np.array([_parabola(kept, i) for i in range(len(kept))])


def _smooth_loop(ring: Array) -> Array:
    wrapped = np.vstack([ring[-SMOOTH_HALF:], ring, ring[:SMOOTH_HALF]])
    return np.array([_parabola(wrapped, i + SMOOTH_HALF) for i in range(len(ring))])


def _parabola(points: Array, i: int) -> Array:
    """The i-th point of the parabola fitted to the points around it."""
    low, high = max(0, i - SMOOTH_HALF), min(len(points), i + SMOOTH_HALF + 1)
    t = np.arange(low, high) - i
    basis = np.stack([np.ones_like(t), t, t * t], axis=1).astype(float)
    fitted, *_ = np.linalg.lstsq(basis, points[low:high], rcond=None)
    return fitted[0]


def _kept(ring: Array) -> tuple[Point, ...]:
    """As few points as keep the line."""
    shape = Polygon(ring)
    if not shape.is_valid:
        parts = shapely.get_parts(shapely.make_valid(shape))
        shape = max((p for p in parts if isinstance(p, Polygon)), key=lambda p: p.area)
    simple = shape.simplify(KEEP_MM)
    assert isinstance(simple, Polygon)  # keeping its topology, a polygon stays one
    return tuple((float(x), float(y)) for x, y in simple.exterior.coords[:-1])
