"""Refining a place on a repeat: along the shortest ways out, and by a shrinking pattern of steps.

A piece that must match the print may lie only on the lattice, so a step goes to the nearest
permitted place and the straight lines of its neighbours say too little.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from stash.lay.compiled import inner, lent, woven
from stash.lay.search.neighbours import about
from stash.lay.search.overlap import cost, draw, pull, snap

if TYPE_CHECKING:
    from stash.lay.search.ground import Ground

MOST_TRIES = 40


@inner
def stepped(
    ground: Ground, i: int, s: int, source: np.ndarray, at: tuple[float, float, float], steps:
    tuple[float, float],
) -> tuple[float, float, float]:
    """Improve one place: along the ways out, then by a pattern of steps that shrinks."""
    ground = lent(ground)
    table = ground.table
    x, y, price = at
    step, finest = steps
    step = max(step, table.pitch[0], table.pitch[1])
    moved = True
    margin = 4 * step
    origin_x, origin_y = x, y
    count = about(ground, s, x, y, margin)
    for _ in range(MOST_TRIES):
        if step < finest or price <= 0:
            break
        if abs(x - origin_x) > margin - 2 * step or abs(y - origin_y) > margin - 2 * step:
            margin = 4 * step
            origin_x, origin_y = x, y
            count = about(ground, s, x, y, margin)
        if moved:
            moved, x, y, price = _along_ways_out(
                ground, i, s, (x, y, price), count, (origin_x, origin_y, margin)
            )
            if moved:
                continue
        moved, x, y, price = _around(
            ground, i, s, (x, y, price), (step, draw(source) * np.pi), count
        )
        if not moved:
            step *= 0.45
    return x, y, price


@woven
def _along_ways_out(
    ground: Ground, i: int, s: int, at: tuple[float, float, float], count: int, area:
    tuple[float, float, float],
) -> tuple[bool, float, float, float]:
    table, cut_back = ground.table, ground.cut_back
    x, y, price = at
    deep_x, deep_y, mean_x, mean_y = pull(ground, i, s, x, y, count)
    for k in range(3):
        if k == 0:
            to_x, to_y = x + deep_x, y + deep_y
        else:
            to_x, to_y = x + k * mean_x, y + k * mean_y
        free, to_x, to_y = snap(table, i, s, to_x, to_y, cut_back)
        if free and abs(to_x - area[0]) <= area[2] and abs(to_y - area[1]) <= area[2]:
            there = cost(ground, i, s, to_x, to_y, price, count)
            if there < price - 1e-9:
                return True, to_x, to_y, there
    return False, x, y, price


@woven
def _around(
    ground: Ground, i: int, s: int, at: tuple[float, float, float], stride: tuple[float, float],
    count: int,
) -> tuple[bool, float, float, float]:
    table, cut_back = ground.table, ground.cut_back
    x, y, price = at
    step, angle = stride
    for k in range(6):
        if k < 4:
            to_x = x + step * (1.0 if k == 0 else -1.0 if k == 1 else 0.0)
            to_y = y + step * (1.0 if k == 2 else -1.0 if k == 3 else 0.0)
        else:
            sign = 1.0 if k == 4 else -1.0
            to_x, to_y = x + sign * step * np.cos(angle), y + sign * step * np.sin(angle)
        free, to_x, to_y = snap(table, i, s, to_x, to_y, cut_back)
        if free:
            there = cost(ground, i, s, to_x, to_y, price, count)
            if there < price - 1e-9:
                return True, to_x, to_y, there
    return False, x, y, price
