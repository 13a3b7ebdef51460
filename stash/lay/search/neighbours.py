"""Bands of the sheet along and across, each with one bit for every item that reaches into it.

What could meet at a place is in the bands that its box reaches into, both ways: a few
words of bits instead of a look at every item.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from stash.lay.compiled import lowest_bit, woven

if TYPE_CHECKING:
    from stash.lay.search.board import BoardArrays
    from stash.lay.search.ground import Ground
    from stash.lay.search.overlap import LayState

BANDS = 24  # each way


class Bands(NamedTuple):
    """member (2, BANDS, words): bits of items, along and across; start and scale (2,)."""

    member: np.ndarray
    start: np.ndarray
    scale: np.ndarray


@woven
def banded(state: LayState) -> Bands:
    """Bands of every item where it lies."""
    n = len(state.stance)
    member = np.zeros((2, BANDS, (n + 63) // 64), np.uint64)
    start, scale = np.empty(2), np.empty(2)
    for axis in range(2):
        low, high = 1e300, -1e300
        for i in range(n):
            low = min(low, state.reach[i, axis])
            high = max(high, state.reach[i, axis + 2])
        start[axis], scale[axis] = low, BANDS / max(high - low, 1.0)
    bands = Bands(member, start, scale)
    for i in range(n):
        toggle(bands, state, i)
    return bands


@woven
def no_bands() -> Bands:
    """Of a board on which every item is a neighbour: there is nothing in them to be read."""
    return Bands(np.empty((2, 0, 0), np.uint64), np.empty(2), np.empty(2))


@woven
def toggle(bands: Bands, state: LayState, i: int) -> None:
    """Take item i out of the bands it reaches into, or put it back."""
    bit = np.uint64(1) << np.uint64(i % 64)
    for axis in range(2):
        first, last = _span(bands, axis, state.reach[i, axis], state.reach[i, axis + 2])
        for b in range(first, last + 1):
            bands.member[axis, b, i // 64] ^= bit


@woven
def _span(bands: Bands, axis: int, low: float, high: float) -> tuple[int, int]:
    """The first and last band that (low, high) reaches into."""
    scale = bands.scale[axis]
    first = int((low - bands.start[axis]) * scale)
    last = int((high - bands.start[axis]) * scale)
    return min(max(first, 0), BANDS - 1), min(max(last, 0), BANDS - 1)


@woven
def bands_at_middle(
    bands: Bands, table: BoardArrays, s: int, x: float, y: float
) -> tuple[int, int]:
    """The bands (along, across) that the middle of a stance there lies in. Most places that
    are taken are taken by what is in both of them."""
    at_x = x + 0.5 * (table.box[s, 0] + table.box[s, 2])
    at_y = y + 0.5 * (table.box[s, 1] + table.box[s, 3])
    along, _ = _span(bands, 0, at_x, at_x)
    across, _ = _span(bands, 1, at_y, at_y)
    return along, across


@woven
def _listed(bits: np.uint64, word: int, near: np.ndarray, count: int) -> int:
    """Append the items of a word of bits; how many are listed then."""
    while bits != np.uint64(0):
        near[count] = word * 64 + lowest_bit(bits)
        bits &= bits - np.uint64(1)
        count += 1
    return count


@woven
def about(ground: Ground, s: int, x: float, y: float, margin: float) -> int:
    """List in ``near`` what a stance there could meet if moved by up to ``margin``; how many."""
    table, state, bands, near = ground.table, ground.state, ground.bands, ground.near
    first_x, last_x = _span(
        bands, 0, table.box[s, 0] + x - margin, table.box[s, 2] + x + margin
    )
    first_y, last_y = _span(
        bands, 1, table.box[s, 1] + y - margin, table.box[s, 3] + y + margin
    )
    count = 0
    for word in range(bands.member.shape[2]):
        along, across = np.uint64(0), np.uint64(0)
        for b in range(first_x, last_x + 1):
            along |= bands.member[0, b, word]
        for b in range(first_y, last_y + 1):
            across |= bands.member[1, b, word]
        count = _listed(along & across, word, near, count)
    for k in range(len(state.stance), state.overlap.shape[1]):
        near[count] = k
        count += 1
    return count
