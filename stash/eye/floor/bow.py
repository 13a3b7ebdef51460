"""How far points that should lie on a line bow away from it."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


def deviations(points: Array) -> Array:
    """Distances of points from the line nearest to them."""
    middle = points.mean(axis=0)
    _, _, directions = np.linalg.svd(points - middle, full_matrices=False)
    return (points - middle) @ directions[1]


def bow(points: Array) -> float:
    """How far evenly spread points sag from straight in the middle, by the best parabola."""
    off = deviations(points)
    t = np.linspace(-1, 1, len(points))
    return float(np.polyfit(t, off, 2)[0])
