"""Sliding a place along the lines an item lies beside, in steps whose reach shrinks.

Close to where an item lies, each neighbour bounds it by the straight line of the nearest
edge between them, so the weighted overlap after a small step is a sum of linear pieces.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from stash.lay.compiled import inner, lent, woven
from stash.lay.nofit.depth import beside
from stash.lay.search.neighbours import about
from stash.lay.search.overlap import TOUCH_MM, between
from stash.lay.search.steepest import DEPTH, NX, NY, WEIGHT, best_step

if TYPE_CHECKING:
    from stash.lay.search.ground import Ground

MOST_TRIES = 40
SHRINKING = 0.4
MARGIN = 4.0  # of the reach: neighbours within it are listed once for several steps
WORTH = 0.99  # a step that promises to leave more than this share is not taken
MOST_LINES = 10
SHARE_BEYOND = 1.5  # lines farther off than this share of the reach cannot be met


@inner
def slid(
    ground: Ground, i: int, s: int, at: tuple[float, float, float], steps: tuple[float, float]
) -> tuple[float, float, float]:
    """(x, y, cost) of a place near ``at`` (x, y, its cost); steps (first reach, least reach)."""
    ground = lent(ground)
    x, y, _ = at
    reach, finest = steps
    here, there = np.empty((MOST_LINES, 4)), np.empty((MOST_LINES, 4))
    fit, cut_back = ground.table.fit[s], ground.cut_back
    origin_x, origin_y, margin = x, y, MARGIN * reach
    count = about(ground, s, x, y, margin)
    price, lines = lines_beside(ground, i, s, x, y, reach, count, here)
    for _ in range(MOST_TRIES):
        if price <= 0.0 or reach < finest:
            break
        room = (
            max(-reach, fit[0] - x), max(-reach, fit[1] - y),
            min(reach, fit[2] - cut_back - x), min(reach, fit[3] - y),
        )
        step_x, step_y, hoped = best_step(here, lines, room)
        if hoped > WORTH * price:
            break
        to_x, to_y = x + step_x, y + step_y
        if max(abs(to_x - origin_x), abs(to_y - origin_y)) > margin - 2 * reach:
            origin_x, origin_y, margin = to_x, to_y, MARGIN * reach
            count = about(ground, s, to_x, to_y, margin)
        now, more = lines_beside(ground, i, s, to_x, to_y, reach, count, there)
        if now < price:
            x, y, price, lines = to_x, to_y, now, more
            here, there = there, here
        else:
            reach *= SHRINKING
    return x, y, price


@woven
def lines_beside(
    ground: Ground, i: int, s: int, x: float, y: float, reach: float, count: int, lines: np.ndarray
) -> tuple[float, int]:
    """(weighted overlap there, how many lines (weight, depth, nx, ny) were put in ``lines``).

    A line stands for a neighbour that a step of ``reach`` can touch: after a step m the
    overlap is depth - n . m. The least deep are left out when there are too many.
    """
    table, charts, state, near = ground.table, ground.charts, ground.state, ground.near
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
def _kept(lines: np.ndarray, used: int, weight: float, depth: float, nx: float, ny: float) -> int:
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
