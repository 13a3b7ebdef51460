"""Circles held against the map: how much of each rim is seen, and the circle that fits it best."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import cv2
import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Map = NDArray[np.float32]
RAYS = 72
STEP_MM = 0.2
NEAR_MM = 0.7  # how far from the circle a rim may lie and still be its own
NEAR_SHARE = 0.07  # or this share of the radius


@dataclass(frozen=True)
class Circles:
    """n circles: middles (n, 2) and radii (n,) in mm from the middle of the map's first cell."""

    middle_mm: Array
    radius_mm: Array

    def __len__(self) -> int:
        return len(self.radius_mm)

    def picked(self, which: NDArray[Any]) -> Circles:
        """Those at an index or under a mask."""
        return Circles(self.middle_mm[which], self.radius_mm[which])


@dataclass(frozen=True)
class Seen:
    """What the rays of n circles meet, each of shape (n, RAYS).

    ``edge_mm`` is the distance of the rim nearest to the circle, NaN where there is none
    near it; ``beyond`` says that the ray is still hidden outside the circle, ``bare`` that
    the ground shows well inside it.
    """

    edge_mm: Array
    beyond: NDArray[np.bool_]
    bare: NDArray[np.bool_]

    def near(self, circles: Circles, times: float = 1.0) -> NDArray[np.bool_]:
        """Which rays show a rim where the circle says."""
        off = np.abs(self.edge_mm - circles.radius_mm[:, None])
        return off < times * np.maximum(NEAR_MM, NEAR_SHARE * circles.radius_mm[:, None])


ANGLES = 2 * np.pi * np.arange(RAYS) / RAYS
TOWARD = np.stack([np.cos(ANGLES), np.sin(ANGLES)], axis=1)


def looked_at(hidden: Map, cell_mm: float, circles: Circles) -> Seen:
    """What each circle's rays meet between 0.55 and 1.45 of its radius."""
    most = float(circles.radius_mm.max(initial=1.0))
    steps = max(8, int(0.9 * most / STEP_MM))
    share = np.linspace(0.55, 1.45, steps)
    reach = circles.radius_mm[:, None] * share
    values = _sampled(hidden, cell_mm, circles.middle_mm, reach)
    inside, outside = values[..., :-1], values[..., 1:]
    down = (inside > 0.5) & (outside <= 0.5)
    part = (inside - 0.5) / np.maximum(inside - outside, 1e-6)
    width = np.diff(reach, axis=1)
    at = reach[:, None, :-1] + part * width[:, None]
    off = np.where(down, np.abs(at - circles.radius_mm[:, None, None]), np.inf)
    best = off.argmin(axis=2)
    edge = np.take_along_axis(at, best[..., None], axis=2)[..., 0]
    edge = np.where(np.isfinite(off.min(axis=2)), edge, np.nan)
    past = np.abs(share - 1.12).argmin()
    well = np.abs(share - 0.8).argmin()
    return Seen(edge, values[..., past] > 0.5, values[..., well] < 0.4)


def _sampled(hidden: Map, cell_mm: float, middle_mm: Array, reach_mm: Array) -> Map:
    """The map along the rays, shape (n, RAYS, steps)."""
    if not len(middle_mm):
        return np.zeros((0, RAYS, reach_mm.shape[1]), np.float32)
    spots = middle_mm[:, None, None] + reach_mm[:, None, :, None] * TOWARD[None, :, None]
    cells = (spots / cell_mm).astype(np.float32).reshape(-1, reach_mm.shape[1], 2)
    parts = [
        cv2.remap(hidden, part, None, cv2.INTER_LINEAR, borderMode=cv2.BORDER_CONSTANT,
                  borderValue=0)
        for part in np.array_split(cells, len(cells) // 30_000 + 1)
    ]
    return np.concatenate(parts).reshape(len(middle_mm), RAYS, -1)


def fitted(circles: Circles, seen: Seen, free_radius: bool = True) -> Circles:
    """Each circle moved onto the rim it shows (least squares, strays left out)."""
    near = seen.near(circles)
    off = np.where(near, np.nan_to_num(seen.edge_mm) - circles.radius_mm[:, None], 0.0)
    terms = np.concatenate([TOWARD, np.ones((RAYS, 1))], axis=1)
    normal = np.einsum("nk,ki,kj->nij", near.astype(float), terms, terms)
    # A short arc says little: the middle is held a little, the radius more.
    normal += np.diag([0.5, 0.5, 6.0 if free_radius else 1e9])
    moved = np.linalg.solve(normal, np.einsum("nk,ki->ni", off, terms)[..., None])[..., 0]
    return Circles(circles.middle_mm + moved[:, :2], circles.radius_mm + moved[:, 2])
