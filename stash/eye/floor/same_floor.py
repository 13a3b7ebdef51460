"""Which photographs show one floor: those that share a calibration sheet which was not moved."""

from __future__ import annotations

from collections.abc import Sequence

import cv2
import numpy as np

from stash.eye.floor.find_sheets import Array
from stash.eye.floor.joined_floors import Photographed, brought, chained
from stash.eye.floor.straightened import (
    FloorPlan,
    floor_in_view,
    grid_over,
    paper_on_floor,
    straightened_onto,
)

COARSE_MM = 6.0
LEAST_SHARED = 400  # cells
FLAT_SPREAD = 0.12  # of the logarithm of brightness: bare floor, which tells nothing
ALIKE = 0.5  # correlation of two photographs of one floor: chosen here


def by_floor(
    views: Sequence[Photographed], corners_mm: Array, paper_mm: Array
) -> list[list[int]]:
    """The photographs' indices, one list a floor, in the order they came.

    ``corners_mm`` are the corners of a sheet's board and ``paper_mm`` those of its paper.
    """
    floors: list[list[int]] = []
    for k, view in enumerate(views):
        joined = [f for f in floors
                  if any(_same(views[i], view, corners_mm, paper_mm) for i in f)]
        rest = [f for f in floors if f not in joined]
        floors = [*rest, sorted([i for f in joined for i in f] + [k])]
    return sorted(floors)


def _same(here: Photographed, there: Photographed, corners: Array, paper: Array) -> bool:
    """Whether two photographs share a sheet, and what lies around it."""
    pose = chained([here.poses(), there.poses()], corners)[1]
    if pose is None:
        return False
    papers = paper_on_floor(here.floor, len(here.sheets), paper, 1.0)
    grid = grid_over(floor_in_view(here.floor, papers.reshape(-1, 2).mean(axis=0)), COARSE_MM)
    plans = [straightened_onto(grid, here.image, here.floor, papers),
             straightened_onto(grid, there.image, brought(there.floor, pose), papers)]
    return shows_the_same(*plans)


def shows_the_same(here: FloorPlan, there: FloorPlan) -> bool:
    """Whether two plans on one grid show the same things lying on the floor they share.

    A sheet that was moved to other pieces between two photographs joins what does not belong
    together. Where both show bare floor alone, nothing speaks against it.
    """
    both = here.seen & there.seen & ~here.sheets
    if both.sum() < LEAST_SHARED:
        return True
    logs = [np.log(cv2.blur(p.colour, (5, 5)).mean(axis=-1)[both] + 6.0) for p in (here, there)]
    if max(float(part.std()) for part in logs) < FLAT_SPREAD:
        return True
    return float(np.corrcoef(logs[0], logs[1])[0, 1]) > ALIKE
