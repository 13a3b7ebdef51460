"""The best place for one item: sampled; the best samples refined, roughly, then finely."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from stash.lay.compiled import inner, woven
from stash.lay.search.descent import slid
from stash.lay.search.descent_on_repeat import stepped
from stash.lay.search.neighbours import about
from stash.lay.search.overlap import cost
from stash.lay.search.samples import LEAST, X, Y, ask_least, room_for, sampled

if TYPE_CHECKING:
    from stash.lay.search.board import BoardArrays
    from stash.lay.search.ground import Ground
    from stash.lay.search.samples import SampleCounts

BEST_SAMPLES = 2
APART = 0.04  # samples closer than this share of the item's size count as one
FIRST_STEP, COARSE_STEP = 0.03, 0.01  # shares of the item's size
FINEST_STEP_MM = 1.0  # all items moved together settle what is finer


@woven
def best_place(
    ground: Ground, i: int, source: np.ndarray, effort: SampleCounts
) -> tuple[int, float, float, float]:
    """(stance, x, y, cost) of the best place found for item i."""
    table = ground.table
    found = np.full((BEST_SAMPLES, 4), 1e300)  # cost, x, y, stance
    samples = room_for(effort)
    for q in range(table.choices.shape[1]):
        s = table.choices[i, q]
        if s < 0:
            continue
        count = sampled(ground, i, s, source, effort, samples)
        ask_least(ground, i, s, samples, count)
        apart = APART * size(table, s)
        for k in range(count):
            worst = found[BEST_SAMPLES - 1, 0]
            if samples[k, LEAST] < worst:
                x, y = samples[k, X], samples[k, Y]
                met = about(ground, s, x, y, 0.0)
                price = cost(ground, i, s, x, y, worst, met)
                if price < worst:
                    _insert(found, price, x, y, s, apart)
    return refined(ground, i, source, found)


@inner
def _insert(found: np.ndarray, price: float, x: float, y: float, s: int, apart: float) -> None:
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
def size(table: BoardArrays, s: int) -> float:
    """The longer side of a stance's box."""
    return float(max(table.box[s, 2] - table.box[s, 0], table.box[s, 3] - table.box[s, 1]))


@woven
def refined(
    ground: Ground, i: int, source: np.ndarray, found: np.ndarray
) -> tuple[int, float, float, float]:
    """(stance, x, y, cost) of the best that becomes of the samples (k, 4): cost, x, y, stance."""
    table, state = ground.table, ground.state
    best, best_x, best_y, best_s = 1e300, 0.0, 0.0, state.stance[i]
    for k in range(len(found) + 1):
        price, x, y, s = best, best_x, best_y, best_s  # the last round refines the best
        first, last = COARSE_STEP * size(table, s), FINEST_STEP_MM
        if k < len(found):
            price, x, y, s = found[k, 0], found[k, 1], found[k, 2], int(found[k, 3])
            first, last = FIRST_STEP * size(table, s), COARSE_STEP * size(table, s)
        if price >= 1e300:
            continue
        x, y, price = _improved(ground, i, s, source, (x, y, price), (first, last))
        if price < best or k == len(found):
            best, best_x, best_y, best_s = price, x, y, s
        if best == 0.0:
            break
    return best_s, best_x, best_y, best


@woven
def _improved(
    ground: Ground, i: int, s: int, source: np.ndarray, at: tuple[float, float, float], steps:
    tuple[float, float],
) -> tuple[float, float, float]:
    if ground.table.latticed[i]:
        return stepped(ground, i, s, source, at, steps)
    return slid(ground, i, s, at, steps)
