"""The floor straightened into a plan: a picture from above in which every cell is 1.5 mm."""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.eye.floor.find_sheets import Array
from stash.eye.floor.seen_floor import Floor, turned

CELL_MM = 1.5
REACH_MM = 2500.0
MOST_CELLS = 3500
BLACK = 12
MOST_FILL = 0.4


@dataclass(frozen=True)
class FloorPlan:
    """``colour`` is BGR, ``seen`` true where the picture shows the floor, ``sheets`` where a
    calibration sheet lies. Cell (row, column) lies at ``corner_mm`` + (column, row) * cell_mm.
    """

    colour: NDArray[np.uint8]
    seen: NDArray[np.bool_]
    sheets: NDArray[np.bool_]
    corner_mm: tuple[float, float]
    cell_mm: float

    def to_floor(self, cells: Array) -> Array:
        """Floor points in mm of plan points (column, row)."""
        return np.asarray(cells, float) * self.cell_mm + self.corner_mm


def straighten(
    image: NDArray[np.uint8], floor: Floor, paper_mm: Array, least_cell_mm: float = CELL_MM
) -> FloorPlan:
    """The plan of all the floor in the picture within reach of the sheets.

    ``paper_mm`` holds the corners of each sheet's paper on the floor, shape (n, 4, 2).
    """
    left, top, right, foot = _extent(floor, paper_mm.reshape(-1, 2).mean(axis=0))
    cell = max(least_cell_mm, (right - left) / MOST_CELLS, (foot - top) / MOST_CELLS)
    columns, rows = int((right - left) / cell) + 1, int((foot - top) / cell) + 1
    xs, ys = left + cell * np.arange(columns), top + cell * np.arange(rows)
    spots = np.stack(np.meshgrid(xs, ys), axis=-1).reshape(-1, 2)
    ahead = floor.in_front(spots)
    pixels = np.full(spots.shape, -9.0)
    pixels[ahead] = floor.to_image(spots[ahead])
    edge = 2.0
    inside = (
        (pixels > edge) & (pixels < (floor.width_px - 1 - edge, floor.height_px - 1 - edge))
    ).all(axis=1)
    smooth = cv2.GaussianBlur(image, (0, 0), max(0.6, 0.35 * _px_per_mm(floor, paper_mm) * cell))
    where = pixels.astype(np.float32).reshape(rows, columns, 2)
    colour = cv2.remap(smooth, where, None, cv2.INTER_LINEAR)
    filled = cv2.remap(_border_fill(image), where, None, cv2.INTER_NEAREST) > 0
    sheets = np.zeros((rows, columns), np.uint8)
    for quad in paper_mm:
        cells = (quad - (left, top)) / cell
        cv2.fillPoly(sheets, [np.round(cells).astype(np.int32)], 1)
    seen = inside.reshape(rows, columns) & ~filled
    return FloorPlan(colour, seen, sheets > 0, (left, top), cell)


def _border_fill(image: NDArray[np.uint8]) -> NDArray[np.uint8]:
    """Black that an editing program put around a turned or straightened picture, as 1."""
    black = np.pad((image.max(axis=-1) <= BLACK).astype(np.uint8), 1, constant_values=1)
    cv2.floodFill(black, None, (0, 0), 2)
    fill = (black[1:-1, 1:-1] == 2).astype(np.uint8)
    if not 0.001 < fill.mean() < MOST_FILL:  # a few dark pixels, or a floor that is black
        return np.zeros_like(fill)
    return cv2.dilate(fill, np.ones((7, 7), np.uint8))


def _extent(floor: Floor, middle: Array) -> tuple[float, float, float, float]:
    """The box around the floor in view, cut off far from the sheets."""
    xs = np.linspace(0, floor.width_px - 1, 60)
    ys = np.linspace(0, floor.height_px - 1, 60)
    grid = np.stack(np.meshgrid(xs, ys), axis=-1).reshape(-1, 2)
    with np.errstate(divide="ignore", invalid="ignore"):
        spots = floor.to_floor(grid)
    spots = spots[np.isfinite(spots).all(axis=1)]
    spots = spots[floor.in_front(spots)]
    near = np.abs(spots - middle).max(axis=1) < REACH_MM
    low, high = spots[near].min(axis=0), spots[near].max(axis=0)
    return float(low[0]), float(low[1]), float(high[0]), float(high[1])


def _px_per_mm(floor: Floor, paper_mm: Array) -> float:
    """Roughly how many pixels a millimetre takes near the sheets."""
    middle = paper_mm.reshape(-1, 2).mean(axis=0)
    ends = floor.to_image(np.array([middle, middle + (10.0, 0.0)]))
    return float(np.hypot(*(ends[1] - ends[0]))) / 10


def paper_on_floor(floor: Floor, sheets: int, corners_mm: Array, scale: float) -> Array:
    """Where the paper of each sheet lies, its corners given on the board."""
    quads = []
    for index in range(sheets):
        x, y, turn = floor.sheet_pose(index)
        quads.append(turned(corners_mm * scale, turn) + (x, y))
    return np.array(quads)
