"""From the stitching line to the cutting line: every edge moves out by its own allowance.

Its limits are chosen here, so that corners stay whole.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot

import shapely
from shapely import LineString, Polygon
from shapely import Point as Place

from stash.draft.geometry import Path, distance, length
from stash.model import Point

FOLD = "fold"  # the edge of a half panel along which it is opened out
NOTHING_MM = 1e-6
# A corner runs out to at most this many allowances, then it is cut off square: chosen here.
MITRE = 2.5
BLUNT = (0.17, 0.94)  # cosines of how far the line turns at a corner of 100 and of 160 degrees


@dataclass(frozen=True)
class Edge:
    """A named edge of a piece: its stitching line and what is allowed beyond it.

    ``turned`` says the allowance is folded back along the edge (a hem, a casing,
    a facing cut on), so its ends mirror the neighbouring edges and lie flat when folded.
    """

    name: str
    path: Path
    allowance_mm: float = 0.0
    turned: bool = False


def cutting_line(edges: Sequence[Edge]) -> Path:
    """The cutting outline of edges that close a ring, not closed (first point once).

    Empty when the edges enclose nothing; ``soundness`` then says which piece it is.
    """
    edges = [e for e in edges if length(e.path) > NOTHING_MM]
    ring = [p for e in edges for p in e.path[:-1]]
    if abs(_signed_area(ring)) < NOTHING_MM:
        return ()
    outward = 1.0 if _signed_area(ring) < 0 else -1.0
    moved = [_moved(e, outward) for e in edges]
    corners = [
        _corner(edges[i - 1], edges[i], moved[i - 1], moved[i]) for i in range(len(edges))
    ]
    line: list[Point] = []
    for i, path in enumerate(moved):
        into, out = corners[i], corners[(i + 1) % len(edges)]
        line.extend(into.points)
        line.extend(path[into.starts_at : out.ends_at(len(path))])
    return _clean(line)


@dataclass(frozen=True)
class _Corner:
    """Points between two moved edges, and how many of their own points are cut away."""

    points: tuple[Point, ...]
    cut_before: int = 0
    starts_at: int = 0

    def ends_at(self, count: int) -> int:
        return count - self.cut_before


def _moved(edge: Edge, outward: float) -> Path:
    """The edge's path shifted square to itself; inner corners are mitred."""
    path = [p for p, q in zip(edge.path, edge.path[1:], strict=False) if p != q] + [edge.path[-1]]
    normals = [_normal(a, b, outward) for a, b in zip(path, path[1:], strict=False)]
    result: list[Point] = []
    for i, (x, y) in enumerate(path):
        before, after = normals[max(0, i - 1)], normals[min(i, len(normals) - 1)]
        scale = edge.allowance_mm / max(0.2, (1 + before[0] * after[0] + before[1] * after[1]))
        result.append((x + (before[0] + after[0]) * scale, y + (before[1] + after[1]) * scale))
    return tuple(result)


def _corner(first: Edge, second: Edge, a: Path, b: Path) -> _Corner:
    """How edge ``first`` runs into edge ``second`` beyond their common corner."""
    if FOLD in (first.name, second.name):
        return _plain(a, b)
    if second.turned and not first.turned:
        return _folded(second.path[:2], a, b)
    if first.turned and not second.turned:
        return _folded_before(first, a, b)
    crossing = _cross_paths(a, b)
    if crossing is not None:
        return crossing
    if not first.turned and _blunt(first.path, second.path):
        if second.allowance_mm and not first.allowance_mm:
            return _folded(second.path[:2], a, b)
        if first.allowance_mm and not second.allowance_mm:
            return _folded_before(first, a, b)
    reach = MITRE * max(first.allowance_mm, second.allowance_mm, 1.0)
    plain, corner = _plain(a, b), first.path[-1]
    meeting = plain.points[0]
    if len(plain.points) == 2 or distance(meeting, corner) <= reach:
        return plain
    if _runs_on(a, b):
        return _Corner((a[-1], b[0]), 1, 1)
    return _Corner((_beyond(a[-2], a[-1], reach / 2), _beyond(b[1], b[0], reach / 2)), 1, 1)


def _folded_before(first: Edge, a: Path, b: Path) -> _Corner:
    """The same where the edge that is folded back ends here."""
    other = _folded(first.path[:-3:-1], b[::-1], a[::-1])
    return _Corner(other.points[::-1], cut_before=other.starts_at, starts_at=other.cut_before)


