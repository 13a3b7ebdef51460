"""The best small step beside straight lines.

A sum of overlaps with lines is convex in the step, so walking downhill from line to line
finds the least there is: along a line through the place, or straight off it where no
other line crosses it there (steepest descent on a piecewise linear function).
"""

from __future__ import annotations

import numpy as np

from stash.lay.compiled import inlined, woven

WEIGHT, DEPTH, NX, NY = 0, 1, 2, 3  # columns of a line; after a step m it is DEPTH - n . m deep
PARALLEL, LEAST_SLOPE, HAIR_MM = 1e-6, 1e-9, 1e-9
MOST_WAYS = 24


@woven
def best_step(
    lines: np.ndarray, count: int, room: tuple[float, float, float, float]
) -> tuple[float, float, float]:
    """(step x, step y, weighted overlap after it): the least by the lines within ``room``
    (least x, least y, most x, most y), which holds the place itself."""
    ux, uy = _steepest(lines, count)
    far = _farthest(lines, count, room, 0.0, 0.0, ux, uy)
    x, y = far * ux, far * uy
    for _ in range(MOST_WAYS):
        far, ux, uy = _way_down(lines, count, room, x, y)
        if far == 0.0:
            break
        x, y = x + far * ux, y + far * uy
    x, y = min(max(x, room[0]), room[2]), min(max(y, room[1]), room[3])
    return x, y, _after(lines, count, x, y)


@inlined
def _steepest(lines: np.ndarray, count: int) -> tuple[float, float]:
    """Which way all overlaps together push, as far as nothing else is in the way."""
    ux, uy = 0.0, 0.0
    for k in range(count):
        if lines[k, DEPTH] > HAIR_MM:
            ux += lines[k, WEIGHT] * lines[k, NX]
            uy += lines[k, WEIGHT] * lines[k, NY]
    return ux, uy


@woven
def _way_down(
    lines: np.ndarray, count: int, room: tuple[float, float, float, float], x: float, y: float
) -> tuple[float, float, float]:
    """(how far, direction): a way to less overlap along a line or border through the place,
    or straight off the only one; no distance where the overlap is least."""
    off_x, off_y, crossed = 0.0, 0.0, False
    for k in range(count + 4):
        d, nx, ny = _straight(lines, count, room, k)
        if abs(d - nx * x - ny * y) >= HAIR_MM:
            continue
        for sign in (1.0, -1.0):
            ux, uy = -sign * ny, sign * nx
            far = _farthest(lines, count, room, x, y, ux, uy)
            if far > 0.0:
                return far, ux, uy
        if off_x == 0.0 and off_y == 0.0:
            off_x, off_y = nx, ny
        crossed |= abs(off_x * ny - off_y * nx) > PARALLEL
    for sign in (1.0, -1.0):
        ux, uy = sign * off_x, sign * off_y
        far = 0.0 if crossed else _farthest(lines, count, room, x, y, ux, uy)
        if far > 0.0:
            return far, ux, uy
    return 0.0, 0.0, 0.0


@woven
def _farthest(
    lines: np.ndarray, count: int, room: tuple[float, float, float, float], x: float, y: float,
    ux: float, uy: float,
) -> float:
    """How many times (ux, uy) to go for least overlap, 0 where that leads to no less.

    The slope grows whenever a line is left or entered, until it no longer goes down.
    """
    border = _to_border(room, x, y, ux, uy)
    if border <= HAIR_MM:
        return 0.0
    far, slope = 0.0, _slope(lines, count, x, y, ux, uy)
    passed = 0  # a bit for each line
    while slope < -LEAST_SLOPE:
        far, k = _next_met(lines, count, x, y, ux, uy, border, passed)
        if k < 0:
            break
        passed |= 1 << k
        slope += lines[k, WEIGHT] * abs(lines[k, NX] * ux + lines[k, NY] * uy)
    return far


@woven
def _next_met(
    lines: np.ndarray, count: int, x: float, y: float, ux: float, uy: float, border: float,
    passed: int,
) -> tuple[float, int]:
    """(how far, which line) is left or entered first of those not passed; -1 at the border."""
    far, first = border, -1
    for k in range(count):
        if not (passed >> k) & 1:
            deep, out = _beside(lines, k, x, y, ux, uy)
            met = deep > HAIR_MM and out > PARALLEL or deep < -HAIR_MM and out < -PARALLEL
            if met and abs(deep) < far * abs(out):
                far, first = deep / out, k
    return far, first


@inlined
def _slope(lines: np.ndarray, count: int, x: float, y: float, ux: float, uy: float) -> float:
    """How the overlap grows from the place on; a line touched counts when it is entered."""
    slope = 0.0
    for k in range(count):
        deep, out = _beside(lines, k, x, y, ux, uy)
        if deep > HAIR_MM or deep > -HAIR_MM and out < 0.0:
            slope -= lines[k, WEIGHT] * out
    return slope


@inlined
def _beside(
    lines: np.ndarray, k: int, x: float, y: float, ux: float, uy: float
) -> tuple[float, float]:
    """(depth at the place, how fast it lessens that way) of line k."""
    return (
        lines[k, DEPTH] - lines[k, NX] * x - lines[k, NY] * y,
        lines[k, NX] * ux + lines[k, NY] * uy,
    )


@inlined
def _to_border(
    room: tuple[float, float, float, float], x: float, y: float, ux: float, uy: float
) -> float:
    """How many times (ux, uy) lead to the border of the room."""
    far = 1e300
    if abs(ux) > PARALLEL:
        far = ((room[2] if ux > 0.0 else room[0]) - x) / ux
    if abs(uy) > PARALLEL:
        far = min(far, ((room[3] if uy > 0.0 else room[1]) - y) / uy)
    return far


@inlined
def _straight(
    lines: np.ndarray, count: int, room: tuple[float, float, float, float], k: int
) -> tuple[float, float, float]:
    """(d, nx, ny) of n . m = d: a line, or beyond those one of the room's four sides."""
    if k < count:
        return lines[k, DEPTH], lines[k, NX], lines[k, NY]
    side = k - count
    return room[side], 1.0 - side % 2, 0.0 + side % 2


@inlined
def _after(lines: np.ndarray, count: int, x: float, y: float) -> float:
    """Weighted overlap after a step by the lines."""
    total = 0.0
    for k in range(count):
        total += lines[k, WEIGHT] * max(0.0, lines[k, DEPTH] - lines[k, NX] * x - lines[k, NY] * y)
    return total
