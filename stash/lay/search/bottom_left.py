"""The first lay, by bottom-left fill: items laid one after another, each as far back as it
goes; fills in several orders, the shortest kept.

Candidates are the corners of an item's fit, the corners of no-fit regions and their
crossings with each other and with the fit's sides: a tightest position is always one
of these. On a repeat the lattice itself gives the candidates.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from stash.lay.cloth.spread import SECOND
from stash.lay.compiled import inner, kernel, lent, woven
from stash.lay.search.ascending import ascending
from stash.lay.search.board import Board, used_mm
from stash.lay.search.ground import Ground
from stash.lay.search.neighbours import no_bands
from stash.lay.search.overlap import LayState, between, cost, empty_state, everything, put, snap
from stash.lay.search.ways_to_spread import WayToSpread

if TYPE_CHECKING:
    from stash.lay.nofit.depth import Charts
    from stash.lay.search.ascending import ascending
from stash.lay.search.board import BoardArrays

MOST_CANDIDATES = 40_000
MOST_SIDES = 12_000
ROUNDING_MM = 1e-7
BENEATH_MM = 30.0  # of length: what a place on the lower layer alone costs, awkward to cut
LEANS = ((1.0, 0.01), (0.01, 1.0), (1.0, 1.0))
FEW, SHUFFLES = 12, 16  # up to this many items, also so many orders with neighbours swapped


@kernel
def fill(
    table: BoardArrays, charts: Charts, state: LayState, order: np.ndarray, cut_back: float,
    lean: tuple[float, float],
) -> int:
    """Lay items in ``order``; how many found a place. ``lean``: price of x
    (above nothing) and of y."""
    table, charts, state = lent(table), lent(charts), lent(state)
    for i in range(len(state.stance)):
        state.stance[i] = -1
    spots = np.empty((MOST_CANDIDATES, 2))
    price = np.empty(MOST_CANDIDATES)
    sides = np.empty((MOST_SIDES, 4))
    near = np.empty(state.overlap.shape[1] + 1, np.int64)
    listed = everything(state, near)
    ground = Ground(table, charts, state, no_bands(), near, cut_back)
    for count in range(len(order)):
        i = order[count]
        best, best_x, best_y, best_s = 1e300, 0.0, 0.0, -1
        for q in range(table.choices.shape[1]):
            s = table.choices[i, q]
            if s < 0 or table.fit[s, 2] - cut_back < table.fit[s, 0]:
                continue
            if table.fit[s, 3] < table.fit[s, 1]:
                continue
            if table.latticed[i]:
                found = _on_lattice(table, i, s, spots, cut_back)
            else:
                found = _candidates(ground, i, s, spots, sides, lean, best)
            kept = _priced(ground, s, spots, found, price, lean, best)
            for k in ascending(price, kept):
                x, y = spots[k, 0], spots[k, 1]
                if cost(ground, i, s, x, y, 0.0, listed) <= 0:
                    best, best_x, best_y, best_s = price[k], x, y, s
                    break
        if best_s < 0:
            return count
        put(table, state, i, best_s, best_x, best_y)
    return len(order)


@inner
def _priced(
    ground: Ground, s: int, spots: np.ndarray, found: int, price: np.ndarray, lean: tuple[float,
    float], best: float,
) -> int:
    """Keep the candidates that lie in the fit and cost less than ``best``; how many."""
    table, cut_back = ground.table, ground.cut_back
    x0, x1 = table.fit[s, 0] - ROUNDING_MM, table.fit[s, 2] - cut_back + ROUNDING_MM
    y0, y1 = table.fit[s, 1] - ROUNDING_MM, table.fit[s, 3] + ROUNDING_MM
    base = lean[0] * table.box[s, 2] + lean[1] * table.box[s, 3]
    if table.layers[s] == SECOND:
        base += lean[0] * BENEATH_MM
    kept = 0
    for k in range(found):
        x, y = spots[k, 0], spots[k, 1]
        p = base + lean[0] * x + lean[1] * y
        if p < best and x0 <= x <= x1 and y0 <= y <= y1:
            spots[kept, 0], spots[kept, 1], price[kept] = x, y, p
            kept += 1
    return kept


@inner
def _on_lattice(table: BoardArrays, i: int, s: int, spots: np.ndarray, cut_back: float) -> int:
    """Every lattice position of the stance; a free direction counts only its ends."""
    x0, x1 = table.fit[s, 0], table.fit[s, 2] - cut_back
    y0, y1 = table.fit[s, 1], table.fit[s, 3]
    along = table.pitch[0] if table.pitch[0] > 0 else 10.0
    across = table.pitch[1] if table.pitch[1] > 0 else 10.0
    found = 0
    y = y0
    while y <= y1 + 1e-9:
        x = x0
        while x <= x1 + along and found < MOST_CANDIDATES:
            free, at_x, at_y = snap(table, i, s, x, y, cut_back)
            if free:
                spots[found, 0], spots[found, 1] = at_x, at_y
                found += 1
            x += along
        y += across
    return found


@inner
def _candidates(
    ground: Ground, i: int, s: int, spots: np.ndarray, sides: np.ndarray, lean: tuple[float,
    float], best: float,
) -> int:
    table, charts, state, cut_back = ground.table, ground.charts, ground.state, ground.cut_back
    x0, x1 = table.fit[s, 0], table.fit[s, 2] - cut_back
    y0, y1 = table.fit[s, 1], table.fit[s, 3]
    for k in range(4):
        spots[k, 0] = x0 if k % 2 == 0 else x1
        spots[k, 1] = y0 if k < 2 else y1
    found = 4
    count = 0
    for k in range(state.overlap.shape[1]):
        region, fx, fy, px, py = between(table, state, i, s, k)
        if region < 0:
            continue
        count = _gather(charts, region, (fx, fy, px, py), (x0, y0, x1, y1), sides, count)
    for a in range(count):
        found = _with_box(sides, a, (x0, y0, x1, y1), spots, found)
    beyond = best - lean[0] * table.box[s, 2] - lean[1] * (table.box[s, 3] + y0)
    return _crossings(sides, count, spots, found, beyond / lean[0])


@woven
def _gather(
    charts: Charts, region: int, where: tuple[float, float, float, float], fit: tuple[float,
    float, float, float], sides: np.ndarray, count: int,
) -> int:
    """Append the region's edges, moved where they lie, that meet the fit."""
    fx, fy, px, py = where
    for e in range(charts.first[region], charts.first[region + 1]):
        ax, ay = charts.edges[e, 0] * fx + px, charts.edges[e, 1] * fy + py
        bx, by = charts.edges[e, 2] * fx + px, charts.edges[e, 3] * fy + py
        if max(ax, bx) < fit[0] or min(ax, bx) > fit[2]:
            continue
        if max(ay, by) < fit[1] or min(ay, by) > fit[3] or count >= MOST_SIDES:
            continue
        sides[count, 0], sides[count, 1], sides[count, 2], sides[count, 3] = ax, ay, bx, by
        count += 1
    return count


