"""The cascade: ever costlier ways of looking at a picture, until its labels are read.

Order and parameters were chosen on the degradation families of tests/bench/scan_bench.py
(the table is in docs/scanning.md). No step can give a wrong code: a text counts only if
it has the form of a label and its check character agrees.
"""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum

import cv2
import numpy as np

from labels.reading import decoders
from labels.reading.decoders import Decoded
from labels.reading.gathered import SMALLEST_SIDE_PX, Gathered
from labels.reading.lost_finder import read_pairs
from labels.reading.prepared import Prepared
from labels.reading.readings import Corners, LabelReading, PhotoReadings, size_px
from labels.reading.unroll import read_bent

LARGE_PX = 2_500_000
"""Above this a picture is a still of many labels: the costly steps are kept for parts of it."""
MIDDLING_SIDE_PX = 1600
CLOSE_SIDE_PX = 240
MOST_CLOSE_LOOKS = 12


class Thoroughness(StrEnum):
    """How hard to try: FAST for video frames, FULL for photographs."""

    FAST = "fast"
    FULL = "full"


CascadeStep = tuple[str, float, Callable[[Prepared], list[Decoded]]]
"""A name, the factor by which its picture is larger, and what it finds."""

QUICK: tuple[CascadeStep, ...] = (
    ("zxing 2x", 2.0, lambda p: decoders.zxing(p.doubled)),
    ("zxing evened 2x", 2.0, lambda p: decoders.zxing(p.evened)),
)
THOROUGH: tuple[CascadeStep, ...] = (
    *QUICK,
    ("unrolled", 2.0, lambda p: read_bent(p.doubled, p.eyes)),
    ("two eyes", 2.0, lambda p: read_pairs(p.doubled, p.eyes)),
    ("zxing sharpened 2x", 2.0, lambda p: decoders.zxing(p.sharpened())),
    ("zxing adaptive 3x", 3.0, lambda p: decoders.zxing(p.adaptive())),
    ("two eyes, evened", 2.0, lambda p: read_pairs(p.evened, p.eyes_evened)),
    ("zbar evened 2x", 2.0, lambda p: _zbar(p.evened)),
)


def read(image: np.ndarray, effort: Thoroughness = Thoroughness.FULL) -> list[LabelReading]:
    """The labels in an image: grey or BGR, 8 bits, from the top row by row."""
    return list(look(image, effort).readings)


def look(image: np.ndarray, effort: Thoroughness = Thoroughness.FULL) -> PhotoReadings:
    """Everything seen in an image; see :class:`PhotoReadings`."""
    grey = as_grey(image)
    gathered = Gathered()
    found, located = decoders.zxing_and_located(grey)
    gathered.add(found, "zxing")
    gathered.locate(located)
    if grey.size > LARGE_PX:
        _look_at_large(grey, gathered)
    elif not gathered.complete:
        _run(QUICK if effort is Thoroughness.FAST else THOROUGH, grey, gathered)
    return gathered.sight()


def as_grey(image: np.ndarray) -> np.ndarray:
    """Any 8-bit picture as one grey channel."""
    if image.ndim == 2:
        return np.ascontiguousarray(image)
    if image.shape[2] == 4:
        return cv2.cvtColor(image, cv2.COLOR_BGRA2GRAY)
    return cv2.cvtColor(image, cv2.COLOR_BGR2GRAY)


def _run(
    steps: tuple[CascadeStep, ...], grey: np.ndarray, gathered: Gathered, scale: float = 1.0,
    at: tuple[float, float] = (0, 0),
) -> None:
    """Step by step until one reads something."""
    prepared = Prepared(grey)
    before = len(gathered.readings)
    for name, factor, step in steps:
        gathered.add(step(prepared), name, factor * scale, at)
        if len(gathered.readings) > before:
            return
    if steps is THOROUGH:
        gathered.locate(prepared.seen_symbols(), 2.0 * scale, at)


def _look_at_large(grey: np.ndarray, gathered: Gathered) -> None:
    """Twice as large as a whole, then closely where something is left."""
    gathered.add(decoders.zxing(Prepared(grey).doubled), "zxing 2x", 2.0)
    for corners in gathered.unread[:MOST_CLOSE_LOOKS]:
        part, at = _part(grey, corners)
        if min(part.shape) >= SMALLEST_SIDE_PX:
            scale = min(1.0, CLOSE_SIDE_PX / min(part.shape))
            _run(THOROUGH, _smaller(part, scale), gathered, scale, at)
    if not gathered.readings:
        scale = min(1.0, MIDDLING_SIDE_PX / max(grey.shape))
        _run(THOROUGH, _smaller(grey, scale), gathered, scale)


def _part(grey: np.ndarray, corners: Corners) -> tuple[np.ndarray, tuple[int, int]]:
    """The part of a picture round a symbol, and where its corner lies."""
    xs, ys = zip(*corners, strict=True)
    margin = 0.35 * size_px(corners)
    left, top = max(0, int(min(xs) - margin)), max(0, int(min(ys) - margin))
    right, foot = max(0, int(max(xs) + margin)), max(0, int(max(ys) + margin))
    return grey[top:foot, left:right], (left, top)


def _smaller(grey: np.ndarray, scale: float) -> np.ndarray:
    if scale >= 1.0:
        return np.ascontiguousarray(grey)
    return cv2.resize(grey, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA)


def _zbar(grey: np.ndarray) -> list[Decoded]:
    decode = decoders.zbar()
    return decode(grey) if decode else []
