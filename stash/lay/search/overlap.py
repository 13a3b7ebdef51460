"""The weighted overlaps that an item has at a position, and what keeps two items apart."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from stash.lay.compiled import inner, kernel, woven
from stash.lay.nofit.depth import depth

if TYPE_CHECKING:
    from stash.lay.nofit.depth import Charts
    from stash.lay.search.board import BoardArrays
    from stash.lay.search.ground import Ground

TOUCH_MM = 0.002  # overlaps up to this are rounding: a hair is thirty times as thick


class LayState(NamedTuple):
    """Where every item is, and how much it overlaps.

    position (n, 2); stance (n,), -1 when not laid; reach (n, 4): extent where it lies;
    weight and overlap (n, n + o): pairs of items, then item with obstacle.
    """

    position: np.ndarray
    stance: np.ndarray
    reach: np.ndarray
    weight: np.ndarray
    overlap: np.ndarray


def empty_state(items: int, obstacles: int) -> LayState:
    """A state with nothing laid."""
    return LayState(
        np.zeros((items, 2)),
        np.full(items, -1, np.int64),
        np.zeros((items, 4)),
        np.ones((items, items + obstacles)),
        np.zeros((items, items + obstacles)),
    )


def copied(state: LayState) -> LayState:
    """A state of its own."""
    return LayState(*(a.copy() for a in state))


def restore(state: LayState, kept: LayState) -> None:
    """Put items back where they were in ``kept``; weights stay."""
    state.position[:], state.stance[:], state.reach[:] = kept.position, kept.stance, kept.reach


@woven
def put(table: BoardArrays, state: LayState, i: int, s: int, x: float, y: float) -> None:
    """Lay item i there in stance s."""
    state.position[i, 0] = x
    state.position[i, 1] = y
    state.stance[i] = s
    for k in range(4):
        state.reach[i, k] = table.box[s, k] + (x if k % 2 == 0 else y)


@inner
def everything(state: LayState, near: np.ndarray) -> int:
    """List all items and obstacles in ``near``; how many."""
    for k in range(state.overlap.shape[1]):
        near[k] = k
    return int(state.overlap.shape[1])


@woven
def cost(ground: Ground, i: int, s: int, x: float, y: float, limit: float, count: int) -> float:
    """Weighted overlap of item i there with those listed; stops counting above ``limit``."""
    table, charts, state, near = ground.table, ground.charts, ground.state, ground.near
    total = 0.0
    n = len(state.stance)
    left, low = table.box[s, 0] + x, table.box[s, 1] + y
    right, high = table.box[s, 2] + x, table.box[s, 3] + y
    for c in range(count):
        k = near[c]
        if k < n and (
            state.reach[k, 0] >= right
            or state.reach[k, 2] <= left
            or state.reach[k, 1] >= high
            or state.reach[k, 3] <= low
        ):
            continue
        region, fx, fy, px, py = between(table, state, i, s, k)
        if region < 0:
            continue
        weight = state.weight[i, k]
        enough = max(TOUCH_MM, (limit - total) / weight)
        d, _, _ = depth(charts, region, (x - px) * fx, (y - py) * fy, enough)
        if d > TOUCH_MM:
            total += weight * d
            if total > limit:
                break
    return float(total)


@woven
def pull(
    ground: Ground, i: int, s: int, x: float, y: float, count: int
) -> tuple[float, float, float, float]:
    """(deepest dx, dy, mean dx, dy): ways out of the weightiest overlap and of all."""
    table, charts, state, near = ground.table, ground.charts, ground.state, ground.near
    most, most_x, most_y = 0.0, 0.0, 0.0
    sum_w, sum_x, sum_y = 0.0, 0.0, 0.0
    for c in range(count):
        k = near[c]
        d, dx, dy = pair_depth(table, charts, state, i, k, s, x, y)
        if d > TOUCH_MM:
            w = state.weight[i, k]
            sum_w += w
            sum_x += w * dx
            sum_y += w * dy
            if w * d > most:
                most, most_x, most_y = w * d, dx, dy
    if sum_w > 0:
        return most_x, most_y, sum_x / sum_w, sum_y / sum_w
    return 0.0, 0.0, 0.0, 0.0


@woven
def pair_depth(
    table: BoardArrays, charts: Charts, state: LayState, i: int, k: int, s: int, x: float, y: float
) -> tuple[float, float, float]:
    """Depth and way out of item i there with item k, or with obstacle k - n."""
    region, fx, fy, px, py = between(table, state, i, s, k)
    if region < 0:
        return 0.0, 0.0, 0.0
    d, dx, dy = depth(charts, region, (x - px) * fx, (y - py) * fy, np.inf)
    return d, dx * fx, dy * fy


@woven
def measure(table: BoardArrays, charts: Charts, state: LayState, i: int) -> None:
    """Bring row and column i of ``overlap`` up to date."""
    n = len(state.stance)
    x, y = state.position[i, 0], state.position[i, 1]
    mine = state.reach[i]
    for k in range(n + len(table.blocked_layers)):
        d = 0.0
        if k >= n or not (
            state.reach[k, 0] >= mine[2]
            or state.reach[k, 2] <= mine[0]
            or state.reach[k, 1] >= mine[3]
            or state.reach[k, 3] <= mine[1]
        ):
            d, _, _ = pair_depth(table, charts, state, i, k, state.stance[i], x, y)
        state.overlap[i, k] = d if d > TOUCH_MM else 0.0
        if k < n:
            state.overlap[k, i] = state.overlap[i, k]


@woven
def overlap_left(table: BoardArrays, state: LayState) -> float:
    """The sum of ``overlap`` in mm, each times the heft of its pair."""
    n = len(state.stance)
    total = 0.0
    for i in range(n):
        for k in range(state.overlap.shape[1]):
            if state.overlap[i, k] > 0.0:
                total += state.overlap[i, k] * table.heft[i, k] * (0.5 if k < n else 1.0)
    return total


@woven
def snap(
    table: BoardArrays, i: int, s: int, x: float, y: float, cut_back: float
) -> tuple[bool, float, float]:
    """(found, x, y): the nearest permitted origin, inside the sheet and on the lattice."""
    x0, y0 = table.fit[s, 0], table.fit[s, 1]
    x1, y1 = table.fit[s, 2] - cut_back, table.fit[s, 3]
    if x1 < x0 or y1 < y0:
        return False, x, y
    x = min(max(x, x0), x1)
    y = min(max(y, y0), y1)
    if not table.latticed[i]:
        return True, x, y
    along, across = table.pitch[0], table.pitch[1]
    column = 0.0
    if across > 0:
        column = np.rint((y + table.phase[s, 1]) / across)
        at = column * across - table.phase[s, 1]
        if y1 - y0 > 1e-9:
            if at > y1:
                column -= 1
            elif at < y0:
                column += 1
            y = column * across - table.phase[s, 1]
            if y < y0 or y > y1:
                return False, x, y
    if along > 0:
        drop = 0.5 * along if table.pitch[2] > 0 and int(column) % 2 != 0 else 0.0
        row = np.rint((x + table.phase[s, 0] - drop) / along)
        at = row * along + drop - table.phase[s, 0]
        if at > x1:
            at -= along
        elif at < x0:
            at += along
        x = at
        if x < x0 or x > x1:
            return False, x, y
    return True, x, y


@kernel
def snapped(
    table: BoardArrays, i: int, s: int, x: float, y: float, cut_back: float
) -> tuple[bool, float, float]:
    """``snap`` for callers that are no kernels."""
    return snap(table, i, s, x, y, cut_back)


@kernel
def laid(table: BoardArrays, state: LayState, i: int, s: int, x: float, y: float) -> None:
    """``put`` for callers that are no kernels."""
    put(table, state, i, s, x, y)


@woven
def draw(source: np.ndarray) -> float:
    """A number in [0, 1) from the generator's state (xorshift64*, Vigna 2016)."""
    a = source[0]
    a ^= a >> np.uint64(12)
    a ^= a << np.uint64(25)
    a ^= a >> np.uint64(27)
    source[0] = a
    return float((a * np.uint64(2685821657736338717)) >> np.uint64(11)) * (1.0 / 9007199254740992.0)


def source(seed: int, stream: int = 0) -> np.ndarray:
    """The state of a generator of its own for this seed and stream."""
    mixed = np.random.SeedSequence([seed % 2**63, stream]).generate_state(1, np.uint64)
    return mixed | np.uint64(1)


@woven
def between(
    table: BoardArrays, state: LayState, i: int, s: int, k: int
) -> tuple[int, float, float, float, float]:
    """(region, flip x, flip y, x, y) for item i in stance s and item k, or obstacle k - n.

    Item i at p overlaps where (p - (x, y)) * flip is inside the region, which is -1 when the
    two may lie over each other.
    """
    n = len(state.stance)
    if k >= n:
        met = table.blocked_layers[k - n] & table.layers[s]
        return (table.blocked[k - n, s] if met else -1), 1.0, 1.0, 0.0, 0.0
    t = state.stance[k]
    if k == i or t < 0 or not (table.layers[t] & table.layers[s]):
        return -1, 1.0, 1.0, 0.0, 0.0
    return (
        table.region[t, s], table.flip[t, 0], table.flip[t, 1],
        state.position[k, 0], state.position[k, 1],
    )
