"""Guided overlap removal: move overlapping items until none overlaps.

Every pair of items has a weight that grows while it overlaps, so the search is pushed
out of arrangements it cannot mend (guided local search, Voudouris and Tsang 1999, used
for no-fit polygons by Umetani et al. 2009). Overlaps of large items weigh more from the
start (after the shape penalty of Gardeyn et al. 2025): small ones are quicker to house.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from stash.lay.compiled import kernel, lent, woven
from stash.lay.search.best_place import best_place
from stash.lay.search.ground import Ground
from stash.lay.search.neighbours import banded, toggle
from stash.lay.search.overlap import draw, measure, overlap_left, put

if TYPE_CHECKING:
    from stash.lay.nofit.depth import Charts
    from stash.lay.search.board import BoardArrays
    from stash.lay.search.overlap import LayState
    from stash.lay.search.samples import SampleCounts

FADE = 0.95  # share kept of a weight whose overlap is gone
LEAST_GROWTH, MOST_GROWTH = 1.2, 2.0


@kernel
def separate(
    table: BoardArrays, charts: Charts, state: LayState, best: tuple[LayState, np.ndarray],
    source: np.ndarray, effort: SampleCounts, cut_back: float, sweeps: int,
) -> tuple[float, int]:
    """(overlap left, sweeps used) after at most ``sweeps``; ``best`` keeps the least state.

    ``best[0]`` is a state, ``best[1]`` an array holding its total overlap in mm, each times
    the heft of its pair.
    """
    kept, least = best
    table, charts, state, kept = lent(table), lent(charts), lent(state), lent(kept)
    source = lent((source,))[0]
    n = len(state.stance)
    for i in range(n):
        measure(table, charts, state, i)
    for sweep in range(sweeps):
        _move_all(table, charts, state, source, effort, cut_back)
        total = overlap_left(table, state)
        if total < least[0]:
            least[0] = total
            _keep(state, kept)
        if total == 0.0:
            return 0.0, sweep + 1
        _reweigh(table, state)
    return least[0], sweeps


@woven
def _keep(state: LayState, kept: LayState) -> None:
    for i in range(len(state.stance)):
        kept.stance[i] = state.stance[i]
        for k in range(2):
            kept.position[i, k] = state.position[i, k]
        for k in range(4):
            kept.reach[i, k] = state.reach[i, k]


@woven
def _move_all(
    table: BoardArrays, charts: Charts, state: LayState, source: np.ndarray, effort:
    SampleCounts, cut_back: float,
) -> None:
    n = len(state.stance)
    near = np.empty(state.overlap.shape[1] + 1, np.int64)
    bands = banded(state)
    ground = Ground(table, charts, state, bands, near, cut_back)
    order: np.ndarray = np.arange(n)
    for k in range(n - 1, 0, -1):
        j = int(draw(source) * (k + 1))
        order[k], order[j] = order[j], order[k]
    for i in order:
        now = 0.0
        for k in range(state.overlap.shape[1]):
            if state.overlap[i, k] > 0.0:
                now += state.overlap[i, k] * state.weight[i, k]
        if now > 0.0:
            s, x, y, price = best_place(ground, i, source, effort)
            if price < now:
                toggle(bands, state, i)
                put(table, state, i, s, x, y)
                toggle(bands, state, i)
                measure(table, charts, state, i)


@woven
def _reweigh(table: BoardArrays, state: LayState) -> None:
    n = len(state.stance)
    most = 0.0
    for i in range(n):
        for k in range(state.overlap.shape[1]):
            if state.overlap[i, k] > most:
                most = state.overlap[i, k]
    for i in range(n):
        for k in range(state.overlap.shape[1]):
            if state.overlap[i, k] > 0:
                share = state.overlap[i, k] / most
                state.weight[i, k] *= LEAST_GROWTH + (MOST_GROWTH - LEAST_GROWTH) * share
            elif state.weight[i, k] > table.heft[i, k]:
                state.weight[i, k] = max(table.heft[i, k], state.weight[i, k] * FADE)
