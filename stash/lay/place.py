"""The best place for one item: sampled, then refined where it looks best."""

from __future__ import annotations

import numpy as np

from stash.lay.bands import about
from stash.lay.compiled import kernel, woven
from stash.lay.cost import cost
from stash.lay.refine import refined, size
from stash.lay.samples import LEAST, X, Y, ask_least, room_for, sampled

BEST_SAMPLES = 2
APART = 0.04  # samples closer than this share of the item's size count as one


@woven
def best_place(table, charts, state, i, source, effort, cut_back, bands, near):
    """(stance, x, y, cost) of the best place found for item i."""
    found = np.full((BEST_SAMPLES, 4), 1e300)  # cost, x, y, stance
    samples = room_for(effort)
    for q in range(table.choices.shape[1]):
        s = table.choices[i, q]
        if s < 0:
            continue
        count = sampled(table, charts, state, i, s, source, effort, cut_back, samples)
        ask_least(table, charts, state, i, s, bands, samples, count)
        apart = APART * size(table, s)
        for k in range(count):
            worst = found[BEST_SAMPLES - 1, 0]
            if samples[k, LEAST] < worst:
                x, y = samples[k, X], samples[k, Y]
                met = about(bands, table, state, s, x, y, 0.0, near)
                price = cost(table, charts, state, i, s, x, y, worst, near, met)
                if price < worst:
                    _insert(found, price, x, y, s, apart)
    return refined(table, charts, state, i, source, cut_back, found, bands, near)


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
