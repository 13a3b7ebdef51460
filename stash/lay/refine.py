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
    for k in range(len(found)):
        if found[k, 0] >= 1e300:
            continue
        s = int(found[k, 3])
        at = (found[k, 1], found[k, 2], found[k, 0])
        steps = (FIRST_STEP * size(table, s), COARSE_STEP * size(table, s))
        x, y, price = _improved(
            table, charts, state, i, s, source, cut_back, at, steps, bands, near
        )
        if price < best:
            best, best_x, best_y, best_s = price, x, y, s
        if best == 0.0:
            return best_s, best_x, best_y, best
    if best < 1e300:
        at = (best_x, best_y, best)
        steps = (COARSE_STEP * size(table, best_s), FINEST_STEP_MM)
        best_x, best_y, best = _improved(
            table, charts, state, i, best_s, source, cut_back, at, steps, bands, near
        )
    return best_s, best_x, best_y, best


@woven
def _improved(table, charts, state, i, s, source, cut_back, at, steps, bands, near):
    if table.latticed[i]:
        return stepped(table, charts, state, i, s, source, cut_back, at, steps, bands, near)
    return slid(table, charts, state, i, s, cut_back, at, steps, bands, near)
