"""The shapes that lie on the floor: their edges in the picture, then their measures."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.errors import InvalidInput
from stash.eye.floor.find_sheets import Array
from stash.eye.floor.joined_plan import trust
from stash.eye.floor.seen_floor import Floor
from stash.eye.floor.straightened import FloorPlan
from stash.eye.outlines.clean_outline import clean_outline
from stash.eye.outlines.edges import evenly, refined
from stash.eye.outlines.paper import NOTHING, paper_mask
from stash.eye.outlines.regions import LEAST_HOLE_MM2, Region, plausible, regions, rings_mm
from stash.fact import Fact, fact
from stash.model import Outline
from stash.model.outline import ring_area_mm2

LEAST_EDGE_SHARE = 0.6
EDGE_ERROR_MM = 0.5


@dataclass(frozen=True)
class Traced:
    """One shape as it lies on the floor, seen from above: x to the right, y upwards, in mm.

    ``error_mm`` is how far its longest measure may be out (two standard errors).
    """

    outline: Outline
    error_mm: float


Views = Sequence[tuple[NDArray[np.uint8], Floor]]


def found_edges(
    views: Views, plan: FloorPlan, *, whole: bool = True
) -> tuple[list[list[Array]], list[Fact]]:
    """(for each whole shape its outer edge and those of its holes in mm, what was left out)."""
    found, notes = plausible(regions(plan, paper_mask(plan)))
    shapes = []
    for region in found:
        rings = rings_mm(plan, region)
        edge, share = refined(views, rings[0])
        if share < LEAST_EDGE_SHARE:
            notes.append(fact("left_out_blurred"))
            continue
        _require_whole(region, cut_off_too=whole, photographs=len(views))
        shapes.append([edge, *(refined(views, hole)[0] for hole in rings[1:])])
    if not shapes:
        raise InvalidInput(NOTHING)
    return shapes, notes


def _require_whole(region: Region, *, cut_off_too: bool, photographs: int) -> None:
    """Refuse a shape that runs onto a sheet or, where it must be whole, out of the picture."""
    if region.cut_off and cut_off_too:
        raise InvalidInput(
            "piece_leaves_picture" if photographs == 1 else "piece_leaves_photographs",
            field="photo")
    if region.touches_sheet:
        raise InvalidInput("piece_touches_sheet")


def measured(edges: Sequence[Array], seen_on: Floor, floor: Floor) -> Traced:
    """A shape whose edges were found on one fit of the floor, measured on a better one."""
    return outlined([floor.to_floor(seen_on.to_image(edge)) for edge in edges], (floor,))


def outlined(edges: Sequence[Array], floors: Sequence[Floor]) -> Traced:
    """A shape by its edges on the floor that one or several photographs show."""
    rings = [clean_outline(edge) for edge in edges]
    flipped = [tuple((x, -y) for x, y in ring) for ring in rings]
    holes = tuple(hole for hole in flipped[1:] if ring_area_mm2(hole) > LEAST_HOLE_MM2)
    return Traced(Outline(flipped[0], holes), round(_error(floors, np.array(rings[0])), 1))


def _error(floors: Sequence[Floor], ring: Array) -> float:
    """Two standard errors of the longest measure of a ring, from those of the fitted floors."""
    hull = cv2.convexHull(ring.astype(np.float32)).reshape(-1, 2).astype(float)
    hull = evenly(hull, max(5.0, len(ring) / 10))
    gaps = np.hypot(*(hull[:, None] - hull[None]).transpose(2, 0, 1))
    ends = hull[list(np.unravel_index(gaps.argmax(), gaps.shape))]
    shown = [_best(floors, end) for end in ends]
    pixels = [floor.to_image(end[None]) for floor, end in zip(shown, ends, strict=True)]
    length = np.hypot(*(ends[0] - ends[1]))
    total = 0.0
    for n in range(floors[0].spread.shape[1]):
        a, b = (floor.to_floor(at, floor.values + floor.spread[:, n])[0]
                for floor, at in zip(shown, pixels, strict=True))
        total += float(np.hypot(*(a - b)) - length) ** 2
    return 2 * float(np.sqrt(total)) + EDGE_ERROR_MM


def _best(floors: Sequence[Floor], spot: Array) -> Floor:
    """The photograph that shows a place best."""
    return max(floors, key=lambda floor: float(trust(floor, spot[None])[0]))
