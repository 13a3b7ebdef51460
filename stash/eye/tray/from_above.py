"""The tray from above: its part of the photograph, evenly spread, a cell a fifth of a mm."""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.eye.floor.find_sheets import Array
from stash.eye.floor.seen_floor import Floor
from stash.model.tray import TRAY, TrayBoard

CELL_MM = 0.2
BEYOND_MM = 2.0  # of the check's edge, over the white frame


@dataclass(frozen=True)
class Flat:
    """``colour`` is BGR as photographed; (row, column) lies at corner + cell * (column, row)."""

    colour: NDArray[np.uint8]
    corner_mm: tuple[float, float]
    cell_mm: float

    def to_mm(self, cells: Array) -> Array:
        """Places on the tray of (column, row) cells."""
        return np.asarray(cells, float) * self.cell_mm + self.corner_mm

    def axes_mm(self) -> tuple[Array, Array]:
        """(x of each column, y of each row)."""
        rows, columns = self.colour.shape[:2]
        left, top = self.corner_mm
        return (np.asarray(left + self.cell_mm * np.arange(columns), float),
                np.asarray(top + self.cell_mm * np.arange(rows), float))


def flattened(image: NDArray[np.uint8], floor: Floor, tray: TrayBoard = TRAY) -> Flat:
    """The check and a little of the white around it."""
    left, top, right, foot = tray.check_mm
    left, top, right, foot = left - BEYOND_MM, top - BEYOND_MM, right + BEYOND_MM, foot + BEYOND_MM
    xs, ys = np.arange(left, right, CELL_MM), np.arange(top, foot, CELL_MM)
    coarse = 10  # perspective bends so slowly that every tenth cell is enough
    gx, gy = np.meshgrid(np.arange(-1, len(xs) // coarse + 3), np.arange(-1, len(ys) // coarse + 3))
    spots = np.stack([left + gx * coarse * CELL_MM, top + gy * coarse * CELL_MM], axis=-1)
    pixels = floor.to_image(spots.reshape(-1, 2)).reshape(*gx.shape, 2).astype(np.float32)
    columns = (np.arange(len(xs)) / coarse + 1).astype(np.float32)
    rows = (np.arange(len(ys)) / coarse + 1).astype(np.float32)
    wanted = np.meshgrid(columns, rows)
    where = cv2.remap(pixels, *wanted, cv2.INTER_LINEAR)
    return Flat(cv2.remap(image, where, None, cv2.INTER_LINEAR), (left, top), CELL_MM)
