"""A closed shape in millimetres: a whole cut, a remnant, a piece, a hole."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import isfinite
from typing import Any

from stash.errors import InvalidInput

Point = tuple[float, float]
SelvedgeLine = tuple[Point, Point]


@dataclass(frozen=True)
class Outline:
    """One outer ring and any holes; x runs along the grain, y across it.

    Rings are not closed (the last point is not the first again). A rectangle is
    an outline too, so a cut never changes kind when a piece is taken out of it.
    """

    ring_mm: tuple[Point, ...]
    holes_mm: tuple[tuple[Point, ...], ...] = ()

    @classmethod
    def rectangle(cls, length_mm: float, width_mm: float) -> Outline:
        """A straight cut: length_mm along the grain, width_mm across."""
        if not (isfinite(length_mm) and isfinite(width_mm)) or min(length_mm, width_mm) <= 0:
            raise InvalidInput("sides_are_nothing")
        return cls(((0.0, 0.0), (length_mm, 0.0), (length_mm, width_mm), (0.0, width_mm)))

    @property
    def bounds_mm(self) -> tuple[float, float, float, float]:
        """(x_min, y_min, x_max, y_max)."""
        xs = [x for x, _ in self.ring_mm]
        ys = [y for _, y in self.ring_mm]
        return min(xs), min(ys), max(xs), max(ys)

    @property
    def length_mm(self) -> float:
        """Greatest extent along the grain."""
        left, _, right, _ = self.bounds_mm
        return right - left

    @property
    def width_mm(self) -> float:
        """Greatest extent across the grain."""
        _, low, _, high = self.bounds_mm
        return high - low

    @property
    def area_mm2(self) -> float:
        """Area of the ring less its holes."""
        return ring_area_mm2(self.ring_mm) - sum(ring_area_mm2(h) for h in self.holes_mm)

    @property
    def is_rectangle(self) -> bool:
        """True when the outline is its own bounding box and has no holes."""
        left, low, right, high = self.bounds_mm
        box = (right - left) * (high - low)
        return not self.holes_mm and abs(box - self.area_mm2) <= 1e-6 * max(box, 1.0)

    def to_json(self) -> dict[str, Any]:
        """``{"outline_mm": [[x, y], ...], "holes_mm": [[[x, y], ...], ...]}``."""
        return {
            "outline_mm": [list(p) for p in self.ring_mm],
            "holes_mm": [[list(p) for p in hole] for hole in self.holes_mm],
        }

    @classmethod
    def from_json(cls, value: Mapping[str, Any]) -> Outline:
        """The outline written by :meth:`to_json`; trusts its shape, not its source."""
        return cls(
            tuple((float(x), float(y)) for x, y in value["outline_mm"]),
            tuple(tuple((float(x), float(y)) for x, y in h) for h in value.get("holes_mm", ())),
        )


def ring_area_mm2(ring: tuple[Point, ...]) -> float:
    """Area of a simple ring whichever way round it runs (the shoelace formula)."""
    doubled = 0.0  # a plain loop: this is asked of every cut, and a generator takes twice as long
    x0, y0 = ring[-1] if ring else (0.0, 0.0)
    for x1, y1 in ring:
        doubled += x0 * y1 - x1 * y0
        x0, y0 = x1, y1
    return abs(doubled) / 2
