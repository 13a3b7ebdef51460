"""Guided overlap removal: move overlapping items until none overlaps.

Every pair of items has a weight that grows while it overlaps, so the search is pushed
out of arrangements it cannot mend (guided local search, Voudouris and Tsang 1999, used
for no-fit polygons by Umetani et al. 2009). An item's new place is sampled over the
whole sheet and around where it is; the best samples are refined along the shortest
ways out and by a shrinking pattern of steps.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from stash.lay.compiled import kernel, lent, woven
from stash.lay.cost import about, cost, draw, everything, measure, pull, put, snap

BEST_SAMPLES = 3
APART = 0.04  # samples closer than this share of the item's size count as one
FIRST_STEP, COARSE_STEP = 0.03, 0.005  # shares of the item's size
FINEST_STEP_MM = 0.1
MOST_TRIES = 40


class Effort(NamedTuple):
    """Samples over the sheet and near the item, and the share kept of a spent weight."""

    wide: int
    near: int
    fade: float


@kernel
def separate(table, charts, state, best, source, effort, cut_back, sweeps):
    """(overlap left, sweeps used) after at most ``sweeps``; ``best`` keeps the least state.

    ``best[0]`` is a state, ``best[1]`` an array holding its total overlap in mm.
    """
    kept, least = best
    table, charts, state, kept = lent(table), lent(charts), lent(state), lent(kept)
    n = len(state.stance)
    for i in range(n):
        measure(table, charts, state, i)
    for sweep in range(sweeps):
        _move_all(table, charts, state, source, effort, cut_back)
        total = 0.0
        for i in range(n):
            for k in range(state.overlap.shape[1]):
                total += state.overlap[i, k] * (0.5 if k < n else 1.0)
        if total < least[0]:
            least[0] = total
            kept.position[:] = state.position
            kept.stance[:] = state.stance
            kept.reach[:] = state.reach
        if total == 0.0:
            return 0.0, sweep + 1
        _reweigh(state, effort.fade)
    return least[0], sweeps


@woven
def _move_all(table, charts, state, source, effort, cut_back):
    n = len(state.stance)
    near = np.empty(state.overlap.shape[1] + 1, np.int64)
    order = np.arange(n)
    for k in range(n - 1, 0, -1):
        j = int(draw(source) * (k + 1))
        order[k], order[j] = order[j], order[k]
    for i in order:
        now = 0.0
        for k in range(state.overlap.shape[1]):
            now += state.overlap[i, k] * state.weight[i, k]
        if now > 0.0:
            s, x, y, price = _best_move(table, charts, state, i, source, effort, cut_back, near)
            if price < now:
                put(table, state, i, s, x, y)
                measure(table, charts, state, i)


@woven
def _reweigh(state, fade):
    n = len(state.stance)
    most = state.overlap.max()
    for i in range(n):
        for k in range(state.overlap.shape[1]):
            if state.overlap[i, k] > 0:
                state.weight[i, k] *= 1.2 + 0.8 * state.overlap[i, k] / most
            else:
                state.weight[i, k] = max(1.0, state.weight[i, k] * fade)


@woven
def _best_move(table, charts, state, i, source, effort, cut_back, near):
    """(stance, x, y, cost) of the best place found for item i."""
    found = np.full((BEST_SAMPLES, 4), 1e300)  # cost, x, y, stance
    here = state.stance[i]
    count = everything(state, near)
    for q in range(table.choices.shape[1]):
        s = table.choices[i, q]
        if s < 0:
            continue
        x0, y0 = table.fit[s, 0], table.fit[s, 1]
        wide, high = table.fit[s, 2] - cut_back - x0, table.fit[s, 3] - y0
        if wide < 0 or high < 0:
            continue
        at_x = state.position[i, 0] + 0.5 * _centre_shift(table, s, here, 0)
        at_y = state.position[i, 1] + 0.5 * _centre_shift(table, s, here, 1)
        apart = APART * _size(table, s)
        for k in range(effort.wide + effort.near + 1):
            if k == 0:
                x, y = at_x, at_y
            elif k <= effort.near:
                reach = 0.5 * draw(source)
                x = at_x + (draw(source) - 0.5) * reach * (wide + 10)
                y = at_y + (draw(source) - 0.5) * reach * (high + 10)
            else:
                x = x0 + draw(source) * wide
                y = y0 + draw(source) * high
            free, x, y = snap(table, i, s, x, y, cut_back)
            if free:
                worst = found[BEST_SAMPLES - 1, 0]
                price = cost(table, charts, state, i, s, x, y, worst, near, count)
                if price < worst:
                    _insert(found, price, x, y, s, apart)
    return _refine_all(table, charts, state, i, source, cut_back, found, near)


@woven
def _centre_shift(table, s, here, axis):
    """Twice the step that keeps the item's middle in place when its stance changes."""
    before = table.box[here, axis] + table.box[here, axis + 2]
    return before - table.box[s, axis] - table.box[s, axis + 2]


