"""The photographs from above, turned as the cloth's outline is: what a correction is drawn over."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.eye.floor.find_sheets import Array
from stash.eye.floor.seen_floor import Floor

BEYOND_MM = 40.0
CELL_MM = 2.0
MOST_CELLS = 1600
Extent = tuple[float, float, float, float]
ToFloor = Callable[[Array], Array]


@dataclass(frozen=True)
class Backdrop:
    """A JPEG whose pixels are square; ``box_mm`` is its (left, low, width, height), y upwards."""

    jpeg: bytes
    box_mm: Extent


def backdrop(
    views: Sequence[tuple[NDArray[np.uint8], Floor, ToFloor]], size_mm: tuple[float, float],
    least_cell_mm: float = CELL_MM,
) -> Backdrop:
    """The floor under an outline that reaches from (0, 0) to ``size_mm``.

    Each view is a picture, its floor, and how points of the outline come onto that floor.
    """
    wide, high = (side + 2 * BEYOND_MM for side in size_mm)
    cell = max(least_cell_mm, wide / MOST_CELLS, high / MOST_CELLS)
    columns, rows = int(wide / cell), int(high / cell)
    xs = -BEYOND_MM + cell * (np.arange(columns) + 0.5)
    ys = high - BEYOND_MM - cell * (np.arange(rows) + 0.5)
    spots = np.stack(np.meshgrid(xs, ys), axis=-1).reshape(-1, 2)
    result = np.full((rows, columns, 3), 128, np.uint8)
    empty = np.ones((rows, columns), bool)
    for image, floor, to_floor in views:
        on_floor = to_floor(spots)
        pixels = np.full(on_floor.shape, -9.0)
        ahead = floor.in_front(on_floor)
        pixels[ahead] = floor.to_image(on_floor[ahead])
        inside = ((pixels > 1) & (pixels < (floor.width_px - 2, floor.height_px - 2))).all(axis=1)
        where = pixels.astype(np.float32).reshape(rows, columns, 2)
        shown = cv2.remap(image, where, None, cv2.INTER_AREA)
        fresh = empty & inside.reshape(rows, columns)
        result[fresh] = shown[fresh]
        empty &= ~fresh
    jpeg = cv2.imencode(".jpg", result, [cv2.IMWRITE_JPEG_QUALITY, 75])[1].tobytes()
    return Backdrop(jpeg, (-BEYOND_MM, high - BEYOND_MM - rows * cell, columns * cell, rows * cell))
