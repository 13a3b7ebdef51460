"""More of the same: where the ground is hidden all round, a button is known by its fellows.

The mean picture of those found for certain, whichever way each is turned, is held against
the places that are left (normalised correlation, J. P. Lewis, Fast template matching,
Vision Interface 1995).
"""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.eye.rounds.circle import Circles, Map

Array = NDArray[np.float64]
# Of a radius: beyond it lies the ground round those that are sure, and round one in a heap
# other faces; held against both, one in a heap has 0.6 to 0.75 of the usual likeness, not 1.
FACE = 0.9
LEAST_FELLOWS = 3
LEAST_LIKENESS = 0.35
USUAL_SHARE = 0.75  # of the likeness that the sure ones have among themselves
HALF_STEPS = 12


@dataclass(frozen=True)
class FaceLikeness:
    """How much every place looks like the fellows; 1 is as much as they do among themselves."""

    share: Map
    radius_mm: float
    cell_mm: float

    def places(self, where: NDArray[np.bool_], least: float) -> Array:
        """The likest places (n, 2) in mm of those ``where`` one may lie, the likest first."""
        reach = 2 * int(0.5 * self.radius_mm / self.cell_mm) + 1
        peak = cv2.dilate(self.share, np.ones((reach, reach), np.uint8)) == self.share
        rows, columns = np.nonzero(peak & where & (self.share > least))
        order = np.argsort(-self.share[rows, columns])
        return np.asarray(np.stack([columns, rows], axis=1)[order] * self.cell_mm, float)


def likeness_to(look: Map, cell_mm: float, fellows: Circles) -> FaceLikeness | None:
    """None where there are too few of them, or no two of them look alike.

    ``look`` is the logarithm of light; ``fellows`` are of one size.
    """
    if len(fellows) < LEAST_FELLOWS:
        return None
    radius = float(np.median(fellows.radius_mm))
    half = int(np.ceil(FACE * radius / cell_mm))
    patches = _patches(look, cell_mm, fellows, half)
    if len(patches) < LEAST_FELLOWS:
        return None
    likeness = cv2.matchTemplate(
        np.pad(look, half, mode="edge"), _steady(patches.mean(axis=0)), cv2.TM_CCOEFF_NORMED,
        mask=_disc(half))
    likeness = np.nan_to_num(likeness, posinf=0, neginf=0)
    cells = np.round(fellows.middle_mm / cell_mm).astype(int)
    high, wide = look.shape
    at = likeness[np.clip(cells[:, 1], 0, high - 1), np.clip(cells[:, 0], 0, wide - 1)]
    usual = float(np.median(at))
    return None if usual < LEAST_LIKENESS else FaceLikeness(likeness / usual, radius, cell_mm)


def more_alike(
    look: Map, left: NDArray[np.bool_], cell_mm: float, fellows: Circles
) -> Array:
    """Middles (n, 2) in mm of what looks like the fellows, the likest first.

    ``left`` is where something lies that is not explained.
    """
    likeness = likeness_to(look, cell_mm, fellows) if left.any() else None
    return np.zeros((0, 2)) if likeness is None else likeness.places(left, USUAL_SHARE)


def _patches(look: Map, cell_mm: float, fellows: Circles, half: int) -> Map:
    """The picture around each fellow that lies wholly in it."""
    parts = []
    for x, y in np.round(fellows.middle_mm / cell_mm).astype(int):
        part = look[max(y - half, 0) : y + half + 1, max(x - half, 0) : x + half + 1]
        if part.shape == (2 * half + 1, 2 * half + 1):
            parts.append(part - part.mean())
    return np.array(parts, np.float32)


def _steady(picture: Map) -> Map:
    """Half the picture as it is (the light falls one way), half of it turned every way."""
    side = picture.shape[0]
    middle = ((side - 1) / 2, (side - 1) / 2)
    turned = [
        cv2.warpAffine(picture, cv2.getRotationMatrix2D(middle, 360 * k / HALF_STEPS, 1),
                       (side, side), flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
        for k in range(HALF_STEPS)
    ]
    return ((picture + np.mean(turned, axis=0)) / 2).astype(np.float32)


def _disc(half: int) -> Map:
    far = np.hypot(*np.mgrid[-half : half + 1, -half : half + 1])
    return (far <= half).astype(np.float32)
