"""The lines an item lies beside.

Close to where an item lies, each neighbour bounds it by the straight line of the nearest
edge between them, so the weighted overlap after a small step is a sum of linear pieces.
"""

from __future__ import annotations

from stash.lay.chart import beside
from stash.lay.compiled import woven
from stash.lay.cost import TOUCH_MM
from stash.lay.pairs import between
from stash.lay.step import DEPTH, NX, NY, WEIGHT

MOST_LINES = 10
SHARE_BEYOND = 1.5  # lines farther off than this share of the reach cannot be met


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
