"""What a pencil, a ruler and a curve can do: points, straight lines and true curves.

A point is ``(x, y)`` in millimetres: x runs down the body along the grain, y across.
A path is a tuple of points; a curve becomes a path whose chords stray less than
``TOLERANCE_MM`` from it, far finer than a chalk line is wide.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import acos, ceil, cos, hypot, sin

from shapely import LineString

from stash.model import Point

Path = tuple[Point, ...]
TOLERANCE_MM = 0.2
PRECISION = 1e-7
CLOSE_MM = 1e-5


def move(point: Point, down: float = 0.0, across: float = 0.0) -> Point:
    """The point squared down and across from another."""
    return point[0] + down, point[1] + across


def distance(a: Point, b: Point) -> float:
    """Straight distance between two points, mm."""
    return hypot(b[0] - a[0], b[1] - a[1])


def between(a: Point, b: Point, part: float = 0.5) -> Point:
    """The point that lies ``part`` of the way from a to b."""
    return a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part


def towards(a: Point, b: Point, mm: float) -> Point:
    """The point ``mm`` from a in the direction of b."""
    whole = distance(a, b)
    return between(a, b, mm / whole) if whole else a


def crossing(a: Point, b: Point, c: Point, d: Point) -> Point:
    """Where the line through a, b meets the line through c, d; b when they are parallel."""
    ax, ay, cx, cy = b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]
    cross = ax * cy - ay * cx
    if abs(cross) < 1e-9:
        return b
    t = ((c[0] - a[0]) * cy - (c[1] - a[1]) * cx) / cross
    return a[0] + ax * t, a[1] + ay * t


def reflected(p: Point, a: Point, b: Point) -> Point:
    """The mirror image of a point in the line through a and b."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    t = ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy)
    foot = a[0] + dx * t, a[1] + dy * t
    return 2 * foot[0] - p[0], 2 * foot[1] - p[1]


def turned(path: Sequence[Point], about: Point, rad: float) -> Path:
    """The path turned about a point as a dart at a waist is closed: what points down goes in."""
    c, s = cos(rad), sin(rad)
    return tuple(
        (about[0] + (x - about[0]) * c + (y - about[1]) * s,
         about[1] + (y - about[1]) * c - (x - about[0]) * s)
        for x, y in path
    )


def square_to(a: Point, b: Point, mm: float) -> Point:
    """The step of ``mm`` square to the line from a down to b, out from the centre."""
    whole = distance(a, b) or 1.0
    return -(b[1] - a[1]) / whole * mm, (b[0] - a[0]) / whole * mm


def line(*points: Point) -> Path:
    """Ruled lines from point to point."""
    return points


def curve(start: Point, pull_start: Point, pull_end: Point, end: Point) -> Path:
    """A cubic Bezier curve, flattened to the tolerance.

    The chord's stray is bounded by the second difference of the control points,
    |b| / (8 n squared) with b the greatest second derivative (standard bound for
    linear interpolation), which gives the number of chords n.
    """
    bend = 6 * max(_bend(start, pull_start, pull_end), _bend(pull_start, pull_end, end))
    chords = max(1, ceil((bend / (8 * TOLERANCE_MM)) ** 0.5))
    return tuple(
        _bezier(start, pull_start, pull_end, end, step / chords) for step in range(chords + 1)
    )


def _bend(a: Point, b: Point, c: Point) -> float:
    return hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1])


def _bezier(a: Point, b: Point, c: Point, d: Point, t: float) -> Point:
    u = 1 - t
    wa, wb, wc, wd = u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t
    return (
        wa * a[0] + wb * b[0] + wc * c[0] + wd * d[0],
        wa * a[1] + wb * b[1] + wc * c[1] + wd * d[1],
    )


