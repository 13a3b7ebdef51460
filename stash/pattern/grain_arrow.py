"""The grainline of a drawn piece: the longest straight arrow that crosses nothing it need not."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import cos, hypot, radians, sin

import shapely
from shapely.geometry import LineString, Polygon

from stash.model import Point

LONGEST_ARROW_MM = 400.0
# An arrow of the first length is laid along a thread without a ruler; a small piece has to do with
# one of the second. Both chosen here.
LONG_ENOUGH_MM, SHORT_MM = 60.0, 24.0
ACROSS = (0.3, 0.2, 0.7, 0.8, 0.5, 0.1, 0.9)
DOWN = (0.5, 0.3, 0.7, 0.15, 0.85)
Chord = tuple[Point, Point]


def grain_arrow(
    rooms: Sequence[shapely.Geometry], turn_deg: float, letter_mm: float
) -> Iterable[tuple[Point, ...]]:
    """The lines of the grainline: a shaft with an open head at both ends.

    ``rooms`` is where it may lie, best first. A long one in either of the first two wins over a
    short one in the first; the others are for pieces that bear no more. ``turn_deg`` is the angle
    of the grain to the length of the piece.
    """
    found = [line for room in rooms if (line := _longest(room, turn_deg, 0.45 * letter_mm))]
    if not found:
        return ()
    best = next(
        (line for lines, least in ((found[:2], LONG_ENOUGH_MM), (found, SHORT_MM))
         for line in lines if span(line) >= least),
        max(found, key=span))
    (x0, y0), (x1, y1) = best
    half = min(0.45 * span(best), LONGEST_ARROW_MM / 2)
    return arrow(((x0 + x1) / 2, (y0 + y1) / 2), half, turn_deg, 0.9 * letter_mm)


def _longest(room: shapely.Geometry, turn_deg: float, aside_mm: float) -> Chord | None:
    """The longest stretch along the grain in any part of a room, so far from its edges."""
    inner = shapely.buffer(room, -aside_mm)
    parts = [p for p in shapely.get_parts(inner) if isinstance(p, Polygon) and p.area > 0]
    chords = [chord(part, spot, turn_deg) for part in parts for spot in _spots(part)]
    return max(chords, key=lambda line: round(span(line)), default=None)


def _spots(part: Polygon) -> Iterable[Point]:
    left, top, right, foot = part.bounds
    for across in ACROSS:
        for down in DOWN:
            yield left + across * (right - left), top + down * (foot - top)


def span(line: Chord) -> float:
    """Length of a straight line in mm."""
    (x0, y0), (x1, y1) = line
    return hypot(x1 - x0, y1 - y0)


def arrow(
    at: Point, half_mm: float, turn_deg: float, head_mm: float
) -> Iterable[tuple[Point, ...]]:
    """A shaft down the page through ``at``, turned, and its two heads."""
    c, s = cos(radians(turn_deg)), sin(radians(turn_deg))

    def spot(x: float, y: float) -> Point:
        return at[0] + x * c + y * s, at[1] - x * s + y * c

    head = min(head_mm, half_mm / 2)
    yield spot(0, -half_mm), spot(0, half_mm)
    for tip in (-half_mm, half_mm):
        back = tip - head if tip > 0 else tip + head
        yield spot(-head * 0.4, back), spot(0, tip), spot(head * 0.4, back)


def chord(shape: Polygon, at: Point, turn_deg: float) -> Chord:
    """The stretch that stays on the shape of a line down the page through ``at``, turned."""
    left, top, right, foot = shape.bounds
    far = hypot(right - left, foot - top)
    step = far * sin(radians(turn_deg)), far * cos(radians(turn_deg))
    line = LineString([(at[0] - step[0], at[1] - step[1]), (at[0] + step[0], at[1] + step[1])])
    parts = [p for p in shapely.get_parts(shape.intersection(line)) if p.length > 0]
    if not parts:
        return at, at
    nearest: Sequence[Point] = min(parts, key=shapely.Point(at).distance).coords
    (x0, y0), (x1, y1) = nearest[0], nearest[-1]
    return (float(x0), float(y0)), (float(x1), float(y1))
