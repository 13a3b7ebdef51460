"""What stands out from the floor, down to a strip four millimetres wide."""

from __future__ import annotations

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.eye.floor.straightened import FloorPlan

Mask = NDArray[np.bool_]
FLOOR_MM = 90.0  # over which the floor's own colour is taken
FLOOR_CELL_MM = 6.0
LEAST_STEP = 0.13  # in natural logarithms of light
UNEVEN_PERCENTILE = 80  # the grain of wood; strips cover far less than the rest
TIMES_UNEVEN = 2.0
SHEET_GAP_MM = 5.0
JOINT_MM = 2.6


def standing_out(plan: FloorPlan) -> Mask:
    """Cells whose colour differs from that of the floor around, sheets left out.

    The floor is the median around each cell, so strips must not cover most of it.
    """
    logs = np.log(cv2.GaussianBlur(plan.colour, (0, 0), 0.8).astype(np.float32) + 6.0)
    floor = _floor(plan, logs)
    step = np.sqrt(np.square(logs - floor).mean(axis=-1))
    known = plan.seen & ~_grown(plan.sheets, SHEET_GAP_MM / plan.cell_mm)
    uneven = float(np.percentile(step[known], UNEVEN_PERCENTILE)) if known.any() else 1.0
    mask = (step > max(LEAST_STEP, TIMES_UNEVEN * uneven)) & known
    closed = cv2.morphologyEx(mask.astype(np.uint8), cv2.MORPH_CLOSE, _disc(1.5 / plan.cell_mm))
    # The joints of a boarded floor are thinner than any strip.
    return cv2.morphologyEx(closed, cv2.MORPH_OPEN, _disc(JOINT_MM / plan.cell_mm)) > 0


def _disc(across: float) -> NDArray[np.uint8]:
    size = 2 * int(across / 2) + 1
    return cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (size, size))


def _floor(plan: FloorPlan, logs: NDArray[np.float32]) -> NDArray[np.float32]:
    """The colour of the floor under each cell: a median of large cells, sheets filled first."""
    share = plan.cell_mm / FLOOR_CELL_MM
    unknown = (~plan.seen | _grown(plan.sheets, 3)).astype(np.float32)
    weight = cv2.resize(1 - unknown, None, fx=share, fy=share, interpolation=cv2.INTER_AREA)
    small = cv2.resize(logs * (1 - unknown)[..., None], None, fx=share, fy=share,
                       interpolation=cv2.INTER_AREA)
    near = 2 * FLOOR_MM / FLOOR_CELL_MM
    fill = cv2.GaussianBlur(small, (0, 0), near) / (
        cv2.GaussianBlur(weight, (0, 0), near)[..., None] + 1e-6)
    small = np.where(weight[..., None] > 0.6, small / np.maximum(weight[..., None], 0.01), fill)
    levels = np.clip(small * 40, 0, 255).astype(np.uint8)  # a fortieth of a logarithm is enough
    size = 2 * int(FLOOR_MM / FLOOR_CELL_MM) + 1
    soft = cv2.GaussianBlur(cv2.medianBlur(levels, size).astype(np.float32) / 40, (0, 0), 3)
    return cv2.resize(soft, logs.shape[1::-1], interpolation=cv2.INTER_LINEAR)


def _grown(mask: Mask, cells: float) -> Mask:
    size = 2 * int(cells) + 1
    return cv2.dilate(mask.astype(np.uint8), np.ones((size, size), np.uint8)) > 0
