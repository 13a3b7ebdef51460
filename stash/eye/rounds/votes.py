"""Where circles may lie: every stretch of rim votes for the middles it could belong to.

The rim's direction is known (the ground lies outside), so each stretch votes for one
point a radius (C. Kimme, D. Ballard and J. Sklansky, Finding circles by an array of
accumulators, Communications of the ACM 18, 1975).
"""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Map = NDArray[np.float32]
BIN_MM = 0.4
STEADY_MM = 0.9  # over which the direction of a rim is taken
LEAST_SHARE = 0.16  # of a whole rim's votes, for a middle to be looked at


@dataclass(frozen=True)
class Rim:
    """Points of the edge between hidden and seen, and the unit normals that point at the ground.

    Both have shape (n, 2), in mm from the middle of the map's first cell; the points are
    ``step_mm`` apart on average.
    """

    spots_mm: Array
    outward: Array
    step_mm: float


def rim_of(hidden: Map, cell_mm: float) -> Rim:
    """The edge at half way between hidden (1) and seen (0)."""
    lines, _ = cv2.findContours(
        (hidden > 0.5).astype(np.uint8), cv2.RETR_LIST, cv2.CHAIN_APPROX_NONE)
    if not lines:
        return Rim(np.zeros((0, 2)), np.zeros((0, 2)), cell_mm)
    cells = np.concatenate([line.reshape(-1, 2) for line in lines if len(line) > 12] or
                           [np.zeros((0, 2), int)])
    soft = cv2.GaussianBlur(hidden, (0, 0), STEADY_MM / cell_mm)
    slopes = [cv2.Sobel(soft, cv2.CV_32F, *axis, ksize=3)[cells[:, 1], cells[:, 0]]
              for axis in ((1, 0), (0, 1))]
    slope = -np.stack(slopes, axis=1).astype(float)
    size = np.hypot(*slope.T)
    clear = size > 1e-3
    outward = slope[clear] / size[clear, None]
    return Rim(cells[clear] * cell_mm, outward, 1.1 * cell_mm)


def middles(rim: Rim, radius_mm: float, size_mm: tuple[float, float]) -> Array:
    """Middles, shape (n, 2), at which enough of a rim of this radius was voted for."""
    wide, high = (int(side / BIN_MM) + 2 for side in size_mm)
    at = np.round((rim.spots_mm - radius_mm * rim.outward) / BIN_MM).astype(int)
    inside = ((at >= 0) & (at < (wide, high))).all(axis=1)
    flat = np.bincount(at[inside, 1] * wide + at[inside, 0], minlength=wide * high)
    blur = max(0.5, 0.09 * radius_mm) / BIN_MM
    votes = cv2.GaussianBlur(flat.reshape(high, wide).astype(np.float32), (0, 0), blur)
    whole = 2 * np.pi * radius_mm / rim.step_mm / (2 * np.pi * blur**2)
    reach = 2 * int(max(1, 0.25 * radius_mm / BIN_MM)) + 1
    peak = cv2.dilate(votes, np.ones((reach, reach), np.uint8)) == votes
    rows, columns = np.nonzero(peak & (votes > LEAST_SHARE * whole))
    return np.asarray(np.stack([columns, rows], axis=1) * BIN_MM, float)
