"""The cascade: ever costlier ways of preparing a picture, until its labels are read.

Order and parameters were chosen on the degradation families of tests/bench/scan_bench.py
(the table is in docs/scanning.md). No step can give a wrong code: a text counts only if
it has the form of a label and its check character agrees.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from enum import StrEnum

import cv2
import numpy as np

from labels.payload import interpret
from labels.reading import decoders
from labels.reading.decoders import Found
from labels.reading.sight import (
    Corners,
    Reading,
    Sight,
    centre,
    in_reading_order,
    reading,
    size_px,
)

LARGE_PX = 2_500_000
"""Above this a picture is a still of many labels: doubling it again and again would not pay."""


class Effort(StrEnum):
    """How hard to try: FAST for video frames, FULL for photographs."""

    FAST = "fast"
    FULL = "full"


Step = tuple[str, float, Callable[[np.ndarray], list[Found]]]
"""A name, the factor by which its picture is larger, and what it finds in the grey image."""


def read(image: np.ndarray, effort: Effort = Effort.FULL) -> list[Reading]:
    """The labels in an image: grey or BGR, 8 bits, from the top row by row."""
    return list(look(image, effort).readings)


def look(image: np.ndarray, effort: Effort = Effort.FULL) -> Sight:
    """Everything seen in an image; see :class:`Sight`."""
    grey = as_grey(image)
    gathered = _Gathered()
    for name, scale, decode in _steps(grey, effort):
        gathered.add(decode(grey), name, scale)
        if gathered.readings and grey.size <= LARGE_PX:
            break
    unread = gathered.unseen(decoders.zxing_located(grey))
    return Sight(tuple(in_reading_order(gathered.readings)), tuple(gathered.strangers), unread)


def as_grey(image: np.ndarray) -> np.ndarray:
    """Any 8-bit picture as one grey channel."""
    if image.ndim == 2:
        return np.ascontiguousarray(image)
    if image.shape[2] == 4:
        return cv2.cvtColor(image, cv2.COLOR_BGRA2GRAY)
    return cv2.cvtColor(image, cv2.COLOR_BGR2GRAY)


class _Gathered:
    """Readings so far, one for each code and place."""

    def __init__(self) -> None:
        self.readings: list[Reading] = []
        self.strangers: list[str] = []

    def add(self, found: list[Found], decoder: str, scale: float) -> None:
        for text, corners in found:
            payload = interpret(text)
            corners = tuple((x / scale, y / scale) for x, y in corners)
            if payload is None:
                if text and text not in self.strangers:
                    self.strangers.append(text)
            elif not self._already(payload.code.text, corners):
                self.readings.append(reading(payload, corners, decoder, text))

    def _already(self, code: str, corners: Corners) -> bool:
        return any(r.code == code and _near(r.corners_px, corners) for r in self.readings)

    def unseen(self, located: list[Corners]) -> tuple[Corners, ...]:
        return tuple(
            corners for corners in located
            if not any(_near(r.corners_px, corners) for r in self.readings)
        )


def _near(one: Corners, other: Corners) -> bool:
    (x0, y0), (x1, y1) = centre(one), centre(other)
    return (x0 - x1) ** 2 + (y0 - y1) ** 2 <= max(size_px(one), size_px(other)) ** 2 / 4


def _steps(grey: np.ndarray, effort: Effort) -> Iterator[Step]:
    yield "zxing", 1.0, decoders.zxing
    if grey.size > LARGE_PX:
        yield "zxing 2x", 2.0, lambda g: decoders.zxing(_larger(g, 2))
        return
    yield "zxing 2x", 2.0, lambda g: decoders.zxing(_larger(g, 2))
    yield "zxing evened 2x", 2.0, lambda g: decoders.zxing(_larger(_evened(g), 2))
    if effort is Effort.FAST:
        return
    yield "zxing opened 3x", 3.0, lambda g: decoders.zxing(_opened(_larger(g, 3)))
    yield "zxing sharpened 2x", 2.0, lambda g: decoders.zxing(_sharpened(_larger(g, 2)))
    yield "zxing adaptive 3x", 3.0, lambda g: decoders.zxing(_adaptive(_larger(g, 3)))
    zbar = decoders.zbar()
    if zbar is not None:
        yield "zbar evened 2x", 2.0, lambda g: zbar(_larger(_evened(g), 2))


def _larger(grey: np.ndarray, factor: int) -> np.ndarray:
    return cv2.resize(grey, None, fx=factor, fy=factor, interpolation=cv2.INTER_CUBIC)


def _evened(grey: np.ndarray) -> np.ndarray:
    return cv2.createCLAHE(clipLimit=3.0, tileGridSize=(8, 8)).apply(grey)


def _opened(grey: np.ndarray) -> np.ndarray:
    return cv2.morphologyEx(grey, cv2.MORPH_OPEN, np.ones((7, 7), np.uint8))


def _sharpened(grey: np.ndarray) -> np.ndarray:
    return cv2.addWeighted(grey, 2.0, cv2.GaussianBlur(grey, (0, 0), 3.0), -1.0, 0)


def _adaptive(grey: np.ndarray) -> np.ndarray:
    return cv2.adaptiveThreshold(
        grey, 255, cv2.ADAPTIVE_THRESH_MEAN_C, cv2.THRESH_BINARY, 31, 3
    )
