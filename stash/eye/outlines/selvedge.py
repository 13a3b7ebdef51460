"""Which edges of a remnant can be selvedges: straight ones along the grain."""

from __future__ import annotations

from math import atan2, degrees, hypot

from stash.model import Outline
from stash.model.outline import Point

SelvedgeLine = tuple[Point, Point]
ALONG_DEG = 1.5
LEAST_SHARE = 0.25  # of the cloth's length
LEAST_MM = 80.0


def selvedges(outline: Outline) -> tuple[SelvedgeLine, ...]:
    """The longest straight edges that run along x, at most one a side, the longer first."""
    ring = outline.ring_mm
    found = []
    for (x0, y0), (x1, y1) in zip(ring, ring[1:] + ring[:1], strict=True):
        length = hypot(x1 - x0, y1 - y0)
        off = abs(degrees(atan2(y1 - y0, x1 - x0))) % 180
        if min(off, 180 - off) < ALONG_DEG and length > max(
                LEAST_MM, LEAST_SHARE * outline.length_mm):
            found.append((length, ((x0, y0), (x1, y1))))
    found.sort(key=lambda one: -one[0])
    middle = outline.width_mm / 2
    low = next((edge for _, edge in found if edge[0][1] < middle), None)
    high = next((edge for _, edge in found if edge[0][1] >= middle), None)
    return tuple(edge for edge in (low, high) if edge)
