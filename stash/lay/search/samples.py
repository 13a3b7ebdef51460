"""Places tried for an item: about where it is, where it would just touch another, anywhere.

In a tight lay the good places are those that touch something. All places of a stance are
drawn first and then asked what they cost at the least: two plain loops, which a processor
runs several rounds of at once. Few are left to be priced exactly.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from stash.lay.compiled import inlined, lowest_bit, woven
from stash.lay.nofit.depth import sure_depth
from stash.lay.search.neighbours import bands_at_middle
from stash.lay.search.overlap import between, draw, snap

if TYPE_CHECKING:
    from stash.lay.search.board import BoardArrays
    from stash.lay.search.ground import Ground

X, Y, LEAST = 0, 1, 2  # columns of a sample: the place, and what it costs at the least
MOST_ASKED = 2  # items over its middle, of each 64, that a place is asked about


class SampleCounts(NamedTuple):
    """Samples for each stance: near the item, touching another, and over the sheet."""

    near: int
    touching: int
    wide: int


@inlined
def room_for(effort: SampleCounts) -> np.ndarray:
    """An array for the samples of one stance."""
    return np.empty((1 + effort.near + effort.touching + effort.wide, 3))


@woven
def sampled(
    ground: Ground, i: int, s: int, source: np.ndarray, effort: SampleCounts, samples: np.ndarray
) -> int:
    """How many places where item i may lie in stance s were put in ``samples``; the first is
    where it lies already, where the stance permits that."""
    table, state, cut_back = ground.table, ground.state, ground.cut_back
    x0, y0 = table.fit[s, 0], table.fit[s, 1]
    wide, high = table.fit[s, 2] - cut_back - x0, table.fit[s, 3] - y0
    if wide < 0 or high < 0:
        return 0
    here = state.stance[i]
    at_x = state.position[i, 0] + 0.5 * _centre_shift(table, s, here, 0)
    at_y = state.position[i, 1] + 0.5 * _centre_shift(table, s, here, 1)
    count = 0
    for k in range(len(samples)):
        if k == 0:
            x, y = at_x, at_y
        elif k <= effort.near:
            reach = 0.5 * draw(source)
            x = at_x + (draw(source) - 0.5) * reach * (wide + 10)
            y = at_y + (draw(source) - 0.5) * reach * (high + 10)
        elif k <= effort.near + effort.touching:
            x, y = _touching(ground, i, s, source)
        else:
            x = x0 + draw(source) * wide
            y = y0 + draw(source) * high
        free, samples[count, X], samples[count, Y] = snap(table, i, s, x, y, cut_back)
        count += free
    return count


@woven
def ask_least(ground: Ground, i: int, s: int, samples: np.ndarray, count: int) -> None:
    """Put down what each place costs at the least, by what surely lies over its middle."""
    for k in range(count):
        samples[k, LEAST] = _least(ground, i, s, samples[k, X], samples[k, Y])


@woven
def _least(ground: Ground, i: int, s: int, x: float, y: float) -> float:
    table, charts, state, bands = ground.table, ground.charts, ground.state, ground.bands
    along, across = bands_at_middle(bands, table, s, x, y)
    price = 0.0
    for word in range(bands.member.shape[2]):
        bits = bands.member[0, along, word] & bands.member[1, across, word]
        for _ in range(MOST_ASKED):
            k = word * 64 + lowest_bit(bits) if bits != np.uint64(0) else i
            bits &= bits - np.uint64(1)
            region, fx, fy, px, py = between(table, state, i, s, k)
            if region >= 0:
                deep = sure_depth(charts, region, (x - px) * fx, (y - py) * fy)
                price += state.weight[i, k] * deep
    return price


@inlined
def _centre_shift(table: BoardArrays, s: int, here: int, axis: int) -> float:
    """Twice the step that keeps the item's middle in place when its stance changes."""
    before = table.box[here, axis] + table.box[here, axis + 2]
    return float(before - table.box[s, axis] - table.box[s, axis + 2])


@woven
def _touching(ground: Ground, i: int, s: int, source: np.ndarray) -> tuple[float, float]:
    """A place at random where item i touches another or an obstacle; where it is, when there
    is none or they may lie over each other."""
    table, charts, state = ground.table, ground.charts, ground.state
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
