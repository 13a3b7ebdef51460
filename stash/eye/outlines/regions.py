"""The separate shapes on a plan, and which of them can be paper at all."""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.eye.floor.find_sheets import Array
from stash.eye.floor.straightened import FloorPlan
from stash.eye.outlines.paper import Mask
from stash.fact import Fact, fact

LEAST_PIECE_MM2 = 1500.0
LEAST_HOLE_MM2 = 400.0
SLIVER_MM = 24.0  # what is nowhere wider, at the edge of the picture, is no pattern piece
LEAST_CONTRAST = 2.2  # step of colour from floor to shape, over the floor's own unevenness
LEAST_STEP = 0.08  # the same in natural logarithms of brightness
LEAST_LIKENESS = 0.35  # of the usual step in brightness between pieces and floor
LEAST_AT_RIM = 0.6  # the same of what reaches the edge of the picture: grain of the wood does too
SHEET_GAP_MM = 9.0
TOUCH_MM2 = 270.0


@dataclass(frozen=True)
class Region:
    """One connected shape of the plan.

    ``brighter`` is its brightness over that of the floor around it, in natural
    logarithms; ``clear`` says that its colour differs clearly from that floor's, and
    ``cut_off`` that it reaches the edge of the picture.
    """

    mask: Mask
    area_mm2: float
    widest_mm: float
    brighter: float
    clear: bool
    cut_off: bool
    touches_sheet: bool


def regions(plan: FloorPlan, paper: Mask) -> list[Region]:
    """Every shape large enough to be a piece, the largest first."""
    count, labels, stats, _ = cv2.connectedComponentsWithStats(paper.astype(np.uint8))
    areas = {i: float(stats[i, cv2.CC_STAT_AREA]) * plan.cell_mm**2 for i in range(1, count)}
    large = sorted((i for i in areas if areas[i] >= LEAST_PIECE_MM2), key=lambda i: -areas[i])
    return [_region(plan, labels == i, paper, areas[i]) for i in large]


def _region(plan: FloorPlan, mask: Mask, paper: Mask, area_mm2: float) -> Region:
    around = _grown(mask, 2)
    ring = _grown(mask, int(12 / plan.cell_mm)) & ~_grown(mask, 3) & ~paper & plan.seen
    ring &= ~plan.sheets
    step, unevenness = _step(plan.colour, mask, ring)
    near = _grown(mask, int(SHEET_GAP_MM / plan.cell_mm)) & plan.sheets
    return Region(
        mask=mask,
        area_mm2=area_mm2,
        widest_mm=_widest(plan, mask),
        brighter=float(step.mean()),
        clear=_mean_size(step) > LEAST_STEP
        and _mean_size(step / np.maximum(unevenness, 0.02)) > LEAST_CONTRAST,
        cut_off=bool((around & ~plan.seen).any()),
        touches_sheet=float(near.sum()) * plan.cell_mm**2 > TOUCH_MM2,
    )


def _step(colour: NDArray[np.uint8], mask: Mask, ring: Mask) -> tuple[Array, Array]:
    """(step of log colour from the ring to the shape, its spread within the ring)."""
    if not ring.any():
        return np.zeros(3), np.ones(3)
    inside, outside = (np.log(colour[where].astype(float) + 6.0) for where in (mask, ring))
    return inside.mean(axis=0) - outside.mean(axis=0), outside.std(axis=0)


def _mean_size(step: Array) -> float:
    return float(np.sqrt(np.square(step).mean()))


def plausible(found: list[Region]) -> tuple[list[Region], list[Fact]]:
    """The regions that can be pieces, and what was left out.

    Paper is all lighter or all darker than the floor, and clearly so: what is not like most
    of it, such as a shadow, is left out, and so are slivers at the edge of the picture.
    """
    unclear = [r for r in found if not r.clear]
    found = [r for r in found if r.clear]
    whole = [r for r in found if not r.cut_off] or found
    total = sum(r.area_mm2 for r in whole)
    usual = sum(r.brighter * r.area_mm2 for r in whole) / total if total else 0.0
    kept = []
    notes = [fact("left_out_faint")] if unclear and found else []
    for region in found:
        if region.cut_off and region.widest_mm < SLIVER_MM:
            notes.append(fact("left_out_sliver"))
        elif region.brighter * np.sign(usual) < abs(usual) * (
                LEAST_AT_RIM if region.cut_off else LEAST_LIKENESS):
            notes.append(fact("left_out_unlike"))
        else:
            kept.append(region)
    return kept, notes


def rings_mm(plan: FloorPlan, region: Region) -> list[Array]:
    """The outer ring and then each hole, on the floor in mm, through the cells of the rim."""
    found, tree = cv2.findContours(
        region.mask.astype(np.uint8), cv2.RETR_CCOMP, cv2.CHAIN_APPROX_NONE
    )
    rings = [plan.to_floor(ring.reshape(-1, 2)) for ring in found]
    outer = max((i for i in range(len(rings)) if tree[0, i, 3] < 0), key=lambda i: len(rings[i]))
    least = LEAST_HOLE_MM2 / plan.cell_mm**2
    holes = [
        rings[i]
        for i in range(len(rings))
        if tree[0, i, 3] == outer and cv2.contourArea(found[i]) > least
    ]
    return [rings[outer], *holes]


def _widest(plan: FloorPlan, mask: Mask) -> float:
    """Diameter in mm of the largest circle within a shape."""
    padded = cv2.copyMakeBorder(mask.astype(np.uint8), 1, 1, 1, 1, cv2.BORDER_CONSTANT, value=0)
    return 2 * plan.cell_mm * float(cv2.distanceTransform(padded, cv2.DIST_L2, 3).max())


def _grown(mask: Mask, cells: int) -> Mask:
    size = 2 * cells + 1
    kernel: NDArray[np.uint8] = np.ones((size, size), np.uint8)
    return cv2.dilate(mask.astype(np.uint8), kernel) > 0