def scoop(start: Point, corner: Point, end: Point, pull_mm: float) -> Path:
    """A curve from start to end that leaves along start-corner and arrives along corner-end.

    The middle of the straight chord is pulled ``pull_mm`` in towards the corner,
    as Rosenfeld draws the crotch (The Practical Designer, 1911, Lesson 82).
    """
    reach = distance(between(start, end), corner)
    part = min(1.0, pull_mm / reach / 0.75)
    return curve(start, between(start, corner, part), between(end, corner, part), end)


def arc(
    centre: Point, radius_mm: float, from_rad: float, to_rad: float, stray_mm: float = TOLERANCE_MM
) -> Path:
    """An arc about a centre; angles from the x axis towards the y axis, radians."""
    stray = min(1.0, stray_mm / radius_mm)
    chords = max(1, ceil(abs(to_rad - from_rad) / (2 * acos(1 - stray))))
    step = (to_rad - from_rad) / chords
    return tuple(
        (
            centre[0] + radius_mm * cos(from_rad + i * step),
            centre[1] + radius_mm * sin(from_rad + i * step),
        )
        for i in range(chords + 1)
    )


def length(path: Path) -> float:
    """Length along a path, mm."""
    return sum(distance(a, b) for a, b in zip(path, path[1:], strict=False))


def along(path: Path, mm: float) -> Point:
    """The point ``mm`` along the path from its start; its ends when that is beyond them."""
    left = mm
    for a, b in zip(path, path[1:], strict=False):
        step = distance(a, b)
        if left <= step and step > 0:
            return between(a, b, max(0.0, left) / step)
        left -= step
    return path[-1]


def back(path: Path) -> Path:
    """The same path walked the other way."""
    return path[::-1]


def join(*paths: Path) -> Path:
    """Paths end to end as one; a shared end is kept once."""
    joined: list[Point] = []
    for path in paths:
        skip = 1 if joined and distance(joined[-1], path[0]) < 1e-6 else 0
        joined.extend(path[skip:])
    return tuple(joined)


def mirrored(path: Sequence[Point]) -> Path:
    """The path on the other side of the centre line y = 0."""
    return tuple((x, -y) for x, y in path)


def parted(path: Path, mm: float) -> tuple[Path, Path]:
    """A path in two, at the point ``mm`` along it, which both parts keep."""
    before, reach = [path[0]], 0.0
    for i, (a, b) in enumerate(zip(path, path[1:], strict=False), start=1):
        step = distance(a, b)
        if reach + step >= mm:
            at = along(path, mm)
            return (*before, at), (at, *(p for p in path[i:] if distance(p, at) > PRECISION))
        before.append(b)
        reach += step
    return path, path[-1:]


def thinned(path: Path, stray_mm: float = TOLERANCE_MM) -> Path:
    """The path without the points that lie within so much of the line through the others."""
    return tuple((float(x), float(y)) for x, y in LineString(path).simplify(stray_mm).coords)


def shifted(path: Sequence[Point], down: float = 0.0, across: float = 0.0) -> Path:
    """The path moved without turning."""
    return tuple((x + down, y + across) for x, y in path)


def solve(gap: Callable[[float], float], low: float, high: float) -> float:
    """The value between low and high where the rising function ``gap`` crosses nothing.

    How a cutter finds a width by trial with the tape measure: the false position of two
    trials, the nearer of which counts for half when it stays (the Illinois rule); the
    nearer end when it does not cross.
    """
    below, above = gap(low), gap(high)
    if below > 0 or above <= 0:
        return low if below > 0 else high
    kept_low = kept_high = 1.0
    while high - low > PRECISION:
        weigh_low, weigh_high = below * kept_low, above * kept_high
        middle = (low * weigh_high - high * weigh_low) / (weigh_high - weigh_low)
        if not low < middle < high:
            middle = (low + high) / 2
        trial = gap(middle)
        if abs(trial) < CLOSE_MM:
            return middle
        if trial > 0:
            high, above, kept_high, kept_low = middle, trial, 1.0, kept_low / 2
        else:
            low, below, kept_low, kept_high = middle, trial, 1.0, kept_high / 2
    return (low + high) / 2
