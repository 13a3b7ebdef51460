"""Where a circle of a known size lies wholly on what hides the ground, with ground around it."""

from __future__ import annotations

import cv2
import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Map = NDArray[np.float32]
COARSE_MM = 0.4
INSET_MM = 0.7
OUTSET_MM = 0.6
LEAST_FULL = 0.94
LEAST_GROUND = 0.12
MOST = 1500


def snug_middles(hidden: Map, cell_mm: float, radius_mm: float) -> Array:
    """Middles (n, 2) in mm where a disc is full and the ring around it sees the most ground."""
    coarse = max(1, round(COARSE_MM / cell_mm))
    unit = coarse * cell_mm
    covered = (hidden > 0.5).astype(np.float32)
    small = cv2.resize(covered, None, fx=1 / coarse, fy=1 / coarse, interpolation=cv2.INTER_AREA)
    disc = _ring(0.0, max(radius_mm - INSET_MM, 0.6 * radius_mm), unit)
    ring = _ring(radius_mm + OUTSET_MM - 0.35, radius_mm + OUTSET_MM + 0.35, unit)
    full = cv2.filter2D(small, cv2.CV_32F, disc, borderType=cv2.BORDER_CONSTANT)
    ground = 1 - cv2.filter2D(small, cv2.CV_32F, ring, borderType=cv2.BORDER_CONSTANT)
    value = np.where(full > LEAST_FULL, ground + full, 0).astype(np.float32)
    reach = 2 * int(max(1, 0.3 * radius_mm / unit)) + 1
    peak = (cv2.dilate(value, np.ones((reach, reach), np.uint8)) == value) & (value > 0)
    rows, columns = np.nonzero(peak & (ground > LEAST_GROUND))
    order = np.argsort(-value[rows, columns])[:MOST]
    middles = (np.stack([columns, rows], axis=1)[order] + 0.5) * unit - cell_mm / 2
    return np.asarray(middles, float)


def _ring(inner_mm: float, outer_mm: float, unit_mm: float) -> Map:
    """A ring as weights that add up to one."""
    reach = int(outer_mm / unit_mm) + 2
    far = np.hypot(*np.mgrid[-reach : reach + 1, -reach : reach + 1]) * unit_mm
    weight = np.clip((outer_mm - far) / unit_mm + 0.5, 0, 1)
    if inner_mm > 0:
        weight *= np.clip((far - inner_mm) / unit_mm + 0.5, 0, 1)
    return (weight / weight.sum()).astype(np.float32)
