"""Minkowski sums of two shapes that have been cut into convex parts.

Corners are whole numbers of a tiny unit, so sums are exact, and so is on which side of
a line a corner lies. A side made from a seam, where two parts of one shape meet, is
inside the whole sum and is marked, as it can never be on its outline.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from stash.lay.compiled import inner, kernel
from stash.lay.nofit.union import united

UNIT_MM = 2.0**-16


class Parts(NamedTuple):
    """Strictly convex rings, counter-clockwise, each from its lowest corner (leftmost of those).

    corners (n, 2) in units; ``first`` (parts + 1) where each ring begins; seam (n,): the
    side that begins there is shared with another part.
    """

    corners: np.ndarray
    first: np.ndarray
    seam: np.ndarray


def whole(rings: list[np.ndarray]) -> Parts:
    """Convex rings in mm as parts: corners go to the nearest unit."""
    hulls = [_ring(np.rint(np.asarray(r) / UNIT_MM).astype(np.int64).tolist()) for r in rings]
    sides = [(h[k - 1], h[k]) for h in hulls for k in (*range(1, len(h)), 0)]
    known = set(sides)
    return Parts(
        np.array([corner for h in hulls for corner in h], np.int64).reshape(-1, 2),
        np.cumsum([0, *map(len, hulls)], dtype=np.int64),
        np.array([(end, start) in known for start, end in sides], np.bool_),
    )


def _ring(points: list[list[int]]) -> list[tuple[int, int]]:
    """The hull; of points in a line, the hull of the units that begin there."""
    hull = _hull(points)
    return hull or _hull([[x + i, y + j] for x, y in points for i in (0, 1) for j in (0, 1)])


def _hull(points: list[list[int]]) -> list[tuple[int, int]]:
    """Andrew's monotone chain (1979) from the lowest point, in whole numbers; none of a line."""
    ordered = sorted({(y, x) for x, y in points})
    hull: list[tuple[int, int]] = []
    for way in (ordered, ordered[::-1]):
        base = len(hull)
        for y, x in way:
            while len(hull) > base + 1 and not _left(hull[-2], hull[-1], (x, y)):
                hull.pop()
            hull.append((x, y))
        hull.pop()
    return hull if len(hull) > 2 else []


def _left(a: tuple[int, int], b: tuple[int, int], c: tuple[int, int]) -> bool:
    return (b[0] - a[0]) * (c[1] - a[1]) > (b[1] - a[1]) * (c[0] - a[0])


@kernel
def outline(a: Parts, b: Parts, flip_x: int, flip_y: int) -> tuple[bool, np.ndarray]:
    """(closed, sides (n, 4) in units) round a plus b, b flipped by factors of +-1."""
    corners, first, seam = _sums(a, _flipped(b, flip_x, flip_y))
    return united(corners, first, seam)


@inner
def _flipped(parts: Parts, flip_x: int, flip_y: int) -> Parts:
    """The parts times +-1 along each axis."""
    corners, seam = np.empty_like(parts.corners), np.empty_like(parts.seam)
    step = 1 if flip_x * flip_y > 0 else -1
    for part in range(len(parts.first) - 1):
        a, n = parts.first[part], parts.first[part + 1] - parts.first[part]
        lowest = 0
        for k in range(1, n):
            x, y = parts.corners[a + k, 0] * flip_x, parts.corners[a + k, 1] * flip_y
            low_x = parts.corners[a + lowest, 0] * flip_x
            low_y = parts.corners[a + lowest, 1] * flip_y
            if y < low_y or (y == low_y and x < low_x):
                lowest = k
        for k in range(n):
            at = (lowest + step * k + n) % n
            corners[a + k, 0] = parts.corners[a + at, 0] * flip_x
            corners[a + k, 1] = parts.corners[a + at, 1] * flip_y
            seam[a + k] = parts.seam[a + (at if step > 0 else (at - 1 + n) % n)]
    return Parts(corners, parts.first, seam)


@inner
def _sums(a: Parts, b: Parts) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """(corners, first, seam) of the sum of every part of a with every part of b."""
    parts_a, parts_b = len(a.first) - 1, len(b.first) - 1
    most = len(a.corners) * parts_b + len(b.corners) * parts_a
    corners, seam = np.empty((most, 2), np.int64), np.empty(most, np.bool_)
    first = np.zeros(parts_a * parts_b + 1, np.int64)
    used = 0
    for p in range(parts_a):
        for q in range(parts_b):
            used = _sum(a, p, b, q, corners, seam, used)
            first[p * parts_b + q + 1] = used
    return corners[:used], first, seam[:used]


@inner
def _sum(
    a: Parts, p: int, b: Parts, q: int, corners: np.ndarray, seam: np.ndarray, used: int
) -> int:
    """Append the sum of two convex parts: the sides of both, in order of direction."""
    p0, n = a.first[p], a.first[p + 1] - a.first[p]
    q0, m = b.first[q], b.first[q + 1] - b.first[q]
    i, j = 0, 0
    while i < n or j < m:
        here, there = p0 + i % n, q0 + j % m
        after, beyond = p0 + (i + 1) % n, q0 + (j + 1) % m
        turn = (a.corners[after, 0] - a.corners[here, 0]) * (
            b.corners[beyond, 1] - b.corners[there, 1]
        ) - (a.corners[after, 1] - a.corners[here, 1]) * (
            b.corners[beyond, 0] - b.corners[there, 0]
        )
        from_a = i < n and (j == m or turn >= 0)
        from_b = j < m and (i == n or turn <= 0)
        corners[used, 0] = a.corners[here, 0] + b.corners[there, 0]
        corners[used, 1] = a.corners[here, 1] + b.corners[there, 1]
        seam[used] = (from_a and a.seam[here]) or (from_b and b.seam[there])
        used += 1
        i += from_a
        j += from_b
    return used
