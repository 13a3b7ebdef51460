"""The line along the middle of a long shape, however it bends."""

from __future__ import annotations

import heapq
from math import sqrt

import cv2
import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]
STEPS = ((1, 0, 1.0), (0, 1, 1.0), (-1, 0, 1.0), (0, -1, 1.0), (1, 1, sqrt(2)), (1, -1, sqrt(2)),
         (-1, 1, sqrt(2)), (-1, -1, sqrt(2)))
COARSE_MM = 1.0
BIN_MM = 3.0


def middle_line(mask: Mask, cell_mm: float) -> Array | None:
    """Points (n, 2), (column, row) in cells of the mask, from one end to the other.

    The two ends are the places farthest from each other within the shape; places equally
    far from one end are drawn together to their mean. None for a shape too short for it.
    """
    coarse = max(1, round(COARSE_MM / cell_mm))
    small = cv2.resize(mask.astype(np.float32), None, fx=1 / coarse, fy=1 / coarse,
                       interpolation=cv2.INTER_AREA) > 0.35
    rows, columns = np.nonzero(small)
    if len(rows) < 12:
        return None
    one = _farthest(small, (int(rows[0]), int(columns[0])))[0]
    end, away = _farthest(small, one)
    del end
    far = away[rows, columns]
    reached = np.isfinite(far)
    rows, columns, far = rows[reached], columns[reached], far[reached]
    bins = (far * coarse * cell_mm / BIN_MM).astype(int)
    count = np.bincount(bins)
    kept = count > 0
    if kept.sum() < 4:
        return None
    xs = np.bincount(bins, columns)[kept] / count[kept]
    ys = np.bincount(bins, rows)[kept] / count[kept]
    return (np.stack([xs, ys], axis=1) + 0.5) * coarse - 0.5


def _farthest(mask: Mask, start: tuple[int, int]) -> tuple[tuple[int, int], Array]:
    """(the place farthest from the start within the mask, all distances; Dijkstra 1959)."""
    away = np.full(mask.shape, np.inf)
    away[start] = 0.0
    heap = [(0.0, start)]
    last = start
    high, wide = mask.shape
    while heap:
        far, (row, column) = heapq.heappop(heap)
        if far > away[row, column]:
            continue
        last = (row, column)
        for dr, dc, length in STEPS:
            r, c = row + dr, column + dc
            if 0 <= r < high and 0 <= c < wide and mask[r, c] and far + length < away[r, c]:
                away[r, c] = far + length
                heapq.heappush(heap, (far + length, (r, c)))
    return last, away
