"""Straight edges of paper, which a bending lens shows as arcs: they tell how much it bends.

One sheet alone leaves the bending uncertain. Most pieces have ruled edges, and a ruled
edge is straight in an ideal picture whatever the perspective (the plumb-line method of
D. C. Brown, Photogrammetric Engineering 37, 1971). Edges cut by hand are trusted only so far.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from stash.eye.floor.bow import deviations
from stash.eye.floor.find_sheets import Array
from stash.eye.floor.joined_plan import trust
from stash.eye.floor.seen_floor import Floor, Straight
from stash.eye.outlines.clean_outline import corner_indices
from stash.eye.outlines.edges import evenly

LEAST_MM = 150.0
TRIM_POINTS = 8
SAMPLES = 31


def straight_stretches(edge: Array) -> Iterator[Array]:
    """Evenly spread points along each nearly straight stretch of a traced edge, in mm."""
    ring = evenly(edge)
    corners = corner_indices(ring)
    for here, there in zip(corners, np.roll(corners, -1), strict=True):
        count = (int(there) - int(here)) % len(ring)
        between = ring[(int(here) + np.arange(count)) % len(ring)]
        yield from _straight_parts(between[TRIM_POINTS:-TRIM_POINTS])


def _straight_parts(points: Array) -> Iterator[Array]:
    """The stretch if it is nearly straight, else those of its halves that are."""
    if len(points) < 2 or np.hypot(*(points[-1] - points[0])) < LEAST_MM:
        return
    if np.abs(deviations(points)).max() < most_bow_mm(points):
        yield points[np.linspace(0, len(points) - 1, SAMPLES).astype(int)]
        return
    middle = len(points) // 2
    yield from _straight_parts(points[:middle])
    yield from _straight_parts(points[middle:])


def most_bow_mm(points: Array) -> float:
    """How far a ruled edge may seem to bend, by the lens and by the scissors."""
    return 0.5 + 0.002 * float(np.hypot(*(points[-1] - points[0])))


def bow_error_mm(points: Array) -> float:
    """How straight paper is cut along a ruled line: one standard error (no source)."""
    return 0.12 + 0.0004 * float(np.hypot(*(points[-1] - points[0])))


def straight_edges(edge: Array, floor: Floor) -> Iterator[Straight]:
    """The straight stretches of an edge traced on a floor, as they lie in the picture."""
    for points in straight_stretches(edge):
        yield _in_picture(points, floor)


def _in_picture(points: Array, floor: Floor) -> Straight:
    pixels = floor.to_image(points)
    px_per_mm = np.hypot(*(pixels[-1] - pixels[0])) / np.hypot(*(points[-1] - points[0]))
    return Straight(pixels, bow_error_mm(points) * float(px_per_mm))


def straight_in_view(edge: Array, floor: Floor) -> Iterator[Straight]:
    """The same of an edge that several photographs show: of each stretch what this one shows."""
    for points in straight_stretches(edge):
        shown = points[trust(floor, points) > 0]
        if len(shown) > SAMPLES // 3 and np.hypot(*(shown[-1] - shown[0])) > LEAST_MM:
            yield _in_picture(shown, floor)
