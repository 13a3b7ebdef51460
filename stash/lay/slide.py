"""Sliding a place along the lines an item lies beside, in steps whose reach shrinks."""

from __future__ import annotations

import numpy as np

from stash.lay.bands import about
from stash.lay.compiled import kernel
from stash.lay.lines import MOST_LINES, lines_beside
from stash.lay.step import best_step

MOST_TRIES = 40
SHRINKING = 0.4
MARGIN = 4.0  # of the reach: neighbours within it are listed once for several steps
WORTH = 0.99  # a step that promises to leave more than this share is not taken


@kernel
def slid(table, charts, state, i, s, cut_back, at, steps, bands, near):
    """(x, y, cost) of a place near ``at`` (x, y, its cost); steps (first reach, least reach)."""
    x, y, _ = at
    reach, finest = steps
    here, there = np.empty((MOST_LINES, 4)), np.empty((MOST_LINES, 4))
    fit = table.fit[s]
    origin_x, origin_y, margin = x, y, MARGIN * reach
    count = about(bands, table, state, s, x, y, margin, near)
    price, lines = lines_beside(table, charts, state, i, s, x, y, reach, near, count, here)
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
            count = about(bands, table, state, s, to_x, to_y, margin, near)
        now, more = lines_beside(
            table, charts, state, i, s, to_x, to_y, reach, near, count, there
        )
        if now < price:
            x, y, price, lines = to_x, to_y, now, more
            here, there = there, here
        else:
            reach *= SHRINKING
    return x, y, price
