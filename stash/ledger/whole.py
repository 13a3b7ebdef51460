"""What of an outline is whole: the largest rectangle, along and across the grain, inside it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from stash.model import Outline


@dataclass(frozen=True, kw_only=True)
class Whole:
    """A rectangle in the outline's own frame."""

    x_mm: float
    y_mm: float
    length_mm: float
    width_mm: float

    @property
    def area_mm2(self) -> float:
        """Its area."""
        return self.length_mm * self.width_mm


@lru_cache(maxsize=4096)
def whole(outline: Outline) -> Whole:
    """The largest rectangle by area inside this outline."""
    left, low, right, high = outline.bounds_mm
    if outline.is_rectangle:
        return Whole(x_mm=left, y_mm=low, length_mm=right - left, width_mm=high - low)
    from stash.ledger.largest_rectangle import largest_rectangle  # geometry for remnants only

    x0, y0, x1, y1 = largest_rectangle(outline)
    return Whole(x_mm=x0, y_mm=y0, length_mm=x1 - x0, width_mm=y1 - y0)
