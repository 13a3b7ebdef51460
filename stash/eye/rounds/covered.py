"""Which round things have another lying on them, though their outline hides it.

On a heap the upper one may hide the ground no further than the two below it. Then the faces
tell: each is held against the median face of its fellows, so holes, shine and shadow that all
of them have count for nothing.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from stash.eye.rounds.circle import Circles, Map

LEAST_FELLOWS = 5
FACE = 0.85  # of a radius: the rim itself is never twice the same
TIMES_USUAL = 2.3  # their differences among themselves stay below twice the usual one
LIKENESS = 0.8  # of the usual one


def covered(look: Map, cell_mm: float, circles: Circles) -> NDArray[np.bool_]:
    """A mask over circles of one size; ``look`` is the logarithm of light."""
    none = np.zeros(len(circles), bool)
    if len(circles) < LEAST_FELLOWS:
        return none
    half = int(np.ceil(float(np.median(circles.radius_mm)) / cell_mm))
    padded = np.pad(look, half, mode="edge")
    cells = np.round(circles.middle_mm / cell_mm).astype(int)
    face = np.hypot(*np.mgrid[-half : half + 1, -half : half + 1]) < FACE * half
    high, wide = look.shape
    faces = np.array([
        padded[y : y + 2 * half + 1, x : x + 2 * half + 1][face]
        for x, y in zip(np.clip(cells[:, 0], 0, wide - 1), np.clip(cells[:, 1], 0, high - 1),
                        strict=True)])
    faces = faces - np.median(faces, axis=1, keepdims=True)
    usual = np.median(faces, axis=0)
    off = np.sqrt(np.median((faces - usual) ** 2, axis=1))
    about = faces - faces.mean(axis=1, keepdims=True)
    model = usual - usual.mean()
    like = about @ model / np.sqrt((about**2).sum(axis=1) * (model**2).sum() + 1e-9)
    return np.asarray(
        (off > TIMES_USUAL * np.median(off)) & (like < LIKENESS * np.median(like)), bool)
