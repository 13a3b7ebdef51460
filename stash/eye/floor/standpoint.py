"""Where the camera stood, from the perspective of a plane: what is tall seems moved and larger.

A homography from a plane to an ideal picture is K [r1 r2 t] up to scale, K holding the focal
length alone (square pixels, the middle of the picture in the middle); r1 and r2 are of
one length and at right angles, which gives the focal length where the plane is tilted
(Z. Zhang, A flexible new technique for camera calibration, IEEE PAMI 22, 2000, section 3).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import log

import numpy as np

from stash.eye.floor.find_sheets import Array
from stash.eye.floor.seen_floor import Floor, matrix

USUAL_FOCAL = 1.2  # over the half diagonal: 26 mm on 36 x 24; phones, common practice, no source
FOCAL_SPREAD = 0.12  # of its logarithm
SKEW_NOISE = 0.004


@dataclass(frozen=True)
class Stand:
    """The camera's foot on the plane (x, y) in mm and its height over it in mm."""

    foot_mm: tuple[float, float]
    height_mm: float

    def raised(self, spots_mm: Array, tall_mm: float) -> Array:
        """Where points at a height over the plane seem to lie on it."""
        foot = np.array(self.foot_mm)
        return foot + (np.asarray(spots_mm) - foot) * self.enlarged(tall_mm)

    def enlarged(self, tall_mm: float) -> float:
        """How much larger a thing at a height seems than on the plane."""
        return self.height_mm / (self.height_mm - tall_mm)


def camera_stand(floor: Floor) -> Stand:
    """Where the camera stood; the focal length leans on a usual one where there is no tilt."""
    homography = matrix(floor.values)
    focals = np.exp(np.linspace(log(USUAL_FOCAL / 2), log(USUAL_FOCAL * 2), 241))
    focal = float(min(focals, key=lambda f: _misfit(homography, f)))
    turned = homography / np.array([[focal], [focal], [1.0]])
    scale = (np.linalg.norm(turned[:, 0]) + np.linalg.norm(turned[:, 1])) / 2
    across, down, shift = (turned / scale).T
    upward = np.cross(across, down)
    axes = np.stack([across, down, upward], axis=1)
    place = -np.linalg.solve(axes, shift)
    return Stand((float(place[0]), float(place[1])), abs(float(place[2])))


def _misfit(homography: Array, focal: float) -> float:
    """How far a focal length is from making the plane's axes square, and from the usual one."""
    one, two = (homography / np.array([[focal], [focal], [1.0]]))[:, :2].T
    length = np.linalg.norm(one) * np.linalg.norm(two)
    skew = float(one @ two / length)
    odd = float(log(np.linalg.norm(one) / np.linalg.norm(two)))
    usual = log(focal / USUAL_FOCAL) / FOCAL_SPREAD
    return (skew**2 + odd**2) / SKEW_NOISE**2 + usual**2
