"""Cross-sections: how much cloth a piece covers on each line across it, exactly.

Between two neighbouring corners the cross-section of a polygon is linear, so its
least value over any range is found at corners and range ends: nothing is sampled.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from stash.lay.compiled import kernel
from stash.lay.shapes import Ring


@dataclass(frozen=True)
class Profile:
    """Corners' positions ``at_mm`` (k + 1, from 0), and the cross-section just inside each
    end of every interval, ``near_mm`` and ``far_mm`` (k,)."""

    at_mm: np.ndarray
    near_mm: np.ndarray
    far_mm: np.ndarray

    @property
    def extent_mm(self) -> float:
        """How far the piece reaches in the direction the line moves."""
        return float(self.at_mm[-1])


def profile(ring: Ring, axis: int) -> Profile:
    """Cross-sections on lines that move along ``axis`` (0: along the grain)."""
    points = np.asarray(ring, float)
    move, across = points[:, axis], points[:, 1 - axis]
    move = move - move.min()
    start, end = np.stack([move, across], 1), np.stack([np.roll(move, -1), np.roll(across, -1)], 1)
    at = np.unique(move)
    low, high = np.minimum(start[:, 0], end[:, 0]), np.maximum(start[:, 0], end[:, 0])
    spans = (low[:, None] <= at[None, :-1]) & (high[:, None] >= at[None, 1:])
    step = np.where(end[:, 0] == start[:, 0], 1.0, end[:, 0] - start[:, 0])
    slope = (end[:, 1] - start[:, 1]) / step
    heights = start[:, 1, None] + slope[:, None] * (at[None, :] - start[:, 0, None])
    sign = np.sign(start[:, 0] - end[:, 0])[:, None]
    near = np.abs(np.sum(np.where(spans, sign * heights[:, :-1], 0.0), axis=0))
    far = np.abs(np.sum(np.where(spans, sign * heights[:, 1:], 0.0), axis=0))
    return Profile(at, near, far)


@kernel
def least_between(at, near, far, a, b):
    """The least cross-section of a line that may lie anywhere in [a, b] of the piece."""
    if a <= at[0] or b >= at[-1]:
        return 0.0
    least = 1e300
    for k in range(len(near)):
        left, right = max(a, at[k]), min(b, at[k + 1])
        if left <= right:
            slope = (far[k] - near[k]) / (at[k + 1] - at[k])
            least = min(least, near[k] + slope * (left - at[k]), near[k] + slope * (right - at[k]))
    return least


def least_total(piece_profiles: list[list[Profile]], counts: np.ndarray, room_mm: float) -> tuple:
    """(total, crossed): the most that any one line must cross, in a room of this extent.

    A piece of extent l lies anywhere in [0, room - l], so the line at t meets it
    somewhere in [t - (room - l), t]; it chooses the stance and place that cost least.
    """
    best, crossed = 0.0, 0
    for share in LINES:
        t = share * room_mm
        least = np.array([_least_of(ps, t, room_mm) for ps in piece_profiles])
        total = float((least * counts).sum())
        if total > best:
            best, crossed = total, int(counts[least > 0].sum())
    return best, crossed


LINES = tuple(k / 24 for k in range(4, 21))


def _least_of(stances: list[Profile], t: float, room_mm: float) -> float:
    """The least of any stance; nothing is less than none, so the rest need not be asked."""
    least = np.inf
    for p in stances:
        extent = p.at_mm[-1]
        if extent <= room_mm:
            here = least_between(p.at_mm, p.near_mm, p.far_mm, t - (room_mm - extent), t)
            least = min(least, here)
        if least == 0.0:
            break
    return least
