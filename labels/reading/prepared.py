"""One picture prepared in the ways the cascade's steps ask for, each made once."""

from __future__ import annotations

from functools import cached_property

import cv2
import numpy as np

from labels.reading.finders import Finder, finders, outline, trios
from labels.reading.readings import Corners


class Prepared:
    """A grey picture and its variants."""

    def __init__(self, grey: np.ndarray):
        self.grey = grey

    @cached_property
    def doubled(self) -> np.ndarray:
        """Twice as large."""
        return _larger(self.grey, 2)

    @cached_property
    def evened(self) -> np.ndarray:
        """Contrast made equal everywhere, twice as large: for the dark and for hard shadows."""
        tiles = cv2.createCLAHE(clipLimit=3.0, tileGridSize=(8, 8))
        return _larger(tiles.apply(self.grey), 2)

    @cached_property
    def eyes(self) -> list[Finder]:
        """Finder patterns of ``doubled``."""
        return finders(self.doubled)

    @cached_property
    def eyes_evened(self) -> list[Finder]:
        """Finder patterns of ``evened``."""
        return finders(self.evened)

    def seen_symbols(self) -> list[Corners]:
        """Where three finder patterns of ``doubled`` look like a symbol, read or not."""
        return [outline(trio) for trio in trios(self.eyes)[:1]]

    def sharpened(self) -> np.ndarray:
        """Twice as large, edges steepened."""
        soft = cv2.GaussianBlur(self.doubled, (0, 0), 3.0)
        return cv2.addWeighted(self.doubled, 2.0, soft, -1.0, 0)

    def adaptive(self) -> np.ndarray:
        """Three times as large, black or white by each pixel's surroundings."""
        return cv2.adaptiveThreshold(
            _larger(self.grey, 3), 255, cv2.ADAPTIVE_THRESH_MEAN_C, cv2.THRESH_BINARY, 31, 3
        )


def _larger(grey: np.ndarray, factor: int) -> np.ndarray:
    return cv2.resize(grey, None, fx=factor, fy=factor, interpolation=cv2.INTER_CUBIC)
