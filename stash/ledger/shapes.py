"""What cutting and washing do to an outline.

A length is always cut from the far end (greatest x), so what is left keeps its
place in the frame. Rectangles are reckoned directly, so that lengths add up
without any rounding by a geometry library. That library is loaded with the first
remnant only: most commands never meet one.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from typing import TYPE_CHECKING

from stash.errors import Conflict, InvalidInput
from stash.model import Outline
from stash.model.outline import Point

if TYPE_CHECKING:
    from shapely import Polygon
    from shapely.geometry.base import BaseGeometry

SLACK_MM = 0.05
"""Less than this is a rounding error, not cloth."""


def shortened(outline: Outline, left_mm: float) -> Outline:
    """The first ``left_mm`` of the outline; Conflict when that is in several parts."""
    x_min, y_min, x_max, y_max = outline.bounds_mm
    limit = x_min + left_mm
    if limit >= x_max:
        return outline
    if outline.is_rectangle:
        return Outline(((x_min, y_min), (limit, y_min), (limit, y_max), (x_min, y_max)))
    rest = polygon(outline).intersection(_box(x_min, y_min, limit, y_max))
    return from_polygon(_one(rest))


def scaled(outline: Outline, along: float, across: float) -> Outline:
    """The outline after shrinking to ``along`` and ``across`` of what it was."""
    return Outline(
        tuple((x * along, y * across) for x, y in outline.ring_mm),
        tuple(tuple((x * along, y * across) for x, y in hole) for hole in outline.holes_mm),
    )


def resized(outline: Outline, length_mm: float, width_mm: float) -> Outline:
    """The outline stretched to a measured length and width: its corners and holes go along."""
    if outline.is_rectangle:
        left, low, _, _ = outline.bounds_mm
        right, high = left + length_mm, low + width_mm
        return Outline(((left, low), (right, low), (right, high), (left, high)))
    return scaled(outline, length_mm / outline.length_mm, width_mm / outline.width_mm)


def without_corner(outline: Outline, length_mm: float, width_mm: float) -> Outline:
    """The outline without a corner at its far end, on its left edge; InvalidInput if it is all."""
    if length_mm >= outline.length_mm or width_mm >= outline.width_mm:
        raise InvalidInput("corner_too_large", field="corner_length")
    _, _, right, high = outline.bounds_mm
    rest = polygon(outline).difference(
        _box(right - length_mm, high - width_mm, right + 1, high + 1))
    return from_polygon(_one(rest))


def shrinkage_pct(before: Outline, after: Outline) -> tuple[float, float]:
    """By how much a cut has shrunk along and across, in per cent to one decimal."""
    return (
        round(100 * (1 - after.length_mm / before.length_mm), 1),
        round(100 * (1 - after.width_mm / before.width_mm), 1),
    )


def at_origin(outline: Outline) -> Outline:
    """The outline shifted so that it starts at (0, 0)."""
    x_min, y_min, _, _ = outline.bounds_mm
    if x_min == 0 and y_min == 0:
        return outline
    return Outline(
        tuple((x - x_min, y - y_min) for x, y in outline.ring_mm),
        tuple(tuple((x - x_min, y - y_min) for x, y in hole) for hole in outline.holes_mm),
    )


def without_stretch(outline: Outline, from_mm: float, to_mm: float) -> Outline | None:
    """The largest part left when everything between two x is spoken for."""
    _, y_min, _, y_max = outline.bounds_mm
    if outline.is_rectangle:
        return _largest_stretch(outline, from_mm, to_mm)
    parts = _parts(polygon(outline).difference(_box(from_mm, y_min - 1, to_mm, y_max + 1)))
    return from_polygon(max(parts, key=lambda p: p.area)) if parts else None


def area_between_mm2(outline: Outline, from_mm: float, to_mm: float) -> float:
    """How much cloth lies between two x."""
    _, y_min, _, y_max = outline.bounds_mm
    return polygon(outline).intersection(_box(from_mm, y_min, to_mm, y_max)).area


def checked(outline: Outline) -> Outline:
    """The outline itself; InvalidInput when no cloth can have that shape."""
    rings = (outline.ring_mm, *outline.holes_mm)
    numbers = [n for ring in rings for point in ring for n in point]
    if any(n != n or abs(n) > 1_000_000 for n in numbers) or any(len(r) < 3 for r in rings):
        raise InvalidInput("outline_not_closed", field="outline")
    if any(a == b for ring in rings for a, b in pairwise((*ring, ring[0]))):
        raise InvalidInput("outline_corner_twice", field="outline")
    shape = polygon(outline)
    if not shape.is_valid or shape.area < 100:
        raise InvalidInput("outline_crosses", field="outline")
    return outline


def polygon(outline: Outline) -> Polygon:
    """The outline as shapely knows it."""
    from shapely import Polygon

    return Polygon(outline.ring_mm, outline.holes_mm)


def from_polygon(shape: Polygon) -> Outline:
    """An outline from a shapely polygon, its rings left open; a rectangle begins at its corner."""
    outline = Outline(
        _ring(shape.exterior.coords),
        tuple(_ring(hole.coords) for hole in shape.interiors),
    )
    if not outline.is_rectangle:
        return outline
    left, low, right, high = outline.bounds_mm
    return Outline(((left, low), (right, low), (right, high), (left, high)))


def _ring(corners: Iterable[tuple[float, ...]]) -> tuple[Point, ...]:
    """Without the last corner, which closes it."""
    return tuple((x, y) for x, y in corners)[:-1]


def _box(x_min: float, y_min: float, x_max: float, y_max: float) -> Polygon:
    from shapely import box

    return box(x_min, y_min, x_max, y_max)


def _parts(rest: BaseGeometry) -> list[Polygon]:
    """The polygons of what is left that are more than a rounding error."""
    from shapely import Polygon, get_parts

    return [part for part in get_parts(rest) if isinstance(part, Polygon) and part.area > 1.0]


def _one(rest: BaseGeometry) -> Polygon:
    """The one piece that is left; Conflict when the cloth would fall apart."""
    parts = _parts(rest)
    if len(parts) != 1:
        raise Conflict("piece_falls_apart")
    return parts[0]


def _largest_stretch(outline: Outline, from_mm: float, to_mm: float) -> Outline | None:
    x_min, y_min, x_max, y_max = outline.bounds_mm
    before = (x_min, min(max(from_mm, x_min), x_max))
    after = (max(min(to_mm, x_max), x_min), x_max)
    left, right = max(after, before, key=lambda stretch: stretch[1] - stretch[0])
    if right - left <= SLACK_MM:
        return None
    return Outline(((left, y_min), (right, y_min), (right, y_max), (left, y_max)))
