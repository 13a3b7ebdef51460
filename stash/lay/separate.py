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

from stash.lay.compiled import kernel
from stash.lay.cost import cost, draw, measure, pull, put, snap

BEST_SAMPLES = 3
FINEST_STEP_MM = 0.02


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


@kernel
def _move_all(table, charts, state, source, effort, cut_back):
    n = len(state.stance)
    order = np.arange(n)
    for k in range(n - 1, 0, -1):
        j = int(draw(source) * (k + 1))
        order[k], order[j] = order[j], order[k]
    for i in order:
        now = 0.0
        for k in range(state.overlap.shape[1]):
            now += state.overlap[i, k] * state.weight[i, k]
        if now > 0.0:
            s, x, y, price = _best_move(table, charts, state, i, source, effort, cut_back, now)
            if price < now:
                put(table, state, i, s, x, y)
                measure(table, charts, state, i)


@kernel
def _reweigh(state, fade):
    n = len(state.stance)
    most = state.overlap.max()
    for i in range(n):
        for k in range(state.overlap.shape[1]):
            if state.overlap[i, k] > 0:
                state.weight[i, k] *= 1.2 + 0.8 * state.overlap[i, k] / most
            else:
                state.weight[i, k] = max(1.0, state.weight[i, k] * fade)


@kernel
def _best_move(table, charts, state, i, source, effort, cut_back, now):
    """(stance, x, y, cost) of the best place found for item i."""
    found = np.full((BEST_SAMPLES, 4), 1e300)  # cost, x, y, stance
    stances = 0
    for q in range(table.choices.shape[1]):
        if table.choices[i, q] >= 0:
            stances += 1
    here = state.stance[i]
    samples = effort.wide + effort.near + 1
    for q in range(stances):
        s = table.choices[i, q]
        x0, y0 = table.fit[s, 0], table.fit[s, 1]
        wide, high = table.fit[s, 2] - cut_back - x0, table.fit[s, 3] - y0
        if wide < 0 or high < 0:
            continue
        at_x = state.position[i, 0] + 0.5 * _centre_shift(table, s, here, 0)
        at_y = state.position[i, 1] + 0.5 * _centre_shift(table, s, here, 1)
        for k in range(samples):
            if k == 0:
                x, y = at_x, at_y
            elif k <= effort.near:
                reach = 0.25 * draw(source)
                x = at_x + (2 * draw(source) - 1) * reach * (wide + 10)
                y = at_y + (2 * draw(source) - 1) * reach * (high + 10)
            else:
                x = x0 + draw(source) * wide
                y = y0 + draw(source) * high
            free, x, y = snap(table, i, s, x, y, cut_back)
            if not free:
                continue
            worst = found[BEST_SAMPLES - 1, 0]
            price = cost(table, charts, state, i, s, x, y, worst)
            if price < worst:
                _insert(found, price, x, y, s)
    return _refine_all(table, charts, state, i, source, cut_back, found)


@kernel
def _centre_shift(table, s, here, axis):
    """Twice the step that keeps the item's middle in place when its stance changes."""
    a, b = table.box[here], table.box[s]
    return a[axis] + a[axis + 2] - b[axis] - b[axis + 2]


@kernel
def _insert(found, price, x, y, s):
    k = BEST_SAMPLES - 1
    while k > 0 and found[k - 1, 0] > price:
        found[k] = found[k - 1]
        k -= 1
    found[k, 0], found[k, 1], found[k, 2], found[k, 3] = price, x, y, s


@kernel
def _refine_all(table, charts, state, i, source, cut_back, found):
    best, best_x, best_y, best_s = 1e300, 0.0, 0.0, state.stance[i]
    for k in range(BEST_SAMPLES):
        if found[k, 0] >= 1e300:
            continue
        s = int(found[k, 3])
        x, y, price = _refine(table, charts, state, i, s, source, cut_back, found[k])
        if price < best:
            best, best_x, best_y, best_s = price, x, y, s
        if best == 0.0:
            break
    return best_s, best_x, best_y, best


@kernel
def _refine(table, charts, state, i, s, source, cut_back, start):
    """Improve one sample: the ways out first, then a pattern of steps that shrinks."""
    price, x, y = start[0], start[1], start[2]
    step = 0.03 * max(table.box[s, 2] - table.box[s, 0], table.box[s, 3] - table.box[s, 1])
    if table.latticed[i]:
        step = max(step, table.pitch[0], table.pitch[1])
    tries = 0
    while step > FINEST_STEP_MM and price > 0 and tries < 60:
        tries += 1
        better, x, y, price = _along_ways_out(table, charts, state, i, s, cut_back, (x, y, price))
        if better:
            continue
        better, x, y, price = _around(
            table, charts, state, i, s, cut_back, (x, y, price), (step, draw(source) * np.pi)
        )
        step *= 1.1 if better else 0.45
    return x, y, price


@kernel
def _along_ways_out(table, charts, state, i, s, cut_back, at):
    x, y, price = at
    deep_x, deep_y, mean_x, mean_y = pull(table, charts, state, i, s, x, y)
    for k in range(3):
        if k == 0:
            to_x, to_y = x + deep_x, y + deep_y
        else:
            to_x, to_y = x + k * mean_x, y + k * mean_y
        free, to_x, to_y = snap(table, i, s, to_x, to_y, cut_back)
        if free:
            there = cost(table, charts, state, i, s, to_x, to_y, price)
            if there < price - 1e-9:
                return True, to_x, to_y, there
    return False, x, y, price


@kernel
def _around(table, charts, state, i, s, cut_back, at, stride):
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
            there = cost(table, charts, state, i, s, to_x, to_y, price)
            if there < price - 1e-9:
                return True, to_x, to_y, there
    return False, x, y, price
