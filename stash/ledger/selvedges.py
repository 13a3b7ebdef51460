"""The selvedges of a cut: stretches of its outline, kept as long as they are an edge of it."""

from __future__ import annotations

from collections.abc import Iterable
from math import hypot
from typing import TYPE_CHECKING

from stash.ledger.shapes import from_polygon, polygon
from stash.model.outline import Outline, Point, SelvedgeLine

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

EDGE_MM = 1.0
"""So near to an edge a line is that edge: less than shears can follow."""
WIDEST_MM = 100.0
"""No margin along a selvedge is wider."""
LEAST_MM = 20.0
"""A shorter stretch tells nobody where the grain runs."""


def still_edges(
    lines: Iterable[SelvedgeLine], outline: Outline, within_mm: float = EDGE_MM
) -> tuple[SelvedgeLine, ...]:
    """What of these lines is an edge of an outline in the same frame, moved onto that edge."""
    found: list[SelvedgeLine] = []
    for line in lines:
        found.extend(_on_edge(line, outline, within_mm))
    return tuple(found)


def _on_edge(line: SelvedgeLine, outline: Outline, within_mm: float) -> list[SelvedgeLine]:
    parts = sorted(
        part for ring in (outline.ring_mm, *outline.holes_mm)
        for start, stop in zip(ring, ring[1:] + ring[:1], strict=True)
        for part in _along(line, (start, stop), within_mm))
    runs: list[tuple[float, float, Point, Point]] = []
    for part in parts:
        if runs and part[0] - runs[-1][1] < EDGE_MM:
            runs[-1] = (runs[-1][0], max(part[1], runs[-1][1]), runs[-1][2], part[3])
        else:
            runs.append(part)
    return [(start, stop) for low, high, start, stop in runs if high - low >= LEAST_MM]


def _along(
    line: SelvedgeLine, side: SelvedgeLine, within_mm: float
) -> list[tuple[float, float, Point, Point]]:
    """(from, to, first point, last point) of a side as far as it runs along the line beside it."""
    (x0, y0), (x1, y1) = line
    long = hypot(x1 - x0, y1 - y0)
    if long == 0:
        return []
    ux, uy = (x1 - x0) / long, (y1 - y0) / long
    ends = sorted(((x - x0) * ux + (y - y0) * uy, (y - y0) * ux - (x - x0) * uy, (x, y))
                  for x, y in side)
    (low, off_low, first), (high, off_high, last) = ends
    if high - low < hypot(last[0] - first[0], last[1] - first[1]) / 2 or high == low:
        return []

    def at(reach: float) -> tuple[float, Point]:
        share = (reach - low) / (high - low)
        return off_low + share * (off_high - off_low), (
            first[0] + share * (last[0] - first[0]), first[1] + share * (last[1] - first[1]))

    begin, end = max(low, 0.0), min(high, long)
    (off_begin, start), (off_end, stop) = at(begin), at(end)
    if end <= begin or max(abs(off_begin), abs(off_end)) > within_mm:
        return []
    return [(begin, end, start, stop)]


def shifted(lines: Iterable[SelvedgeLine], x_mm: float, y_mm: float) -> tuple[SelvedgeLine, ...]:
    """The same lines where the frame begins elsewhere."""
    return tuple(((x0 + x_mm, y0 + y_mm), (x1 + x_mm, y1 + y_mm))
                 for (x0, y0), (x1, y1) in lines)


def stretched(
    lines: Iterable[SelvedgeLine], along: float, across: float
) -> tuple[SelvedgeLine, ...]:
    """The same lines on cloth that has become so much of its length and width."""
    return tuple(((x0 * along, y0 * across), (x1 * along, y1 * across))
                 for (x0, y0), (x1, y1) in lines)


def edges_beside(lines: Iterable[SelvedgeLine], outline: Outline) -> tuple[SelvedgeLine, ...]:
    """The edges of what :func:`off_selvedges` left, each along the selvedge that it is off.

    None of a selvedge that is further away than any margin: there something else was cut off.
    """
    from shapely import LineString

    kept, found = polygon(outline), list[SelvedgeLine]()
    for line in lines:
        off_mm = LineString(line).distance(kept)
        if off_mm <= WIDEST_MM:
            found.extend(_on_edge(line, outline, off_mm + EDGE_MM))
    return tuple(found)


def off_selvedges(outline: Outline, lines: Iterable[SelvedgeLine], margin_mm: float) -> Outline:
    """What can be cut of it: the largest part that lies so far off every selvedge.

    The outline itself where nothing else would be left of it.
    """
    kept = tuple(lines)
    if not kept or margin_mm <= 0:
        return outline
    from shapely import LineString, MultiPoint, Point, Polygon, get_parts, union_all

    # Where it stops at a corner it goes on round: past a flat end a thin spike would be left of
    # the cloth that widens there.
    corners = MultiPoint(outline.ring_mm)
    off: list[BaseGeometry] = [
        LineString(line).buffer(margin_mm, cap_style="flat") for line in kept]
    off += [_round_end(end, other, margin_mm)
            for line in kept for end, other in (line, line[::-1])
            if Point(end).distance(corners) < EDGE_MM]
    rest = [part for part in get_parts(polygon(outline).difference(union_all(off)))
            if isinstance(part, Polygon)]
    return from_polygon(max(rest, key=lambda part: part.area)) if rest else outline


def _round_end(end: Point, other: Point, margin_mm: float) -> BaseGeometry:
    """The half of a disc that lies beyond a line's end, and nothing beside the line itself."""
    import shapely

    long = hypot(other[0] - end[0], other[1] - end[1]) or 1.0
    back = tuple(e + 2 * margin_mm * (o - e) / long for e, o in zip(end, other, strict=True))
    beside = shapely.LineString((end, back)).buffer(2 * margin_mm, cap_style="flat")
    return shapely.Point(end).buffer(margin_mm).difference(beside)
