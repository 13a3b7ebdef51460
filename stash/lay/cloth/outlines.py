"""Outlines as polygons: checked, simplified without ever losing area, cut into convex parts."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from math import cos, isfinite, radians, sin
from typing import cast

import numpy as np
import shapely
from shapely import Polygon
from shapely.geometry.polygon import orient

from stash.errors import InvalidInput

Corner = tuple[float, float]
Side = tuple[Corner, Corner]
Ring = tuple[Corner, ...]
Flip = tuple[int, int]  # factors of x and y

MOST_POINTS = 20_000
FINE_POINTS = 60  # outlines with more points than this are simplified, always outward
MOST_CORNERS = 250  # an outline still rougher than this is laid by its convex hull
FINEST_MM = 0.05
COARSEST_MM = 2.0


def piece_polygon(name: str, ring: Sequence[tuple[float, float]]) -> Polygon:
    """The polygon of a piece; InvalidInput when the ring is not a simple closed outline."""
    if len(ring) < 3:
        raise InvalidInput("outline_too_short", piece=name)
    if len(ring) > MOST_POINTS:
        raise InvalidInput(
            "outline_too_long", piece=name, points=len(ring), most_points=MOST_POINTS)
    if not all(isfinite(x) and isfinite(y) for x, y in ring):
        raise InvalidInput("outline_not_numbers", piece=name)
    polygon = Polygon(ring)
    if polygon.area <= 0 or not polygon.is_valid:
        flat = polygon.convex_hull.area <= 0
        raise InvalidInput("outline_without_area" if flat else "outline_crosses_itself", piece=name)
    return orient(polygon)


def corners(polygon: Polygon) -> Ring:
    """The outline of a polygon, its first corner not said again at the end."""
    return tuple((x, y) for x, y, *_ in polygon.exterior.coords[:-1])


@lru_cache(maxsize=512)
def grown(ring: Ring, by_mm: float) -> Ring:
    """The ring with ``by_mm`` of room all round, simplified outward when it has many points.

    The result always contains the ring grown by ``by_mm`` (mitred), so a lay of grown
    rings is a lay of the pieces themselves.
    """
    polygon = Polygon(ring)
    rim = polygon
    if by_mm > 0:
        rim = polygon.buffer(by_mm, join_style="mitre", mitre_limit=3.0)
    wide = Polygon(rim.exterior)
    tolerance_mm = FINEST_MM
    plain = wide
    while len(plain.exterior.coords) > FINE_POINTS and tolerance_mm <= COARSEST_MM:
        plain = _simplified_outward(wide, tolerance_mm)
        tolerance_mm *= 2
    if len(plain.exterior.coords) > MOST_CORNERS:
        plain = cast(Polygon, wide.convex_hull)
    return corners(orient(plain))


def _simplified_outward(polygon: Polygon, tolerance_mm: float) -> Polygon:
    wide = polygon.buffer(tolerance_mm, join_style="mitre", mitre_limit=2.0)
    plain = Polygon(cast(Polygon, wide.simplify(tolerance_mm)).exterior)
    return plain if plain.is_valid and plain.contains(polygon) else polygon


def convex_parts(polygon: Polygon) -> list[np.ndarray]:
    """The polygon as few convex rings: triangles, merged across shared edges while convex."""
    hull = polygon.convex_hull
    if not polygon.interiors and hull.area - polygon.area <= 1e-9 * hull.area:
        return [np.asarray(corners(orient(cast(Polygon, hull))))]
    triangles = shapely.constrained_delaunay_triangles(polygon).geoms
    parts = {k: list(corners(orient(cast(Polygon, t)))) for k, t in enumerate(triangles)}
    _merge_convex(parts)
    return [np.asarray(p) for p in parts.values()]


def _merge_convex(parts: dict[int, list[Corner]]) -> None:
    owner = {edge: k for k, ring in parts.items() for edge in _edges(ring)}
    for edge in list(owner):
        here, there = owner.get(edge), owner.get(edge[::-1])
        if here is None or there is None or here == there:
            continue
        joined = _joined(parts[here], parts[there], edge)
        if joined is None:
            continue
        for gone in _edges(parts.pop(there)):
            owner[gone] = here
        parts[here] = joined
        owner.pop(edge, None)
        owner.pop(edge[::-1], None)


def _joined(a: list[Corner], b: list[Corner], edge: Side) -> list[Corner] | None:
    """The two rings as one without their common edge; None when that is not convex."""
    start, end = edge
    i, j = a.index(end), b.index(start)
    ring = a[i:] + a[:i] + (b[j:] + b[:j])[1:-1]
    if len(set(ring)) != len(ring):
        return None
    return ring if _convex_at(ring, 0) and _convex_at(ring, len(a) - 1) else None


def _convex_at(ring: list[Corner], k: int) -> bool:
    """Only where two rings were joined can the joint one have lost its convexity."""
    (x0, y0), (x1, y1), (x2, y2) = ring[k - 1], ring[k], ring[(k + 1) % len(ring)]
    return (x1 - x0) * (y2 - y1) - (y1 - y0) * (x2 - x1) >= -1e-9


def _edges(ring: list[Corner]) -> list[Side]:
    return list(zip(ring, ring[1:] + ring[:1], strict=True))


def turned(ring: Ring, angle_deg: float) -> Ring:
    """The ring turned counter-clockwise about the origin."""
    if not angle_deg:
        return ring
    c, s = cos(radians(angle_deg)), sin(radians(angle_deg))
    if angle_deg == 90:
        c, s = 0.0, 1.0
    return tuple((x * c - y * s, x * s + y * c) for x, y in ring)