@woven
def _size(table, s):
    return max(table.box[s, 2] - table.box[s, 0], table.box[s, 3] - table.box[s, 1])


@kernel
def _insert(found, price, x, y, s, apart):
    """Keep the sample among the best, instead of one too near to it if that was worse."""
    k = BEST_SAMPLES - 1
    for m in range(BEST_SAMPLES):
        close = abs(found[m, 1] - x) < apart and abs(found[m, 2] - y) < apart
        if found[m, 3] == s and close:
            if found[m, 0] <= price:
                return
            k = m
            break
    while k > 0 and found[k - 1, 0] > price:
        for c in range(4):
            found[k, c] = found[k - 1, c]
        k -= 1
    found[k, 0], found[k, 1], found[k, 2], found[k, 3] = price, x, y, s


@woven
def _refine_all(table, charts, state, i, source, cut_back, found, near):
    """Refine every sample roughly, then the best of them finely."""
    best, best_x, best_y, best_s = 1e300, 0.0, 0.0, state.stance[i]
    for k in range(BEST_SAMPLES):
        if found[k, 0] >= 1e300:
            continue
        s = int(found[k, 3])
        size = _size(table, s)
        at = (found[k, 1], found[k, 2], found[k, 0])
        steps = (FIRST_STEP * size, COARSE_STEP * size)
        x, y, price = _refine(table, charts, state, i, s, source, cut_back, at, steps, near)
        if price < best:
            best, best_x, best_y, best_s = price, x, y, s
        if best == 0.0:
            return best_s, best_x, best_y, best
    if best < 1e300:
        steps = (COARSE_STEP * _size(table, best_s), FINEST_STEP_MM)
        best_x, best_y, best = _refine(
            table, charts, state, i, best_s, source, cut_back, (best_x, best_y, best), steps, near
        )
    return best_s, best_x, best_y, best


@kernel
def _refine(table, charts, state, i, s, source, cut_back, at, steps, near):
    """Improve one place: along the ways out, then by a pattern of steps that shrinks."""
    x, y, price = at
    step, finest = steps
    if table.latticed[i]:
        step = max(step, table.pitch[0], table.pitch[1])
    moved = True
    margin = 4 * step
    origin_x, origin_y = x, y
    count = about(table, state, s, x, y, margin, near)
    for _ in range(MOST_TRIES):
        if step < finest or price <= 0:
            break
        if abs(x - origin_x) > margin - 2 * step or abs(y - origin_y) > margin - 2 * step:
            margin = 4 * step
            origin_x, origin_y = x, y
            count = about(table, state, s, x, y, margin, near)
        if moved:
            moved, x, y, price = _along_ways_out(
                table, charts, state, i, s, cut_back, (x, y, price), near, count,
                (origin_x, origin_y, margin),
            )
            if moved:
                continue
        moved, x, y, price = _around(
            table, charts, state, i, s, cut_back, (x, y, price),
            (step, draw(source) * np.pi), near, count,
        )
        if not moved:
            step *= 0.45
    return x, y, price


@woven
def _along_ways_out(table, charts, state, i, s, cut_back, at, near, count, area):
    x, y, price = at
    deep_x, deep_y, mean_x, mean_y = pull(table, charts, state, i, s, x, y, near, count)
    for k in range(3):
        if k == 0:
            to_x, to_y = x + deep_x, y + deep_y
        else:
            to_x, to_y = x + k * mean_x, y + k * mean_y
        free, to_x, to_y = snap(table, i, s, to_x, to_y, cut_back)
        if free and abs(to_x - area[0]) <= area[2] and abs(to_y - area[1]) <= area[2]:
            there = cost(table, charts, state, i, s, to_x, to_y, price, near, count)
            if there < price - 1e-9:
                return True, to_x, to_y, there
    return False, x, y, price


@woven
def _around(table, charts, state, i, s, cut_back, at, stride, near, count):
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
            there = cost(table, charts, state, i, s, to_x, to_y, price, near, count)
            if there < price - 1e-9:
                return True, to_x, to_y, there
    return False, x, y, price
