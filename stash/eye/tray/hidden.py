"""What hides the check: fully, or through something that is clear itself.

Through a translucent button the check is seen, only fainter. So each patch is measured
by its own faintness: half way from there to the open check is its rim.
"""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.eye.tray.bare_paper import Map
from stash.eye.tray.from_above import BEYOND_MM

OPEN_LEVEL = 0.86  # of the open check's strength: below that something lies on it
# Over a wider part the open check never falls so low, while a dark film lets up to 0.9 through
# (on seeds that no table reports: 0.94 of it at the least, in a thousand cells one).
SOFT_MM, SOFT_LEVEL = 1.0, 0.93
STEADY_MM = 0.5  # over which what is faint is steadied: noise is a larger share of it
GAP_LEVEL = 0.965  # of the open check: less is no gap between two buttons
FILM_LEVEL, PLAIN_SHARE = 0.5, 0.5
LEAST_CORE, NARROW_PERCENTILE = 0.2, 30
CORE_MM = 1.2  # further in than that a patch is as clear as it is: no wall, no blurred rim
CLEAR_LEVEL = 0.7  # through which so much is seen that it is better asked about
FRAME_MM = 1.0
SPECK_MM = 1.4
LEAST_MM2 = 8.0
CLEAR_MM = 4.5  # a clear thing is at least so large; between buttons the check is faint too


@dataclass(frozen=True)
class Hidden:
    """``share`` from 0 (ground) to 1 (hidden as fully as that patch hides anything).

    ``clear`` marks patches through which most of the check is seen.
    """

    share: Map
    clear: Map


def hidden_by(seen: Map, cell_mm: float) -> Hidden:
    """Each patch on its own scale."""
    size = 2 * int(SPECK_MM / 2 / cell_mm) + 1
    disc = cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (size, size))
    film = _soft(seen, cell_mm) < SOFT_LEVEL
    solid = cv2.morphologyEx((seen < OPEN_LEVEL).astype(np.uint8), cv2.MORPH_OPEN, disc)
    patches = cv2.morphologyEx(
        ((solid > 0) | film).astype(np.uint8), cv2.MORPH_OPEN, disc)
    steady = cv2.GaussianBlur(seen, (0, 0), STEADY_MM / cell_mm)
    count, labels, stats, _ = cv2.connectedComponentsWithStats(patches)
    share = np.clip(1 - seen, 0, 1).astype(np.float32)
    clear = np.zeros_like(share)
    for i in range(1, count):
        left, top, wide, high, cells = stats[i]
        box = np.s_[
            max(top - size, 0) : top + high + size, max(left - size, 0) : left + wide + size]
        mine = labels[box] == i
        if cells * cell_mm**2 < LEAST_MM2:
            continue
        level = _level(np.clip(seen[box], 0, 1), mine, cell_mm)
        plain = mine & (solid[box] > 0)
        if level < FILM_LEVEL and plain.sum() > PLAIN_SHARE * cells:  # no film: by its own rims
            mine, level = plain, _level(np.clip(seen[box], 0, 1), plain, cell_mm)
        faint = level > CLEAR_LEVEL
        if level < 0.05 or (faint and _widest(mine) * cell_mm < CLEAR_MM):
            continue
        around = cv2.dilate(mine.astype(np.uint8), disc) > 0
        part = share[box]
        through = steady[box] if faint else seen[box]
        part[around] = np.clip((1 - through[around]) / (1 - level), 0, 1)
        if faint:
            part[_within(part, steady[box])] = 1
            clear[box][around] = 1
    return Hidden(share, clear)


def _soft(seen: Map, cell_mm: float) -> Map:
    """Over a wider part; at the frame of the check, where it breaks off, as if it went on."""
    inner, edge = seen.copy(), round((BEYOND_MM + FRAME_MM) / cell_mm)
    inner[:edge] = inner[-edge:] = 1.0
    inner[:, :edge] = inner[:, -edge:] = 1.0
    return np.asarray(cv2.GaussianBlur(inner, (0, 0), SOFT_MM / cell_mm), np.float32)


def _level(seen: Map, mine: NDArray[np.bool_], cell_mm: float) -> float:
    """How much of the check is seen through a patch; of a narrow one, as a ring, by its least."""
    framed = cv2.copyMakeBorder(mine.astype(np.uint8), 1, 1, 1, 1, cv2.BORDER_CONSTANT, value=0)
    core = (cv2.distanceTransform(framed, cv2.DIST_L2, 3) > CORE_MM / cell_mm)[1:-1, 1:-1]
    if core.sum() < LEAST_CORE * mine.sum():
        return float(np.percentile(seen[mine], NARROW_PERCENTILE))
    return float(np.median(seen[core]))


def _within(part: Map, steady: Map) -> NDArray[np.bool_]:
    """Gaps in a faint patch that do not show the open check: its holes and its noise, no rims."""
    count, labels, _, _ = cv2.connectedComponentsWithStats(
        (part <= 0.5).astype(np.uint8), connectivity=4)
    edge = {*labels[0], *labels[-1], *labels[:, 0], *labels[:, -1]}
    gaps = [i for i in range(1, count)
            if i not in edge and float(np.median(steady[labels == i])) < GAP_LEVEL]
    return np.isin(labels, gaps)


def _widest(mask: np.ndarray) -> float:
    """Across the largest circle in a patch, in cells."""
    framed = cv2.copyMakeBorder(mask.astype(np.uint8), 1, 1, 1, 1, cv2.BORDER_CONSTANT, value=0)
    return 2 * float(cv2.distanceTransform(framed, cv2.DIST_L2, 3).max())
