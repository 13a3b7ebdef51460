"""Closed rings out of drawn lines, and the checks every foreign outline must pass."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import hypot, isfinite

import numpy as np
import shapely
from shapely.geometry import LineString, Polygon

from stash.errors import InvalidInput
from stash.model import Point

JOIN_MM = 0.3  # ends nearer than this are one point
CLEAN_MM = 0.02  # points nearer to the line through their neighbours are left out
LEAST_AREA_MM2 = 100.0
LONGEST_PIECE_MM = 20_000.0
MOST_POINTS = 200_000

Polyline = tuple[Point, ...]


def checked_ring(points: Iterable[Point], what: str) -> Polyline:
    """A sound simple ring, not closed; InvalidInput says what is wrong with ``what``."""
    ring = [(float(x), float(y)) for x, y in points]
    if not all(isfinite(x) and isfinite(y) for x, y in ring):
        raise InvalidInput("shape_not_numbers", shape=what)
    if len(set(ring)) < 3:
        raise InvalidInput("shape_of_two_points", shape=what)
    shape = Polygon(ring)
    left, low, right, high = shape.bounds
    if max(right - left, high - low) > LONGEST_PIECE_MM:
        raise InvalidInput(
            "shape_too_large", shape=what, across_length_mm=max(right - left, high - low))
    if not shape.is_valid:
        shape = _mended(shape, what)
    if shape.area < LEAST_AREA_MM2:
        raise InvalidInput("shape_too_small", shape=what, area_mm2=shape.area)
    clean = shapely.simplify(shape, CLEAN_MM)
    return tuple((float(x), float(y)) for x, y in clean.exterior.coords[:-1])


def _mended(shape: Polygon, what: str) -> Polygon:
    """The outline without tiny crossings; a line that truly crosses itself is refused."""
    parts = [p for p in shapely.get_parts(shapely.make_valid(shape)) if isinstance(p, Polygon)]
    best = max(parts, key=lambda p: p.area, default=Polygon())
    if best.area < 0.99 * sum(p.area for p in parts) or best.area == 0:
        raise InvalidInput("shape_crosses_itself", shape=what)
    return Polygon(best.exterior)


def is_closed(line: Sequence[Point]) -> bool:
    """True when a line ends where it began."""
    (x0, y0), (x1, y1) = line[0], line[-1]
    return len(line) > 3 and hypot(x1 - x0, y1 - y0) <= JOIN_MM


def closed_rings(lines: Sequence[Polyline]) -> list[Polyline]:
    """Every ring the lines make, end joined to end where two and only two ends meet.

    Takes lines in mm in any order and direction; lines that close nothing are left out.
    """
    rings = [line for line in lines if is_closed(line)]
    loose = [line for line in lines if len(line) > 1 and not is_closed(line)]
    if loose:
        rings += _polygonized(loose)
    return rings


def _polygonized(lines: Sequence[Polyline]) -> list[Polyline]:
    """Rings made by open lines whose ends meet within the joining distance."""
    ends = np.array([end for line in lines for end in (line[0], line[-1])])
    spots = [shapely.Point(end) for end in ends]
    tree = shapely.STRtree(spots)
    pairs = tree.query(spots, predicate="dwithin", distance=JOIN_MM)
    owner = np.arange(len(ends))
    for one, other in pairs.T:
        owner[one] = min(owner[one], owner[other], other)
    joined = [
        LineString([ends[owner[2 * i]], *line[1:-1], ends[owner[2 * i + 1]]])
        for i, line in enumerate(lines)
    ]
    merged = shapely.line_merge(shapely.union_all(joined))
    return [
        tuple(map(tuple, part.coords)) for part in shapely.get_parts(merged) if part.is_closed
    ]


def outermost(rings: Sequence[Polyline]) -> list[tuple[Polyline, list[int]]]:
    """(outer ring, indices of the rings inside it), for every ring that lies in no other."""
    shapes = [shapely.make_valid(Polygon(ring)) for ring in rings]
    order = sorted(range(len(rings)), key=lambda i: -shapes[i].area)
    tops: list[int] = []
    inside: dict[int, list[int]] = {}
    for i in order:
        spot = shapes[i].representative_point() if shapes[i].area else None
        holder = next((t for t in tops if spot and shapes[t].contains(spot)), None)
        if holder is None:
            tops.append(i)
            inside[i] = []
        else:
            inside[holder].append(i)
    return [(rings[t], inside[t]) for t in sorted(tops)]
