"""The photographs from above, turned as a shape's outline is: what a correction is drawn over."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.eye.floor.find_sheets import Array
from stash.eye.floor.joined_plan import trust
from stash.eye.floor.seen_floor import Floor
from stash.eye.floor.straightened import FloorGrid, pixels_of

BEYOND_MM = 40.0
CELL_MM = 2.0
MOST_CELLS = 1600
UNSEEN = 128
Extent = tuple[float, float, float, float]
ToFloor = Callable[[Array], Array]
View = tuple[NDArray[np.uint8], Floor, ToFloor]
"""A picture, its floor, and how points of an outline come onto that floor."""


@dataclass(frozen=True)
class Backdrop:
    """A JPEG whose pixels are square; ``box_mm`` is its (left, low, width, height), y upwards."""

    jpeg: bytes
    box_mm: Extent


@dataclass(frozen=True)
class _Shown:
    """One picture, asked by points of the outline's frame, y downwards."""

    floor: Floor
    to_floor: ToFloor

    def pixels(self, spots: Array) -> Array:
        """Where they are seen."""
        return pixels_of(self.floor, self.to_floor(spots * (1, -1)))

    def trust(self, spots: Array) -> Array:
        """How far the picture is to be trusted there."""
        return trust(self.floor, self.to_floor(spots * (1, -1)))


@dataclass(frozen=True)
class FromAbove:
    """A picture in which every cell is ``cell_mm``; its upper left one lies at ``corner_mm``."""

    colour: NDArray[np.uint8]
    corner_mm: tuple[float, float]
    cell_mm: float

    def to_cells(self, points_mm: Array) -> Array:
        """(column, row) of points, y upwards."""
        left, top = self.corner_mm
        return (np.asarray(points_mm, float) - (left, top)) * (1, -1) / self.cell_mm

    def to_mm(self, cells: Array) -> Array:
        """Points of (column, row), y upwards."""
        return np.asarray(cells, float) * self.cell_mm * (1, -1) + self.corner_mm


def from_above(views: Sequence[View], size_mm: tuple[float, float], cell_mm: float,
               beyond_mm: float = BEYOND_MM) -> FromAbove:
    """The floor under an outline that reaches from (0, 0) to ``size_mm``, and round it.

    Each cell is taken from the picture that shows it best.
    """
    wide, high = (side + 2 * beyond_mm for side in size_mm)
    columns, rows = int(wide / cell_mm), int(high / cell_mm)
    left, top = -beyond_mm + cell_mm / 2, high - beyond_mm - cell_mm / 2
    grid = FloorGrid(left, -top, cell_mm, columns, rows)
    result = np.full((rows, columns, 3), UNSEEN, np.uint8)
    best = np.zeros((rows, columns), np.float32)
    for image, floor, to_floor in views:
        shown = _Shown(floor, to_floor)
        where = np.nan_to_num(grid.smooth(shown.pixels), nan=-9.0)
        inside = ((where > 1) & (where < (floor.width_px - 2, floor.height_px - 2))).all(axis=-1)
        sure = grid.smooth(shown.trust)[..., 0] + 1e-3
        better = inside & (sure > best)
        colour = cv2.remap(image, where, None, cv2.INTER_AREA)
        result[better] = colour[better]
        best[better] = sure[better]
    return FromAbove(result, (left, top), cell_mm)


def backdrop(views: Sequence[View], size_mm: tuple[float, float],
             least_cell_mm: float = CELL_MM) -> Backdrop:
    """The floor under an outline, as a page shows it."""
    wide, high = (side + 2 * BEYOND_MM for side in size_mm)
    cell = max(least_cell_mm, wide / MOST_CELLS, high / MOST_CELLS)
    seen = from_above(views, size_mm, cell)
    rows, columns = seen.colour.shape[:2]
    jpeg = cv2.imencode(".jpg", seen.colour, [cv2.IMWRITE_JPEG_QUALITY, 75])[1].tobytes()
    return Backdrop(jpeg, (-BEYOND_MM, high - BEYOND_MM - rows * cell, columns * cell, rows * cell))