def _blunt(first: Path, second: Path) -> bool:
    """An outward corner between 100 and 160 degrees. Beside an edge that is bound, an allowance
    that ran on along it would taper to nothing; pressed open it must lie under that edge.
    """
    (ax, ay), (bx, by) = _normal(first[-2], first[-1], 1.0), _normal(second[0], second[1], 1.0)
    return BLUNT[0] < ax * bx + ay * by < BLUNT[1]


def _runs_on(a: Path, b: Path) -> bool:
    """True when b goes on in nearly a's direction: a wider allowance then starts with a step."""
    (ax, ay), (bx, by) = _normal(a[-2], a[-1], 1.0), _normal(b[0], b[1], 1.0)
    return ax * bx + ay * by > 0.5


def _plain(a: Path, b: Path) -> _Corner:
    """The moved edges run on straight until they meet; parallel ones are joined."""
    meeting = _meet(a[-2], a[-1], b[1], b[0])
    return _Corner((a[-1], b[0]) if meeting is None else (meeting,), 1, 1)


def _folded(fold: Path, side: Path, hem: Path) -> _Corner:
    """The end of a turned allowance: the side's cutting line, mirrored in the fold.

    All three paths are given so that ``side`` ends and ``fold`` and ``hem`` begin here.
    """
    fold_a, fold_b = fold
    at_fold = _meet(side[-2], side[-1], fold_a, fold_b)
    if at_fold is None:
        return _Corner((side[-1], hem[0]), 1, 1)
    image = _mirror_in(side[-2] if side[-2] != at_fold else side[-1], fold_a, fold_b)
    at_edge = _meet(image, at_fold, hem[0], hem[1])
    if at_edge is None:
        return _Corner((at_fold, hem[0]), 1, 1)
    return _Corner((at_fold, at_edge), 1, 1)


def _cross_paths(a: Path, b: Path) -> _Corner | None:
    """Where two moved edges cross at an inward corner, both are cut back to the crossing."""
    on_a, on_b = LineString(a), LineString(b)
    hits = on_a.intersection(on_b)
    if hits.is_empty:
        return None
    hit = hits if isinstance(hits, Place) else hits.representative_point()
    at_a, at_b = on_a.project(hit), on_b.project(hit)
    cut_before = sum(on_a.project(Place(p)) >= at_a for p in a)
    starts_at = sum(on_b.project(Place(p)) <= at_b for p in b)
    return _Corner(((hit.x, hit.y),), cut_before, starts_at)


def _clean(points: Sequence[Point]) -> Path:
    """Drop repeated and needless points and any loop an inward curve has thrown."""
    parts = shapely.get_parts(Polygon(points).buffer(0))
    if len(parts) == 0:
        return ()
    shape = max(parts, key=lambda part: float(part.area))
    return tuple((x, y) for x, y in shape.exterior.simplify(0.05).coords[:-1])


def _normal(a: Point, b: Point, outward: float) -> Point:
    dx, dy = b[0] - a[0], b[1] - a[1]
    size = hypot(dx, dy) or 1.0
    return -dy / size * outward, dx / size * outward


def _meet(a: Point, b: Point, c: Point, d: Point) -> Point | None:
    """Where the line through a, b meets the line through c, d; None when nearly parallel."""
    ax, ay, cx, cy = b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]
    cross = ax * cy - ay * cx
    if abs(cross) < 1e-3 * (hypot(ax, ay) * hypot(cx, cy) or 1.0):
        return None
    t = ((c[0] - a[0]) * cy - (c[1] - a[1]) * cx) / cross
    return a[0] + ax * t, a[1] + ay * t


def _beyond(a: Point, b: Point, mm: float) -> Point:
    size = hypot(b[0] - a[0], b[1] - a[1]) or 1.0
    return b[0] + (b[0] - a[0]) / size * mm, b[1] + (b[1] - a[1]) / size * mm


def _mirror_in(p: Point, a: Point, b: Point) -> Point:
    dx, dy = b[0] - a[0], b[1] - a[1]
    t = ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy)
    foot = a[0] + dx * t, a[1] + dy * t
    return 2 * foot[0] - p[0], 2 * foot[1] - p[1]


def _signed_area(ring: Sequence[Point]) -> float:
    pairs = zip(ring, [*ring[1:], ring[0]], strict=True)
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs) / 2
