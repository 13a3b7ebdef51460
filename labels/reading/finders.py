"""The three square eyes of a QR symbol, found by their shape wherever they are.

A finder pattern is a dark ring round a light one round a dark square. That nesting survives
bending and creasing, where decoders that measure 1:1:3:1:1 along straight lines give up.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

import cv2
import numpy as np

from labels.reading.readings import Corners

SMALLEST_PX2 = 60
DARKER_BY = 16
"""Grey levels below its surroundings at which a pixel counts as dark: below that lies noise."""
MOST_CANDIDATES = 9
CENTRE_SHARE = (0.07, 0.42)
"""Area of the dark centre over the whole pattern: 9/49 when nothing blurs it."""


@dataclass(frozen=True)
class Finder:
    """One pattern: the corners of its outer edge as a 4 x 2 array, its middle and its size."""

    quad: np.ndarray
    middle: np.ndarray
    size: float


Trio = tuple[Finder, Finder, Finder]
"""Top left, top right, bottom left, as seen on the symbol itself."""


def finders(grey: np.ndarray) -> list[Finder]:
    """Patterns in a grey picture, the largest first."""
    smooth = _stretched(cv2.GaussianBlur(grey, (0, 0), 1.0))
    block = max(31, min(grey.shape) // 8) | 1
    binary = cv2.adaptiveThreshold(
        smooth, 255, cv2.ADAPTIVE_THRESH_MEAN_C, cv2.THRESH_BINARY, block, DARKER_BY
    )
    contours, tree = cv2.findContours(255 - binary, cv2.RETR_TREE, cv2.CHAIN_APPROX_SIMPLE)
    if tree is None:
        return []
    found = []
    for outer, (_, _, hole, _) in enumerate(tree[0]):
        centre = tree[0][hole][2] if hole >= 0 else -1
        if centre < 0 or len(contours[outer]) < 4:
            continue
        area, inner = cv2.contourArea(contours[outer]), cv2.contourArea(contours[centre])
        if area < SMALLEST_PX2 or not CENTRE_SHARE[0] < inner / area < CENTRE_SHARE[1]:
            continue
        finder = _finder(contours[outer], contours[centre])
        if finder is not None:
            found.append(finder)
    return sorted(found, key=lambda f: -f.size)[:MOST_CANDIDATES]


def trios(found: list[Finder]) -> list[Trio]:
    """Likely symbols among the patterns, the most regular first."""
    rated = []
    for three in combinations(found, 3):
        sizes = [f.size for f in three]
        if max(sizes) > 2.2 * min(sizes):
            continue
        trio = _in_order(three)
        unevenness = _unevenness(trio)
        if unevenness < 1.0:
            rated.append((unevenness, trio))
    return [trio for _, trio in sorted(rated, key=lambda pair: pair[0])]


def outline(trio: Trio) -> Corners:
    """About where the symbol of three patterns lies, clockwise from its own top left."""
    top, right, foot = (finder.middle for finder in trio)
    half = float(np.mean([finder.size for finder in trio])) / 2
    u, v = right - top, foot - top
    out = half * (u / np.linalg.norm(u)), half * (v / np.linalg.norm(v))
    places = (top - out[0] - out[1], right + out[0] - out[1], right + v + out[0] + out[1],
              foot - out[0] + out[1])
    return tuple((float(x), float(y)) for x, y in places)


def _stretched(grey: np.ndarray) -> np.ndarray:
    """The same picture from black to white."""
    low, high = np.percentile(grey[::7, ::7], (1, 99))
    if high - low < 8:
        return grey
    return np.asarray(
        cv2.convertScaleAbs(np.clip(grey, low, high) - low, alpha=255 / (high - low)))


def _finder(outline: np.ndarray, centre: np.ndarray) -> Finder | None:
    quad = cv2.approxPolyN(cv2.convexHull(outline), 4)
    corners = np.asarray(quad, dtype=float).reshape(-1, 2)
    if len(corners) != 4:
        return None
    middle, inner = corners.mean(axis=0), centre.reshape(-1, 2).mean(axis=0)
    size = float(np.sqrt(max(cv2.contourArea(corners.astype(np.float32)), 1.0)))
    sides = np.linalg.norm(corners - np.roll(corners, 1, axis=0), axis=1)
    if np.linalg.norm(middle - inner) > 0.22 * size or sides.max() > 4 * sides.min():
        return None
    return Finder(corners, middle, size)


def _in_order(three: tuple[Finder, ...]) -> Trio:
    """The corner of the right angle first, then clockwise as the picture is seen."""
    def opposite(n: int) -> float:
        a, b = (three[m].middle for m in range(3) if m != n)
        return float(np.linalg.norm(a - b))

    top = max(range(3), key=opposite)
    one, other = (three[m] for m in range(3) if m != top)
    u, v = one.middle - three[top].middle, other.middle - three[top].middle
    if u[0] * v[1] - u[1] * v[0] < 0:
        one, other = other, one
    return three[top], one, other


def _unevenness(trio: Trio) -> float:
    """0 for three equal patterns at the corners of a square of the right size, more otherwise."""
    u, v = trio[1].middle - trio[0].middle, trio[2].middle - trio[0].middle
    long, wide = float(np.linalg.norm(u)), float(np.linalg.norm(v))
    mean = float(np.mean([f.size for f in trio]))
    if not 1.3 * mean < min(long, wide) or max(long, wide) > 6.5 * mean:
        return np.inf
    slant = abs(float(u @ v)) / (long * wide)
    spread = float(np.std([f.size for f in trio])) / mean
    return slant + abs(float(np.log(long / wide))) / 2 + spread
