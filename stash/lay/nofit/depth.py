"""Charts of no-fit regions: how deep a point lies inside one, exactly, in a few steps.

Each region is covered by a grid. A cell says whether all of it is outside, or how deep
all of it is at the least, and lists the edges that can be nearest to a point inside it;
so depth and the shortest way out take two or three edges instead of all of them.
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np

from stash.lay.compiled import inlined, inner, kernel

CELLS = 24  # per side; finer grids shorten the lists but crowd the processor's cache
BLOCK = 4  # cells along a side of a block; blocks only speed the making of a chart
BLOCKS = CELLS // BLOCK
ROUNDING = 1e-9
FLOAT_ROUNDING = 1e-6  # least depths are kept in single precision
ANCHOR_X, ANCHOR_Y = 0.4871393, 0.5236721  # shares of the cell, where edges seldom pass
REACH = 0.53  # no point of a cell is farther from its anchor than this share of the diagonal
OUTSIDE, MIXED = 0.0, -1.0  # what ``least`` says of cells that are not wholly inside


class Charts(NamedTuple):
    """Regions 0..r-1, flattened for the kernels.

    edges (e, 5): both ends, kept exactly so that rings stay closed, and 1 / length
    squared; ``first`` (r + 1) where each region's begin. bounds (r, 4), scale (r, 2): cells
    per mm. inner_left (r,): 1 where edges run with the inside on their left, else -1.
    Per cell (r * CELLS * CELLS), ``least``: OUTSIDE, MIXED, or a depth that every point of
    it has at the least; ``start``: where its list begins in ``near``.
    """

    edges: np.ndarray
    first: np.ndarray
    bounds: np.ndarray
    scale: np.ndarray
    inner_left: np.ndarray
    least: np.ndarray
    start: np.ndarray
    near: np.ndarray


def chart(regions: list[np.ndarray]) -> Charts:
    """Charts of regions given by their edges (n, 4)."""
    first = np.zeros(len(regions) + 1, np.int64)
    first[1:] = np.cumsum([len(r) for r in regions])
    ends = np.vstack(regions) if regions else np.zeros((0, 4))
    delta = ends[:, 2:] - ends[:, :2]
    squared = np.maximum((delta**2).sum(1, keepdims=True), 1e-30)
    edges = np.ascontiguousarray(np.hstack([ends, 1 / squared]))
    bounds = _bounds(ends, first)
    span = np.maximum(bounds[:, 2:] - bounds[:, :2], 1e-9)
    scale = CELLS / span
    least = np.zeros(len(regions) * CELLS * CELLS, np.float32)
    start = np.zeros(len(least) + 1, np.int32)
    near = _fill_cells(edges, first, bounds, scale, least, start)
    return Charts(edges, first, bounds, scale, _inner_left(ends, first), least, start, near)


def joined(a: Charts, b: Charts) -> Charts:
    """The regions of both, those of ``b`` numbered on."""
    return Charts(
        np.vstack([a.edges, b.edges]),
        np.concatenate([a.first, b.first[1:] + a.first[-1]]),
        np.vstack([a.bounds, b.bounds]),
        np.vstack([a.scale, b.scale]),
        np.concatenate([a.inner_left, b.inner_left]),
        np.concatenate([a.least, b.least]),
        np.concatenate([a.start, b.start[1:] + a.start[-1]]),
        np.concatenate([a.near, b.near + np.int32(len(a.edges))]),
    )


def _bounds(ends: np.ndarray, first: np.ndarray) -> np.ndarray:
    """Box round each region: edges first[r]..first[r + 1]."""
    if not len(ends):
        return np.zeros((0, 4))
    low = np.minimum.reduceat(np.minimum(ends[:, :2], ends[:, 2:]), first[:-1])
    high = np.maximum.reduceat(np.maximum(ends[:, :2], ends[:, 2:]), first[:-1])
    return np.hstack([low, high])


def _inner_left(ends: np.ndarray, first: np.ndarray) -> np.ndarray:
    """By the signed area, which holes of a region lessen but never turn."""
    if not len(ends):
        return np.zeros(0)
    cross = ends[:, 0] * ends[:, 3] - ends[:, 2] * ends[:, 1]
    return np.where(np.add.reduceat(cross, first[:-1]) > 0, 1.0, -1.0)


@inlined
def _distance_squared(edges: np.ndarray, e: int, x: float, y: float) -> float:
    dx, dy = edges[e, 2] - edges[e, 0], edges[e, 3] - edges[e, 1]
    ex, ey = x - edges[e, 0], y - edges[e, 1]
    along = (ex * dx + ey * dy) * edges[e, 4]
    along = along if along > 0.0 else 0.0
    along = along if along < 1.0 else 1.0
    px, py = along * dx - ex, along * dy - ey
    return float(px * px + py * py)


@kernel
def _fill_cells(
    edges: np.ndarray, first: np.ndarray, bounds: np.ndarray, scale: np.ndarray, least:
    np.ndarray, start: np.ndarray,
) -> np.ndarray:
    """Least depths and edge lists of all cells. An edge too far from a whole block of cells is
    not asked about again for each of them."""
    near = np.empty(4 * len(least) + 64, np.int32)
    most = 0
    for region in range(len(bounds)):
        most = max(most, first[region + 1] - first[region])
    asked, counts = np.empty((BLOCKS, most), np.int32), np.empty(BLOCKS, np.int64)
    distance = np.empty(most)
    used = 0
    for region in range(len(bounds)):
        a, b = first[region], first[region + 1]
        grid = (bounds[region, 0], bounds[region, 1], 1 / scale[region, 0], 1 / scale[region, 1])
        for row in range(CELLS):
            cell = (region * CELLS + row) * CELLS
            if row % BLOCK == 0:
                _ask(edges, a, b, grid, row, asked, counts, distance)
            if used + CELLS * (b - a) > len(near):
                near = np.concatenate((near, np.empty(len(near) + CELLS * (b - a), np.int32)))
            _mark_inside(edges, a, b, grid, row, least, cell)
            known = (asked, counts, distance)
            used = _fill_row(edges, grid, row, known, (least, start, cell), near, used)
    return near[:used].copy()


@inner
def _ask(
    edges: np.ndarray, a: int, b: int, grid: tuple[float, float, float, float], row: int, asked:
    np.ndarray, counts: np.ndarray, distance: np.ndarray,
) -> None:
    """List for every block that begins at this row the edges its cells may be near to."""
    left, low, wide, high = grid
    reach = (BLOCK - 1 + 2 * REACH) * math.hypot(wide, high)
    y = low + (row + (BLOCK - 1) / 2 + ANCHOR_Y) * high
    for block in range(BLOCKS):
        x = left + (block * BLOCK + (BLOCK - 1) / 2 + ANCHOR_X) * wide
        least = 1e300
        for e in range(a, b):
            squared = _distance_squared(edges, e, x, y)
            distance[e - a] = squared
            least = squared if squared < least else least
        farthest = (math.sqrt(least) + reach) ** 2 * (1 + ROUNDING)
        count = 0
        for e in range(a, b):
            if distance[e - a] <= farthest:
                asked[block, count] = e
                count += 1
        counts[block] = count


@inner
def _mark_inside(
    edges: np.ndarray, a: int, b: int, grid: tuple[float, float, float, float], row: int, least:
    np.ndarray, cell: int,
) -> None:
    """Mark as MIXED every cell of the row whose anchor is inside the region, others OUTSIDE."""
    left, low, wide, high = grid
    y = low + (row + ANCHOR_Y) * high
    for column in range(CELLS):
        least[cell + column] = OUTSIDE
    for e in range(a, b):
        y0, y1 = edges[e, 1], edges[e, 3]
        if (y0 > y) != (y1 > y):
            crossing = edges[e, 0] + (y - y0) / (y1 - y0) * (edges[e, 2] - edges[e, 0])
            column = 0
            while column < CELLS and left + (column + ANCHOR_X) * wide < crossing:
                least[cell + column] = MIXED - least[cell + column]
                column += 1


@inner
def _fill_row(
    edges: np.ndarray, grid: tuple[float, float, float, float], row: int, known:
    tuple[np.ndarray, np.ndarray, np.ndarray], cells: tuple[np.ndarray, np.ndarray, int], near:
    np.ndarray, used: int,
) -> int:
    """Settle a row of cells and append their edges to ``near``; how many that holds then."""
    asked, counts, distance = known
    least, start, cell = cells
    left, low, wide, high = grid
    radius = REACH * math.hypot(wide, high)
    y = low + (row + ANCHOR_Y) * high
    for column in range(CELLS):
        block = column // BLOCK
        x = left + (column + ANCHOR_X) * wide
        squared = 1e300
        for k in range(counts[block]):
            apart = _distance_squared(edges, asked[block, k], x, y)
            distance[k] = apart
            squared = apart if apart < squared else squared
        inside = least[cell + column] == MIXED
        sure = (math.sqrt(squared) - radius) * (1 - FLOAT_ROUNDING)
        if squared <= radius**2:
            least[cell + column] = MIXED
        elif inside:
            least[cell + column] = sure if sure > FLOAT_ROUNDING else MIXED
        if inside or squared <= radius**2:
            farthest = (math.sqrt(squared) + 2 * radius) ** 2
            for k in range(counts[block]):
                if distance[k] <= farthest:
                    near[used] = asked[block, k]
                    used += 1
        start[cell + column + 1] = used
    return used


@inlined
def depth(
    charts: Charts, region: int, x: float, y: float, enough: float
) -> tuple[float, float, float]:
    """(depth, dx, dy): how far (x, y) is inside the region, and the shortest step out.

    A place surely deeper than ``enough`` may be given a lesser depth above it, and no step.
    """
    cell = _cell(charts, region, x, y)
    if cell < 0 or charts.least[cell] == OUTSIDE:
        return 0.0, 0.0, 0.0
    if charts.least[cell] > enough:
        return charts.least[cell], 0.0, 0.0
    squared, dx, dy, _, inside = _nearest(charts, region, cell, x, y)
    if inside:
        return math.sqrt(squared), dx, dy
    return 0.0, 0.0, 0.0


@inlined
def sure_depth(charts: Charts, region: int, x: float, y: float) -> float:
    """How deep (x, y) is at the least, going by its cell alone and without decisions."""
    bounds, scale = charts.bounds, charts.scale
    within = (
        (x > bounds[region, 0]) & (x < bounds[region, 2])
        & (y > bounds[region, 1]) & (y < bounds[region, 3])
    )
    column = int((x - bounds[region, 0]) * scale[region, 0])
    row = int((y - bounds[region, 1]) * scale[region, 1])
    column, row = min(CELLS - 1, max(0, column)), min(CELLS - 1, max(0, row))
    least = charts.least[(region * CELLS + row) * CELLS + column]
    return max(least, 0.0) if within else 0.0


@inlined
def beside(charts: Charts, region: int, x: float, y: float) -> tuple[bool, float, float, float]:
    """(near, depth, nx, ny): whether the region is near, how far (x, y) is inside it, less
    than nothing outside, and the unit step straight away from the edge it is nearest to."""
    cell = _cell(charts, region, x, y)
    if cell < 0 or charts.least[cell] == OUTSIDE:
        return False, 0.0, 0.0, 0.0
    squared, dx, dy, e, inside = _nearest(charts, region, cell, x, y)
    away = math.sqrt(squared)
    if away > ROUNDING:
        sign = 1.0 if inside else -1.0
        return True, sign * away, sign * dx / away, sign * dy / away
    edges = charts.edges
    turned = charts.inner_left[region] * math.sqrt(edges[e, 4])
    return (
        True, 0.0,
        turned * (edges[e, 3] - edges[e, 1]), turned * (edges[e, 0] - edges[e, 2]),
    )


@inlined
def _cell(charts: Charts, region: int, x: float, y: float) -> int:
    """The cell that holds the point, -1 when it is outside the grid."""
    bounds, scale = charts.bounds, charts.scale
    if (
        x <= bounds[region, 0]
        or x >= bounds[region, 2]
        or y <= bounds[region, 1]
        or y >= bounds[region, 3]
    ):
        return -1
    column = min(CELLS - 1, int((x - bounds[region, 0]) * scale[region, 0]))
    row = min(CELLS - 1, int((y - bounds[region, 1]) * scale[region, 1]))
    return (region * CELLS + row) * CELLS + column


@inlined
def _nearest(
    charts: Charts, region: int, cell: int, x: float, y: float
) -> tuple[float, float, float, int, bool]:
    """(squared distance, dx, dy, edge, whether inside) by the nearest edge of the region. Of
    two that meet in the nearest point, the one it lies farther beside tells the side."""
    edges = charts.edges
    best, dx, dy = 1e300, 0.0, 0.0
    edge, side, straight = -1, 0.0, -1.0
    for k in range(charts.start[cell], charts.start[cell + 1]):
        e = charts.near[k]
        ex, ey = edges[e, 0] - x, edges[e, 1] - y
        gx, gy = edges[e, 2] - edges[e, 0], edges[e, 3] - edges[e, 1]
        along = -(ex * gx + ey * gy) * edges[e, 4]
        along = min(1.0, max(0.0, along))
        px = ex + along * gx
        py = ey + along * gy
        squared = px * px + py * py
        if squared <= best * (1 + ROUNDING):
            left = gy * ex - gx * ey
            apart = left * left * edges[e, 4]
            if squared < best * (1 - ROUNDING) or apart > straight:
                edge, side, straight = e, left, apart
            if squared < best:
                best, dx, dy = squared, px, py
    return best, dx, dy, edge, side * charts.inner_left[region] > 0.0
