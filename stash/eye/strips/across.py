"""The two edges of a strip across its middle line, where the colour is half way to the floor's."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stash.eye.floor.find_sheets import Array
from stash.eye.floor.seen_floor import Floor
from stash.eye.outlines.edges import colours_at

BEYOND_MM = 5.0
PROFILE_MM = 0.1
LEVEL_MM = 2.0
FAINT = 6.0
OUTER_MM = (1.0, 2.5)  # from an edge: the floor's colour right beside it
STEEP = (0.8, 0.2)  # between these shares of the step the edge is taken to run


@dataclass(frozen=True)
class Sight:
    """A photograph and the floor that it shows."""

    image: NDArray[np.uint8]
    floor: Floor

    def colours(self, spots: Array) -> Array:
        """Colours (..., 3) at places (..., 2) of the floor."""
        pixels = self.floor.to_image(spots.reshape(-1, 2)).astype(np.float32)
        return colours_at(self.image, pixels).reshape(*spots.shape[:-1], 3).astype(float)


def normals(line: Array) -> Array:
    """Unit vectors (n, 2) to the left of a line as it runs."""
    ahead = np.gradient(line, axis=0)
    ahead /= np.maximum(np.hypot(*ahead.T), 1e-9)[:, None]
    return np.stack([-ahead[:, 1], ahead[:, 0]], axis=1)


def edges_across(sight: Sight, spots: Array, across: Array, about_mm: float) -> Array:
    """(n, 2): how far each edge lies from each spot, to the left and to the right; NaN unseen."""
    return np.stack([_edge(sight, spots, side * across, about_mm) for side in (1, -1)], axis=1)


def edge_run(sight: Sight, spots: Array, across: Array, about_mm: float) -> float:
    """Over how many mm the strip gives way to the floor beside it, the mean of both edges.

    Cloth ends at once; the dark streaks that grow in wood fade.
    """
    reach = np.arange(0.0, about_mm + BEYOND_MM, PROFILE_MM)
    beside = (reach > about_mm + OUTER_MM[0]) & (reach < about_mm + OUTER_MM[1])
    runs = []
    for toward in (across, -across):
        colour = sight.colours(spots[:, None] + reach[None, :, None] * toward[:, None])
        inside = colour[:, reach <= max(0.5 * about_mm, 0.5)].mean(axis=1)
        outside = colour[:, beside].mean(axis=1)
        step = inside - outside
        size = np.maximum(np.square(step).sum(axis=1), 1e-6)
        share = np.median(
            ((colour - outside[:, None]) * step[:, None]).sum(axis=2) / size[:, None], axis=0)
        high, low = (int(np.argmax(share < part)) for part in STEEP)
        runs.append(float(reach[low] - reach[high]))
    return sum(runs) / 2


def _edge(sight: Sight, spots: Array, toward: Array, about_mm: float) -> Array:
    """How far from each spot the colour is half way to that of the floor; NaN where unseen."""
    reach = np.arange(0.0, about_mm + BEYOND_MM, PROFILE_MM)
    points = spots[:, None] + reach[None, :, None] * toward[:, None]
    colour = sight.colours(points)
    inside = colour[:, reach <= max(0.5 * about_mm, 0.5)].mean(axis=1)
    outside = colour[:, reach > about_mm + BEYOND_MM - LEVEL_MM].mean(axis=1)
    step = inside - outside
    size = np.maximum(np.square(step).sum(axis=1), 1e-6)
    share = ((colour - outside[:, None]) * step[:, None]).sum(axis=2) / size[:, None]
    down = (share[:, :-1] >= 0.5) & (share[:, 1:] < 0.5)
    off = np.where(down, np.abs(reach[:-1] - about_mm)[None], np.inf)
    at = off.argmin(axis=1)
    rows = np.arange(len(spots))
    part = (share[rows, at] - 0.5) / np.maximum(share[rows, at] - share[rows, at + 1], 1e-6)
    edge = reach[at] + PROFILE_MM * part
    good = down.any(axis=1) & (np.sqrt(size) > FAINT) & (off.min(axis=1) < 0.5 * about_mm + 2)
    return np.where(good, edge, np.nan)
