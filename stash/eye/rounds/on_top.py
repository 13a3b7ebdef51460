"""Which round things lie on others: what is uppermost shows its whole face, and nobody counted it.

In a heap the upper one's outline may hide hardly more than theirs, but its face is seen whole,
where no middle is counted. So every place on what hides the ground is held against the usual
face. Where faces tell, the little that a neighbour's outline leaves over need not be asked about.
"""

from __future__ import annotations

from collections.abc import Sequence

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.eye.rounds.alike import FACE, Array, FaceLikeness, likeness_to
from stash.eye.rounds.circle import Circles, Map
from stash.eye.rounds.find import Rest
from stash.eye.rounds.hollow import filled

# Of the usual likeness; on seeds that no table reports heaps had 0.86 and more, others 0.5.
LEAST_SHARE = 0.65
LEAST_FULL = 0.97  # of it hides the ground
OFF, NEAR = 0.5, 1.3  # of a radius, from a middle that is counted
BULGE_SHARE, BULGE_MM2 = 0.06, 4.0  # of a face: what a leaning or lit neighbour's outline leaves
BESIDE = 0.4  # of a radius, beyond a rim


def faces(look: Map, cell_mm: float, circles: Circles) -> FaceLikeness | None:
    """How much every place looks like one of these circles of one size; None: nobody can tell."""
    return likeness_to(look, cell_mm, circles)


def on_top(hidden: Map, faces: FaceLikeness, circles: Circles) -> Array:
    """Middles (n, 2) in mm of whole faces that are none of the circles, the likest first."""
    return faces.places(_between(hidden, faces, circles), LEAST_SHARE)


def _between(hidden: Map, faces: FaceLikeness, circles: Circles) -> NDArray[np.bool_]:
    """Where a face would lie wholly on what hides the ground, over circles but on none of them."""
    radius = faces.radius_mm / faces.cell_mm
    where = np.zeros(hidden.shape, np.uint8)
    spots = [(round(float(x)), round(float(y))) for x, y in circles.middle_mm / faces.cell_mm]
    for share, value in ((NEAR, 1), (OFF, 0)):
        for spot in spots:
            cv2.circle(where, spot, round(share * radius), value, -1)
    half = int(np.ceil(FACE * radius))
    disc = (np.hypot(*np.mgrid[-half : half + 1, -half : half + 1]) <= half).astype(np.float32)
    solid = filled(hidden, faces.cell_mm) > 0.5
    full = cv2.filter2D(solid.astype(np.float32), cv2.CV_32F, disc / disc.sum())
    return np.asarray((where > 0) & (full > LEAST_FULL), bool)


def unexplained(
    rests: Sequence[Rest], circles: Circles, upper_mm: Array, radius_mm: float
) -> tuple[Rest, ...]:
    """What is left over and still to be asked about once the faces have told.

    Not what bulges from under or beside one on top, which is asked about itself, nor the little
    that bulges from a circle.
    """
    face = np.pi * radius_mm**2

    def told(rest: Rest) -> bool:
        by_upper = np.hypot(*(upper_mm - rest.middle_mm).T).min(initial=np.inf)
        if by_upper < (1 + BESIDE) * radius_mm and rest.area_mm2 < 0.25 * face:
            return True
        gaps = np.hypot(*(circles.middle_mm - rest.middle_mm).T) - circles.radius_mm
        bulges = gaps.min(initial=np.inf) < BESIDE * radius_mm
        return bool(bulges and rest.area_mm2 < max(BULGE_MM2, BULGE_SHARE * face))

    return tuple(rest for rest in rests if not told(rest))
