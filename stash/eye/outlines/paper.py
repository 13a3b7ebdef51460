"""Telling paper from floor in a plan, under light that is not even.

A floor shows several colours (lit, shaded, grain of the wood) and paper too. What
they have in common: the floor reaches the rim of the picture and paper lies inside.
So colours are grouped first, groups sorted by where they lie, and then every cell is
compared with the paper and with the floor *near it*, which share its light.
"""

from __future__ import annotations

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.errors import InvalidInput
from stash.eye.floor.find_sheets import Array
from stash.eye.floor.straightened import FloorPlan

GROUPS = 7
RIM_MM = 30.0
RIM_SHARE = 0.45  # of its share in the whole: below that a colour lies inside the picture
WHITE_LIKENESS = 0.35  # in natural logarithms of brightness
NEAR_MM = (120.0, 60.0, 35.0, 25.0)
SMOOTH_MM = 1.5
OPEN_MM = 6.0
CLOSE_MM = 4.0
LEAST_CELLS = 300
SPARSE = 0.02  # where less than this share near a cell is paper, its colour there is no guide

Mask = NDArray[np.bool_]
NOTHING = "nothing_stands_out"


def paper_mask(plan: FloorPlan) -> Mask:
    """Cells that show paper (or a remnant) on the floor, the calibration sheets left out.

    Raises InvalidInput when nothing stands out from the floor.
    """
    smooth = cv2.GaussianBlur(plan.colour, (0, 0), SMOOTH_MM / plan.cell_mm)
    logs = np.log(smooth.astype(np.float32) + 6.0)
    known = plan.seen & ~_grown(plan.sheets, 6.0 / plan.cell_mm)
    if known.sum() < 3000:
        raise InvalidInput("hardly_any_floor")
    paper = _first_guess(logs, known, _rim(plan), np.percentile(logs[plan.sheets], 80, axis=0))
    for near in NEAR_MM:
        paper = _compared(logs, known, paper, near / plan.cell_mm)
    return _tidied(paper, plan.cell_mm)


def _rim(plan: FloorPlan) -> Mask:
    """The floor seen along the edges of the picture."""
    return plan.seen & ~_shrunk(plan.seen, RIM_MM / plan.cell_mm)


def _first_guess(logs: Array, known: Mask, rim: Mask, white: Array) -> Mask:
    """Colours grouped by k-means; groups that hardly reach the rim are paper.

    So are groups as ``white`` as the calibration sheet, unless the floor is so itself:
    a piece that runs out of the picture must be noticed.
    """
    values = logs[known]
    sample = values[:: max(1, len(values) // 30_000)]
    stop = (cv2.TERM_CRITERIA_EPS | cv2.TERM_CRITERIA_MAX_ITER, 40, 1e-3)
    cv2.setRNGSeed(1)
    _, _, centres = cv2.kmeans(sample, GROUPS, None, stop, 2, cv2.KMEANS_PP_CENTERS)
    distance = np.stack([np.square(logs - c).sum(axis=-1) for c in centres])
    group = distance.argmin(axis=0)
    everywhere = np.bincount(group[known], minlength=GROUPS) / known.sum()
    at_rim = np.bincount(group[known & rim], minlength=GROUPS) / max(1, (known & rim).sum())
    inside = at_rim < RIM_SHARE * everywhere
    white_like = np.abs(centres - white).max(axis=1) < WHITE_LIKENESS
    if not white_like[at_rim.argmax()]:
        inside |= white_like
    return inside[group] & known


def _compared(logs: Array, known: Mask, paper: Mask, near_cells: float) -> Mask:
    """Each cell anew, by the mean colours of paper and of floor near it."""
    floor = known & ~paper
    if paper.sum() < LEAST_CELLS or floor.sum() < LEAST_CELLS:
        raise InvalidInput(NOTHING)
    to_floor = np.square(logs - _local_mean(logs, floor, near_cells)).sum(axis=-1)
    to_paper = np.square(logs - _local_mean(logs, paper, near_cells)).sum(axis=-1)
    return (to_paper < to_floor) & known


def _local_mean(logs: Array, mask: Mask, near_cells: float) -> Array:
    """The mean of the masked cells near each cell; where they are sparse, of all of them."""
    step = max(1, int(near_cells / 6))
    weight = mask.astype(np.float32)
    parts = np.concatenate([logs * weight[..., None], weight[..., None]], axis=-1)
    small = cv2.resize(parts, None, fx=1 / step, fy=1 / step, interpolation=cv2.INTER_AREA)
    near = cv2.GaussianBlur(small, (0, 0), near_cells / step, borderType=cv2.BORDER_CONSTANT)
    overall = logs[mask].mean(axis=0)
    mean = (near[..., :3] + SPARSE * overall) / (near[..., 3:] + SPARSE)
    return cv2.resize(mean, mask.shape[::-1], interpolation=cv2.INTER_LINEAR)


def _tidied(mask: Mask, cell_mm: float) -> Mask:
    """Without specks and threads, gaps from pencil lines closed."""
    closed = cv2.morphologyEx(mask.astype(np.uint8), cv2.MORPH_CLOSE, _disc(CLOSE_MM / cell_mm))
    return cv2.morphologyEx(closed, cv2.MORPH_OPEN, _disc(OPEN_MM / cell_mm)) > 0


def _grown(mask: Mask, cells: float) -> Mask:
    return cv2.dilate(mask.astype(np.uint8), _disc(2 * cells)) > 0


def _shrunk(mask: Mask, cells: float) -> Mask:
    padded = cv2.copyMakeBorder(mask.astype(np.uint8), 1, 1, 1, 1, cv2.BORDER_CONSTANT, value=0)
    return (cv2.erode(padded, _disc(2 * cells)) > 0)[1:-1, 1:-1]


def _disc(diameter: float) -> NDArray[np.uint8]:
    size = max(1, 2 * int(diameter / 2) + 1)
    return cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (size, size))
