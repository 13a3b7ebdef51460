"""Several photographs of one floor as one plan from above, under one light.

Each cell is taken from the photograph that shows it best: not near its rim, where a lens
bends most and a picture ends. Photographs are made equally bright where two show the same.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.eye.floor.find_sheets import Array
from stash.eye.floor.seen_floor import Floor
from stash.eye.floor.straightened import FloorPlan, floor_in_view, grid_over, straightened_onto

CELL_MM = 2.0
RIM_SHARE = 0.2  # of a picture's shorter side: nearer to its rim a photograph counts less
LEAST_SHARED = 400  # cells


def trust(floor: Floor, spots_mm: Array) -> Array:
    """How far a photograph is to be trusted at places: 0 outside it, 1 well within."""
    ahead = floor.in_front(spots_mm)
    result = np.zeros(len(spots_mm))
    pixels = floor.to_image(spots_mm[ahead])
    size = np.array([floor.width_px - 1, floor.height_px - 1])
    off = np.minimum(pixels, size - pixels).min(axis=1) / (RIM_SHARE * size.min())
    result[ahead] = np.clip(off, 0.0, 1.0) ** 2
    return result


def joined_plan(
    images: Sequence[NDArray[np.uint8]], floors: Sequence[Floor], paper_mm: Array
) -> FloorPlan:
    """The plan of all the floor in any of the pictures."""
    middle = paper_mm.reshape(-1, 2).mean(axis=0)
    boxes = np.array([floor_in_view(floor, middle) for floor in floors])
    left, top = boxes[:, :2].min(axis=0)
    right, foot = boxes[:, 2:].max(axis=0)
    grid = grid_over((float(left), float(top), float(right), float(foot)), CELL_MM)
    best = np.full((grid.rows, grid.columns), 0.0)
    whole: FloorPlan | None = None
    for image, floor in zip(images, floors, strict=True):
        plan = straightened_onto(grid, image, floor, paper_mm)
        trusted = grid.smooth(partial(trust, floor))[..., 0]
        weight = np.where(plan.seen, trusted, 0.0)
        if whole is None:
            whole, best = plan, weight
            continue
        colour = _alike_lit(plan, whole)
        better = weight > best
        merged = np.where(better[..., None], colour, whole.colour)
        whole = FloorPlan(merged, whole.seen | plan.seen, plan.sheets, whole.corner_mm,
                          whole.cell_mm)
        best = np.maximum(best, weight)
    assert whole is not None
    return whole


def _alike_lit(plan: FloorPlan, whole: FloorPlan) -> NDArray[np.uint8]:
    """The plan's colours as the others show them, by what both show."""
    both = plan.seen & whole.seen
    if both.sum() < LEAST_SHARED:
        return plan.colour
    logs = [np.log(p.colour[both].astype(np.float32) + 6.0) for p in (whole, plan)]
    gain = np.exp(np.median(logs[0] - logs[1], axis=0))
    levels = (np.arange(256)[:, None] + 6.0) * gain - 6.0
    return cv2.LUT(plan.colour, np.clip(levels, 0, 255).astype(np.uint8)[None])
