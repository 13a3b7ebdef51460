"""The best place for one item: sampled, then refined where it looks best.

Samples lie around where the item is, over the whole sheet, and where it would just touch
another: in a tight lay the good places are those that touch something.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from stash.lay.bands import about, over_middle
from stash.lay.compiled import kernel, woven
from stash.lay.cost import cost, draw, snap
from stash.lay.pairs import between
from stash.lay.refine import refined, size

BEST_SAMPLES = 2
APART = 0.04  # samples closer than this share of the item's size count as one


class Effort(NamedTuple):
    """Samples for each stance: near the item, touching another, and over the sheet."""

    near: int
    touching: int
    wide: int


@woven
def best_place(table, charts, state, i, source, effort, cut_back, bands, near):
    """(stance, x, y, cost) of the best place found for item i."""
    found = np.full((BEST_SAMPLES, 4), 1e300)  # cost, x, y, stance
    here = state.stance[i]
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
        apart = APART * size(table, s)
        for k in range(1 + effort.near + effort.touching + effort.wide):
            if k == 0:
                x, y = at_x, at_y
            elif k <= effort.near:
                reach = 0.5 * draw(source)
                x = at_x + (draw(source) - 0.5) * reach * (wide + 10)
                y = at_y + (draw(source) - 0.5) * reach * (high + 10)
            elif k <= effort.near + effort.touching:
                x, y = _touching(table, charts, state, i, s, source)
            else:
                x = x0 + draw(source) * wide
                y = y0 + draw(source) * high
            free, x, y = snap(table, i, s, x, y, cut_back)
            if free:
                worst = found[BEST_SAMPLES - 1, 0]
                price = _price(table, charts, state, i, s, x, y, worst, bands, near)
                if price < worst:
                    _insert(found, price, x, y, s, apart)
    return refined(table, charts, state, i, source, cut_back, found, bands, near)


@woven
def _price(table, charts, state, i, s, x, y, limit, bands, near):
    """What the place costs, or something above ``limit``: most places are taken, and by what
    lies over their middle."""
    price = 0.0
    for whole in range(2):
        if whole:
            count = about(bands, table, state, s, x, y, 0.0, near)
        else:
            count = over_middle(bands, table, s, x, y, near)
        price = cost(table, charts, state, i, s, x, y, limit, near, count)
        if price > limit:
            break
    return price


@woven
def _centre_shift(table, s, here, axis):
    """Twice the step that keeps the item's middle in place when its stance changes."""
    before = table.box[here, axis] + table.box[here, axis + 2]
    return before - table.box[s, axis] - table.box[s, axis + 2]


@woven
def _touching(table, charts, state, i, s, source):
    """A place at random where item i touches another or an obstacle; where it is, when there
    is none or they may lie over each other."""
    others = state.overlap.shape[1] - 1
    if others == 0:
        return state.position[i, 0], state.position[i, 1]
    k = int(draw(source) * others)
    k += k >= i
    region, fx, fy, px, py = between(table, state, i, s, k)
    if region < 0:
        return state.position[i, 0], state.position[i, 1]
    first, after = charts.first[region], charts.first[region + 1]
    e = first + int(draw(source) * (after - first))
    along = draw(source)
    x = charts.edges[e, 0] + along * (charts.edges[e, 2] - charts.edges[e, 0])
    y = charts.edges[e, 1] + along * (charts.edges[e, 3] - charts.edges[e, 1])
    return x * fx + px, y * fy + py


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
