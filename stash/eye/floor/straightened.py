"""The floor straightened into a plan: a picture from above in which every cell is 1.5 mm."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.eye.floor.find_sheets import Array
from stash.eye.floor.seen_floor import Floor, turned

CELL_MM = 1.5
STEP = 8
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


@dataclass(frozen=True)
class FloorGrid:
    """Where the cells of a plan lie: its upper left one, their size in mm, how many."""

    left: float
    top: float
    cell_mm: float
    columns: int
    rows: int

    def spots(self) -> Array:
        """The middles of all cells in mm, row by row."""
        return self._spots(1, self.columns, self.rows)

    def _spots(self, step: int, columns: int, rows: int) -> Array:
        xs = self.left + self.cell_mm * step * np.arange(columns)
        ys = self.top + self.cell_mm * step * np.arange(rows)
        return np.stack(np.meshgrid(xs, ys), axis=-1).reshape(-1, 2)

    def smooth(self, value: Callable[[Array], Array]) -> NDArray[np.float32]:
        """What hardly changes from cell to cell, looked up at every eighth: (rows, columns, n).

        A perspective bends so little within a centimetre that nothing moves by a tenth of a cell.
        """
        columns, rows = self.columns // STEP + 2, self.rows // STEP + 2
        few = value(self._spots(STEP, columns, rows)).reshape(rows, columns, -1)
        scale = np.array([[1 / STEP, 0, 0], [0, 1 / STEP, 0]])
        size = self.columns, self.rows
        flags = cv2.INTER_LINEAR | cv2.WARP_INVERSE_MAP
        layers = [cv2.warpAffine(layer, scale, size, flags=flags, borderMode=cv2.BORDER_REPLICATE)
                  for layer in cv2.split(few.astype(np.float32))]
        return cv2.merge(layers).reshape(self.rows, self.columns, -1)


def grid_over(
    box: tuple[float, float, float, float], least_cell_mm: float = CELL_MM
) -> FloorGrid:
    """The cells over (left, top, right, foot), no smaller than so much and not too many."""
    left, top, right, foot = box
    cell = max(least_cell_mm, (right - left) / MOST_CELLS, (foot - top) / MOST_CELLS)
    return FloorGrid(left, top, cell, int((right - left) / cell) + 1, int((foot - top) / cell) + 1)


def straighten(
    image: NDArray[np.uint8], floor: Floor, paper_mm: Array, least_cell_mm: float = CELL_MM
) -> FloorPlan:
    """The plan of all the floor in the picture within reach of the sheets.

    ``paper_mm`` holds the corners of each sheet's paper on the floor, shape (n, 4, 2).
    """
    middle = paper_mm.reshape(-1, 2).mean(axis=0)
    grid = grid_over(floor_in_view(floor, middle), least_cell_mm)
    return straightened_onto(grid, image, floor, paper_mm)


def straightened_onto(
    grid: FloorGrid, image: NDArray[np.uint8], floor: Floor, paper_mm: Array
) -> FloorPlan:
    """The plan on the cells of a grid."""
    where = np.nan_to_num(grid.smooth(lambda spots: pixels_of(floor, spots)), nan=-9.0)
    edge = 2.0
    inside = (
        (where > edge) & (where < (floor.width_px - 1 - edge, floor.height_px - 1 - edge))
    ).all(axis=-1)
    blur = max(0.6, 0.35 * _px_per_mm(floor, paper_mm) * grid.cell_mm)
    smooth = cv2.GaussianBlur(image, (0, 0), blur)
    colour = cv2.remap(smooth, where, None, cv2.INTER_LINEAR)
    filled = cv2.remap(_border_fill(image), where, None, cv2.INTER_NEAREST) > 0
    sheets = np.zeros((grid.rows, grid.columns), np.uint8)
    for quad in paper_mm:
        cells = (quad - (grid.left, grid.top)) / grid.cell_mm
        cv2.fillPoly(sheets, [np.round(cells).astype(np.int32)], 1)
    return FloorPlan(colour, inside & ~filled, sheets > 0, (grid.left, grid.top), grid.cell_mm)


def pixels_of(floor: Floor, spots_mm: Array) -> Array:
    """Where places on the floor are seen; not a number behind the camera."""
    ahead = floor.in_front(spots_mm)
    pixels = np.full(spots_mm.shape, np.nan)
    pixels[ahead] = np.clip(floor.to_image(spots_mm[ahead]), -1e6, 1e6)
    return pixels


def _border_fill(image: NDArray[np.uint8]) -> NDArray[np.uint8]:
    """Black that an editing program put around a turned or straightened picture, as 1."""
    black = np.pad((image.max(axis=-1) <= BLACK).astype(np.uint8), 1, constant_values=1)
    cv2.floodFill(black, None, (0, 0), 2)
    fill = (black[1:-1, 1:-1] == 2).astype(np.uint8)
    if not 0.001 < fill.mean() < MOST_FILL:  # a few dark pixels, or a floor that is black
        return np.zeros_like(fill)
    return cv2.dilate(fill, np.ones((7, 7), np.uint8))


def floor_in_view(floor: Floor, middle: Array) -> tuple[float, float, float, float]:
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
    return paper_at([floor.sheet_pose(index) for index in range(sheets)], corners_mm, scale)


def paper_at(
    poses: Iterable[tuple[float, float, float]], corners_mm: Array, scale: float
) -> Array:
    """Where the paper of sheets at these poses lies."""
    return np.array([turned(corners_mm * scale, turn) + (x, y) for x, y, turn in poses])
