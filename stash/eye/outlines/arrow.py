"""The arrow card in a photograph: where the grain runs, and where the card hides the cloth."""

from __future__ import annotations

from dataclasses import dataclass, replace

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.eye.floor.find_sheets import Array
from stash.eye.floor.seen_floor import Floor, pose_between, turned
from stash.eye.floor.straightened import FloorPlan
from stash.model.arrow_card import ARROW, ArrowCard

LEAST_MARKERS = 2
BEYOND_MM = 5.0  # round the card: it casts a shadow and is cut out by hand
AROUND_MM = 14.0


@dataclass(frozen=True)
class SeenArrow:
    """The card on the floor: the direction of its arrow in degrees and its corners (4, 2) in mm.

    Both in the frame of the floor, x to the right and y down.
    """

    turn_deg: float
    corners_mm: Array


def find_arrow(
    grey: NDArray[np.uint8], floor: Floor, card: ArrowCard = ARROW
) -> SeenArrow | None:
    """The arrow card where it lies; None when there is none."""
    words = cv2.aruco.getPredefinedDictionary(getattr(cv2.aruco, card.dictionary))
    settings = cv2.aruco.DetectorParameters()
    settings.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_SUBPIX
    settings.minMarkerPerimeterRate = 0.01
    corners, ids, _ = cv2.aruco.ArucoDetector(words, settings).detectMarkers(grey)
    numbers = [] if ids is None else [int(n) - card.first_id for n in ids.ravel()]
    seen = {n: quad.reshape(4, 2).astype(float) for quad, n in zip(corners, numbers, strict=True)
            if 0 <= n < card.markers}
    if len(seen) < LEAST_MARKERS:
        return None
    on_card = np.array([p for n in seen for p in card.marker_corners(n)])
    x, y, turn = pose_between(on_card, floor.to_floor(np.concatenate(list(seen.values()))))
    sides = np.array([(-BEYOND_MM, -BEYOND_MM), (card.width_mm + BEYOND_MM, -BEYOND_MM),
                      (card.width_mm + BEYOND_MM, card.height_mm + BEYOND_MM),
                      (-BEYOND_MM, card.height_mm + BEYOND_MM)])
    return SeenArrow(float(np.degrees(turn)), turned(sides, turn) + (x, y))


def without_card(plan: FloorPlan, arrow: SeenArrow) -> FloorPlan:
    """The plan with the card painted in the colour of the cloth around it."""
    cells = (arrow.corners_mm - plan.corner_mm) / plan.cell_mm
    card = np.zeros(plan.colour.shape[:2], np.uint8)
    cv2.fillConvexPoly(card, np.round(cells).astype(np.int32), 1)
    size = 2 * int(AROUND_MM / plan.cell_mm) + 1
    around = (cv2.dilate(card, np.ones((size, size), np.uint8)) > 0) & (card == 0) & plan.seen
    if not around.any():
        return plan
    colour = plan.colour.copy()
    colour[card > 0] = np.median(colour[around].reshape(-1, 3), axis=0).astype(np.uint8)
    return replace(plan, colour=colour)
