"""More of the same: where the ground is hidden all round, a button is known by its fellows.

The mean picture of those found for certain, whichever way each is turned, is held against
the places that are left (normalised correlation, J. P. Lewis, Fast template matching,
Vision Interface 1995).
"""

from __future__ import annotations

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.eye.rounds.circle import Circles, Map

Array = NDArray[np.float64]
BORDER = 1.12  # of a radius: the seam between two neighbours belongs to the picture
LEAST_FELLOWS = 3
LEAST_LIKENESS = 0.35
USUAL_SHARE = 0.75  # of the likeness that the sure ones have among themselves
HALF_STEPS = 12


def more_alike(
    look: Map, left: NDArray[np.bool_], cell_mm: float, fellows: Circles
) -> tuple[Array, Array]:
    """(middles (n, 2) in mm, likeness (n,) as a share of the usual one), the likest first.

    ``look`` is the logarithm of light, ``left`` where something lies that is not explained;
    ``fellows`` are of one size.
    """
    nothing = np.zeros((0, 2)), np.zeros(0)
    if len(fellows) < LEAST_FELLOWS or not left.any():
        return nothing
    radius = float(np.median(fellows.radius_mm))
    half = int(np.ceil(BORDER * radius / cell_mm))
    patches = _patches(look, cell_mm, fellows, half)
    if len(patches) < LEAST_FELLOWS:
        return nothing
    mask = _disc(half)
    usual_look = _steady(patches.mean(axis=0))
    likeness = cv2.matchTemplate(
        np.pad(look, half, mode="edge"), usual_look, cv2.TM_CCOEFF_NORMED, mask=mask)
    likeness = np.nan_to_num(likeness, posinf=0, neginf=0)
    cells = np.round(fellows.middle_mm / cell_mm).astype(int)
    high, wide = look.shape
    at = likeness[np.clip(cells[:, 1], 0, high - 1), np.clip(cells[:, 0], 0, wide - 1)]
    usual = float(np.median(at))
    if usual < LEAST_LIKENESS:
        return nothing
    reach = 2 * int(0.5 * radius / cell_mm) + 1
    peak = cv2.dilate(likeness, np.ones((reach, reach), np.uint8)) == likeness
    rows, columns = np.nonzero(peak & left & (likeness > USUAL_SHARE * usual))
    order = np.argsort(-likeness[rows, columns])
    middles = np.stack([columns, rows], axis=1)[order] * cell_mm
    return np.asarray(middles, float), likeness[rows, columns][order] / usual


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
