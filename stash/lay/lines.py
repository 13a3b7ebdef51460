"""The lines an item lies beside, and the best small step they leave it.

Close to where an item lies, each neighbour bounds it by the straight line of the nearest
edge between them, so the weighted overlap after a small step is a sum of linear pieces.
In two dimensions the least of that lies where two of the lines cross, where one meets the
border of the room for the step, or straight out of a line; all are tried.
"""

from __future__ import annotations

from stash.lay.chart import beside
from stash.lay.compiled import woven
from stash.lay.cost import TOUCH_MM
from stash.lay.pairs import between

MOST_LINES = 10
SHARE_BEYOND = 1.5  # lines farther off than this share of the reach cannot be met
PARALLEL, LEAST_GAIN, HAIR_MM = 1e-6, 1e-9, 1e-9
WEIGHT, DEPTH, NX, NY = 0, 1, 2, 3  # columns of a line


@woven
def lines_beside(table, charts, state, i, s, x, y, reach, near, count, lines):
    """(weighted overlap there, how many lines (weight, depth, nx, ny) were put in ``lines``).

    A line stands for a neighbour that a step of ``reach`` can touch: after a step m the
    overlap is depth - n . m. The least deep are left out when there are too many.
    """
    total, used = 0.0, 0
    for c in range(count):
        k = near[c]
        region, fx, fy, px, py = between(table, state, i, s, k)
        if region < 0:
            continue
        found, depth, nx, ny = beside(charts, region, (x - px) * fx, (y - py) * fy)
        if not found or depth < -SHARE_BEYOND * reach:
            continue
        weight = state.weight[i, k]
        if depth > TOUCH_MM:
            total += weight * depth
        used = _kept(lines, used, weight, depth, nx * fx, ny * fy)
    return total, used


@woven
def _kept(lines, used, weight, depth, nx, ny):
    """Keep a line, instead of the least deep when there is no room; how many there are."""
    at = used
    if used == len(lines):
        at = 0
        for k in range(1, used):
            if lines[k, DEPTH] < lines[at, DEPTH]:
                at = k
        if lines[at, DEPTH] >= depth:
            return used
        used -= 1
    lines[at, WEIGHT], lines[at, DEPTH], lines[at, NX], lines[at, NY] = weight, depth, nx, ny
    return used + 1


@woven
def best_step(lines, count, room):
    """(step x, step y, weighted overlap after it): the least by the lines within ``room``
    (least x, least y, most x, most y)."""
    best, best_x, best_y = _after(lines, count, 0.0, 0.0, 1e300), 0.0, 0.0
    for a in range(count + 4):
        d, nx, ny = _straight(lines, count, room, a)
        for b in range(a, count + 4):
            if a == b:
                to_x, to_y = d * nx, d * ny
            else:
                e, mx, my = _straight(lines, count, room, b)
                across = nx * my - ny * mx
                if abs(across) < PARALLEL:
                    continue
                to_x, to_y = (d * my - e * ny) / across, (e * nx - d * mx) / across
            in_x, in_y = min(max(to_x, room[0]), room[2]), min(max(to_y, room[1]), room[3])
            if abs(in_x - to_x) < HAIR_MM and abs(in_y - to_y) < HAIR_MM:
                left = _after(lines, count, in_x, in_y, best)
                if left < best - LEAST_GAIN:
                    best, best_x, best_y = left, in_x, in_y
    return best_x, best_y, best


@woven
def _straight(lines, count, room, k):
    """(d, nx, ny) of n . m = d: a line, or beyond those one of the room's four sides."""
    if k < count:
        return lines[k, DEPTH], lines[k, NX], lines[k, NY]
    side = k - count
    return room[side], 1.0 - side % 2, 0.0 + side % 2


@woven
def _after(lines, count, x, y, limit):
    """Weighted overlap after a step by the lines; stops counting above ``limit``."""
    total = 0.0
    for k in range(count):
        d = lines[k, DEPTH] - lines[k, NX] * x - lines[k, NY] * y
        if d > 0.0:
            total += lines[k, WEIGHT] * d
            if total > limit:
                break
    return total
