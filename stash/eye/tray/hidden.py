"""What hides the check: fully, or through something that is clear itself.

Through a translucent button the check is seen, only fainter. So each patch is measured
by its own faintness: half way from there to the open check is its rim.
"""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np

from stash.eye.tray.bare_paper import Map

OPEN_LEVEL = 0.86  # of the open check's strength: below that something lies on it
CLEAR_LEVEL = 0.7  # through which so much is seen that it is better asked about
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
    patches = cv2.morphologyEx((seen < OPEN_LEVEL).astype(np.uint8), cv2.MORPH_OPEN, disc)
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
        level = float(np.percentile(np.clip(seen[box][mine], 0, 1), 30))
        faint = level > CLEAR_LEVEL
        if level < 0.05 or (faint and _widest(mine) * cell_mm < CLEAR_MM):
            continue
        around = cv2.dilate(mine.astype(np.uint8), disc) > 0
        part = share[box]
        part[around] = np.clip((1 - seen[box][around]) / (1 - level), 0, 1)
        if faint:
            clear[box][around] = 1
    return Hidden(share, clear)


def _widest(mask: np.ndarray) -> float:
    """Across the largest circle in a patch, in cells."""
    framed = cv2.copyMakeBorder(mask.astype(np.uint8), 1, 1, 1, 1, cv2.BORDER_CONSTANT, value=0)
    return 2 * float(cv2.distanceTransform(framed, cv2.DIST_L2, 3).max())
