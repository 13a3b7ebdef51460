"""Cross-sections: how much cloth a piece covers on each line across it, exactly.

Between two neighbouring corners the cross-section of a polygon is linear, so its
least value over any range is found at corners and range ends: nothing is sampled.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from stash.lay.cloth.outlines import Ring
from stash.lay.compiled import inner, kernel

LINES = tuple(k / 24 for k in range(4, 21))  # where lines are drawn, in shares of the room


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

    def reversed(self) -> Profile:
        """The profile of the piece turned end for end."""
        return Profile(self.extent_mm - self.at_mm[::-1], self.far_mm[::-1], self.near_mm[::-1])


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


class Profiles(NamedTuple):
    """The profiles of several pieces in a row, for the kernels.

    ``near`` and ``far`` (k,) of all; ``first`` (profiles + 1,) where each begins there, in
    ``at`` as many places further as there are profiles before it; ``own`` (pieces + 1,)
    where the profiles of each piece begin.
    """

    at: np.ndarray
    near: np.ndarray
    far: np.ndarray
    first: np.ndarray
    own: np.ndarray


def in_a_row(by_piece: list[list[Profile]]) -> Profiles:
    """The profiles that each piece may show."""
    flat = [p for own in by_piece for p in own]
    return Profiles(
        np.concatenate([p.at_mm for p in flat]),
        np.concatenate([p.near_mm for p in flat]),
        np.concatenate([p.far_mm for p in flat]),
        np.cumsum([0, *(len(p.near_mm) for p in flat)], dtype=np.int64),
        np.cumsum([0, *map(len, by_piece)], dtype=np.int64),
    )


@inner
def least_between(at: np.ndarray, near: np.ndarray, far: np.ndarray, a: float, b: float) -> float:
    """The least cross-section of a line that may lie anywhere in [a, b] of the piece."""
    if a <= at[0] or b >= at[-1]:
        return 0.0
    least = 1e300
    for k in range(len(near)):
        left, right = max(a, at[k]), min(b, at[k + 1])
        if left <= right and at[k] == at[k + 1]:  # corners that rounding has brought together
            least = min(least, near[k], far[k])
        elif left <= right:
            slope = (far[k] - near[k]) / (at[k + 1] - at[k])
            least = min(least, near[k] + slope * (left - at[k]), near[k] + slope * (right - at[k]))
    return least


@kernel
def least_total(profiles: Profiles, counts: np.ndarray, room_mm: float) -> tuple[float, int]:
    """(total, crossed): the most that any one line must cross, in a room of this extent.

    A piece of extent l lies anywhere in [0, room - l], so the line at t meets it
    somewhere in [t - (room - l), t]; it chooses the stance and place that cost least.
    """
    best, crossed = 0.0, 0
    for share in LINES:
        total, met = 0.0, 0
        for piece in range(len(counts)):
            least = _least_of(profiles, piece, share * room_mm, room_mm)
            total += least * counts[piece]
            met += counts[piece] if least > 0.0 else 0
        if total > best:
            best, crossed = total, met
    return best, crossed


@inner
def _least_of(profiles: Profiles, piece: int, t: float, room_mm: float) -> float:
    """The least of any stance; nothing is less than none, so the rest need not be asked."""
    least = np.inf
    for p in range(profiles.own[piece], profiles.own[piece + 1]):
        a, b = profiles.first[p], profiles.first[p + 1]
        at, near, far = profiles.at[a + p : b + p + 1], profiles.near[a:b], profiles.far[a:b]
        extent = at[-1]
        if extent <= room_mm:
            least = min(least, least_between(at, near, far, t - (room_mm - extent), t))
        if least == 0.0:
            break
    return least
