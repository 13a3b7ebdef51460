"""A facing drawn from an edge: the edge itself, and a line that runs beside it.

It begins and ends on the edges beside, so that facings meet in the same seams. Widths are
common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shapely import LineString, MultiLineString, Polygon, get_parts, line_merge, union_all
from shapely import Point as Place
from shapely.geometry.base import BaseGeometry

from stash.draft.cutting_line import FOLD, Edge
from stash.draft.geometry import Path, back, distance, length
from stash.draft.panel import Cutting, Panel
from stash.model import Part, Point

# Chosen here: what is one point, and what is straight.
EDGES_APART_MM = 0.5
STRAIGHT_MM = 0.3


@dataclass(frozen=True, kw_only=True)
class FacingCut:
    """A facing's name, how wide it is, how it is cut, and whether it lies on the fold."""

    name: str
    deep_mm: float
    cutting: Cutting = Cutting(part=Part.FACING)
    on_fold: bool = False


def facing_from(panel: Panel, edge: str, cut: FacingCut) -> Panel:
    """The strip of a panel along one of its edges, with the same stitching, allowances and snips.
    """
    at = next(i for i, e in enumerate(panel.edges) if e.name == edge)
    before, after = panel.edges[at - 1], panel.edges[(at + 1) % len(panel.edges)]
    own = panel.edges[at]
    inner = _inner(own.path, _ring(panel.edges), cut.deep_mm)
    first, last = _nearest(before.path, inner[0]), _nearest(after.path, inner[-1])
    inner = (first, *inner[1:-1], last)
    edges = (
        own, Edge(after.name, _between(after.path, own.path[-1], last), after.allowance_mm),
        Edge("inner", back(inner)),
        Edge(before.name, _between(before.path, first, own.path[0]), before.allowance_mm),
    )
    return Panel(
        name=cut.name, edges=edges, cutting=cut.cutting,
        notches=tuple(snip for snip in panel.notches if snip[0] == edge),
        doubles=tuple(snip for snip in panel.doubles if snip[0] == edge),
        on_fold=cut.on_fold and FOLD in (before.name, after.name),
    )


def _ring(edges: Sequence[Edge]) -> Polygon:
    return Polygon([p for e in edges for p in e.path[:-1]])


def _inner(path: Path, shape: Polygon, deep: float) -> Path:
    """The line ``deep`` inside the edge, from the edge before to the edge after."""
    along = LineString(path)
    strip = union_all([along.buffer(deep, cap_style="flat"), along.buffer(deep)])
    rim = strip.boundary.intersection(shape.buffer(EDGES_APART_MM / 10))
    parts = [p for p in get_parts(rim) if isinstance(p, LineString)]
    joined = max(get_parts(_merged(parts)), key=lambda p: float(p.length))
    points = tuple((float(x), float(y)) for x, y in joined.simplify(STRAIGHT_MM).coords)
    start = distance(points[0], path[0]) < distance(points[-1], path[0])
    return points if start else points[::-1]


def _merged(parts: Sequence[LineString]) -> BaseGeometry:
    return line_merge(MultiLineString(list(parts)))


def _nearest(path: Path, point: Point) -> Point:
    line = LineString(path)
    at = line.interpolate(line.project(Place(point)))
    return float(at.x), float(at.y)


def _between(path: Path, start: Point, end: Point) -> Path:
    """The part of a path between two points on it, in its direction."""
    line = LineString(path)
    low, high = line.project(Place(start)), line.project(Place(end))
    reach, kept = 0.0, []
    for i, p in enumerate(path):
        reach += distance(path[i - 1], p) if i else 0.0
        if low + EDGES_APART_MM < reach < high - EDGES_APART_MM:
            kept.append(p)
    return (start, *kept, end) if length((start, end)) > 0 else (start, end)
