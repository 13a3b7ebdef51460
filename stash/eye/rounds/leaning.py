"""What leans, as a button on its shank does, is seen as an oval, narrower than its fellows.

No whole disc of their size lies there. So of what hides the ground beside the circles that are
sure, whatever is one compact patch as long as its fellows are wide is one of them.
"""

from __future__ import annotations

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.eye.rounds.circle import Circles

Array = NDArray[np.float64]
NECK = 0.5  # of a radius: what is narrower is a neighbour's rim or shadow, not part of it
LENGTHS, LEAST_WIDTH = (0.85, 1.12), 0.66  # of the usual diameter
SOLID = 0.95  # of its hull, and of the oval as long and as wide


def leaning(left: NDArray[np.uint8], cell_mm: float, radius_mm: float) -> Circles:
    """One circle of the usual radius about the middle of each oval on what is ``left``.

    ``left`` is 1 where something hides the ground outside the circles that are sure.
    """
    whole = _without_holes(left)
    reach = 2 * int(NECK * radius_mm / cell_mm) + 1
    disc = cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (reach, reach))
    lines, _ = cv2.findContours(cv2.morphologyEx(whole, cv2.MORPH_OPEN, disc),
                                cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    middles = [spot for line in lines if (spot := _oval(line, 2 * radius_mm / cell_mm))]
    at = np.array(middles, float).reshape(-1, 2) * cell_mm
    return Circles(at, np.full(len(at), radius_mm))


def _without_holes(left: NDArray[np.uint8]) -> NDArray[np.uint8]:
    """With what each patch surrounds; a circle that is sure is no part of it all the same."""
    lines, _ = cv2.findContours(left, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    return cv2.drawContours(np.zeros_like(left), lines, -1, 1, cv2.FILLED)


def _oval(line: NDArray[np.int32], usual: float) -> tuple[float, float] | None:
    """The middle of an outline that is an oval of the usual length, in cells."""
    sums = cv2.moments(line)
    area = sums["m00"]
    if not area:
        return None
    spread = np.array([(sums["mu20"], sums["mu11"]), (sums["mu11"], sums["mu02"])]) / area
    width, length = 4 * np.sqrt(np.clip(np.linalg.eigvalsh(spread), 0, None))
    sized = LENGTHS[0] < length / usual < LENGTHS[1] and width > LEAST_WIDTH * usual
    solid = area > SOLID * max(cv2.contourArea(cv2.convexHull(line)), np.pi / 4 * length * width)
    return (sums["m10"] / area, sums["m01"] / area) if sized and solid else None
