"""Refining sampled places: each of them roughly, then the best finely."""

from __future__ import annotations

from stash.lay.compiled import woven
from stash.lay.slide import slid
from stash.lay.stepped import stepped

FIRST_STEP, COARSE_STEP = 0.03, 0.01  # shares of the item's size
FINEST_STEP_MM = 1.0  # all items moved together settle what is finer


@woven
def size(table, s):
    """The longer side of a stance's box."""
    return max(table.box[s, 2] - table.box[s, 0], table.box[s, 3] - table.box[s, 1])


@woven
def refined(table, charts, state, i, source, cut_back, found, bands, near):
    """(stance, x, y, cost) of the best that becomes of the samples (k, 4): cost, x, y, stance."""
    best, best_x, best_y, best_s = 1e300, 0.0, 0.0, state.stance[i]
    for k in range(len(found) + 1):
        price, x, y, s = best, best_x, best_y, best_s  # the last round refines the best
        first, last = COARSE_STEP * size(table, s), FINEST_STEP_MM
        if k < len(found):
            price, x, y, s = found[k, 0], found[k, 1], found[k, 2], int(found[k, 3])
            first, last = FIRST_STEP * size(table, s), COARSE_STEP * size(table, s)
        if price >= 1e300:
            continue
        x, y, price = _improved(
            table, charts, state, i, s, source, cut_back, (x, y, price), (first, last), bands, near
        )
        if price < best or k == len(found):
            best, best_x, best_y, best_s = price, x, y, s
        if best == 0.0:
            break
    return best_s, best_x, best_y, best


@woven
def _improved(table, charts, state, i, s, source, cut_back, at, steps, bands, near):
    if table.latticed[i]:
        return stepped(table, charts, state, i, s, source, cut_back, at, steps, bands, near)
    return slid(table, charts, state, i, s, cut_back, at, steps, bands, near)
