"""A symbol drawn flat from a picture, its known patterns painted in afresh.

Finder patterns, timing lines and the quiet zone are the same on every symbol (ISO/IEC 18004,
6.3), so where the picture has lost one (tape, a thread, glare) it may be drawn in; only the
data modules must come from the picture.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

import cv2
import numpy as np

from labels.qr import QUIET_MODULES
from labels.reading.decoders import zxing
from labels.reading.readings import Corners

SIDES = (29, 21, 25, 33)
"""Modules a side, the labels' usual ones first."""
FLAT_PX = 6

Look = Callable[[np.ndarray], np.ndarray]
"""From places on the symbol in modules (rows of x, y) to where the picture shows them."""


def read_flat(grey: np.ndarray, side: int, look: Look) -> str | None:
    """The text of a symbol of ``side`` modules that lies in ``grey`` as ``look`` says."""
    whole = side + 2 * QUIET_MODULES
    ticks = np.arange(whole) + 0.5 - QUIET_MODULES
    places = np.stack(np.meshgrid(ticks, ticks), axis=-1).reshape(-1, 2)
    seen = look(places).astype(np.float32).reshape(whole, whole, 2)
    fine = cv2.resize(seen, None, fx=FLAT_PX, fy=FLAT_PX, interpolation=cv2.INTER_LINEAR)
    flat = cv2.remap(
        grey, fine[..., 0], fine[..., 1], cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
    texts = zxing(_painted(flat, side))
    return texts[0][0] if texts else None


def corners(side: int, look: Look) -> Corners:
    """The four corners of the symbol in the picture."""
    places = np.array([(0, 0), (side, 0), (side, side), (0, side)], dtype=float)
    return tuple((float(x), float(y)) for x, y in look(places))


def eye_corners(side: int) -> np.ndarray:
    """Outer corners of the finder patterns on the symbol: top left, top right, bottom left."""
    eye = np.array([(0, 0), (7, 0), (7, 7), (0, 7)], dtype=float)
    far = side - 7
    return np.stack([eye, eye + (far, 0), eye + (0, far)])


def _painted(flat: np.ndarray, side: int) -> np.ndarray:
    known, dark = _known_patterns(side)
    low, high = np.percentile(flat, (8, 92))
    return np.where(known, np.where(dark, low, high), flat).astype(np.uint8)


@cache
def _known_patterns(side: int) -> tuple[np.ndarray, np.ndarray]:
    """(where the symbol is the same for every text, where it is dark there), in flat pixels."""
    known = np.ones((side + 2 * QUIET_MODULES,) * 2, dtype=bool)
    dark = np.zeros_like(known)
    q = QUIET_MODULES
    known[q : q + side, q : q + side] = False
    known[q + 6, q : q + side] = known[q : q + side, q + 6] = True
    dark[q + 6, q : q + side : 2] = dark[q : q + side : 2, q + 6] = True
    eye = np.zeros((9, 9), dtype=bool)
    eye[1:8, 1:8] = True
    eye[2:7, 2:7] = False
    eye[3:6, 3:6] = True
    for row, column in ((0, 0), (0, side - 7), (side - 7, 0)):
        box = np.s_[q + row - 1 : q + row + 8, q + column - 1 : q + column + 8]
        known[box], dark[box] = True, eye
    grow = np.ones((FLAT_PX, FLAT_PX), dtype=bool)
    return np.kron(known, grow), np.kron(dark, grow)
