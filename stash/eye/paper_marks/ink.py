"""Ink and pencil on paper, seen from above: what is darker than the paper close by."""

from __future__ import annotations

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.eye.outlines.backdrop import FromAbove

NEAR_MM = 7.0  # wider than any line that is drawn, narrower than the light's changes
DARKER = 0.10  # in natural logarithms of brightness: a soft pencil, chosen here

Mask = NDArray[np.bool_]


def ink(seen: FromAbove) -> Mask:
    """Cells darker than the paper around them."""
    logs = log_brightness(seen)
    size = 2 * int(NEAR_MM / seen.cell_mm / 2) + 1
    disc = cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (size, size))
    return np.asarray(cv2.morphologyEx(logs, cv2.MORPH_BLACKHAT, disc) > DARKER)


def log_brightness(seen: FromAbove) -> NDArray[np.float32]:
    """The brightness of each cell, in natural logarithms."""
    grey = cv2.cvtColor(seen.colour, cv2.COLOR_BGR2GRAY)
    return np.log(grey.astype(np.float32) + 6.0)