@woven
def _with_box(
    sides: np.ndarray, a: int, fit: tuple[float, float, float, float], spots: np.ndarray, found: int
) -> int:
    """Append the first corner of side a and its crossings with the sides of the fit."""
    if found + 5 >= MOST_CANDIDATES:
        return found
    ax, ay, bx, by = sides[a, 0], sides[a, 1], sides[a, 2], sides[a, 3]
    if fit[0] <= ax <= fit[2] and fit[1] <= ay <= fit[3]:
        spots[found, 0], spots[found, 1] = ax, ay
        found += 1
    for k in range(2):
        y = fit[1 + 2 * k]
        if (ay < y) != (by < y):
            x = ax + (y - ay) / (by - ay) * (bx - ax)
            if fit[0] <= x <= fit[2]:
                spots[found, 0], spots[found, 1] = x, y
                found += 1
        x = fit[2 * k]
        if (ax < x) != (bx < x):
            y = ay + (x - ax) / (bx - ax) * (by - ay)
            if fit[1] <= y <= fit[3]:
                spots[found, 0], spots[found, 1] = x, y
                found += 1
    return found


@inner
def _crossings(
    sides: np.ndarray, count: int, spots: np.ndarray, found: int, farthest: float
) -> int:
    """Append crossings of sides with each other, in a sweep along x up to ``farthest``."""
    lows = np.empty(count)
    for a in range(count):
        lows[a] = min(sides[a, 0], sides[a, 2])
    order = ascending(lows, count)
    for p in range(count):
        a = order[p]
        if lows[a] > farthest:
            break
        end = max(sides[a, 0], sides[a, 2])
        low, high = min(sides[a, 1], sides[a, 3]), max(sides[a, 1], sides[a, 3])
        ax, ay = sides[a, 0], sides[a, 1]
        dx, dy = sides[a, 2] - ax, sides[a, 3] - ay
        for q in range(p + 1, count):
            b = order[q]
            if lows[b] > end:
                break
            if min(sides[b, 1], sides[b, 3]) > high or max(sides[b, 1], sides[b, 3]) < low:
                continue
            ex, ey = sides[b, 2] - sides[b, 0], sides[b, 3] - sides[b, 1]
            across = dx * ey - dy * ex
            if abs(across) < 1e-12:
                continue
            t = ((sides[b, 0] - ax) * ey - (sides[b, 1] - ay) * ex) / across
            u = ((sides[b, 0] - ax) * dy - (sides[b, 1] - ay) * dx) / across
            if 0 <= t <= 1 and 0 <= u <= 1 and found < MOST_CANDIDATES:
                spots[found, 0], spots[found, 1] = ax + t * dx, ay + t * dy
                found += 1
    return found


def first_state(way: WayToSpread) -> LayState | None:
    """The shortest of the fills; within the cut where one of them is, None when none is whole."""
    board = way.board
    whole = list(_fills(board, 0.0, LEANS[:1]))
    if way.cut_back > 0 and not any(way.within(s) for s in whole):
        whole += _fills(board, way.cut_back, LEANS)
    return min(whole, key=lambda s: used_mm(board, s), default=None)


def _fills(
    board: Board, cut_back: float, leans: tuple[tuple[float, float], ...]
) -> Iterator[LayState]:
    """Fills that laid everything."""
    for lean in leans:
        for order in _orders(board):
            state = empty_state(len(board.items), len(board.table.blocked_layers))
            if fill(board.table, board.charts, state, order, cut_back, lean) == len(order):
                yield state


def _orders(board: Board) -> Iterator[np.ndarray]:
    """Largest first, by area, length, width, box and longest side."""
    first = board.table.choices[:, 0]
    size = board.table.box[first, 2:] - board.table.box[first, :2]
    long, wide = size.T
    for key in (board.areas_mm2, long, wide, long * wide, np.maximum(long, wide)):
        yield np.argsort(-key, kind="stable")
    if len(size) <= FEW:
        random = np.random.default_rng(0)
        for _ in range(SHUFFLES):
            yield np.argsort(-board.areas_mm2 * random.uniform(0.5, 1.5, len(size)))
