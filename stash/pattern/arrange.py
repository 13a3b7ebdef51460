"""Figures set side by side on a sheet, none over another, for drawing and printing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from stash.pattern.figure import Figure


@dataclass(frozen=True)
class Sheet:
    """Figures in their places on a sheet of paper large enough for them all."""

    figures: tuple[Figure, ...]
    width_mm: float
    height_mm: float


def arrange(
    figures: Sequence[Figure], *, gap_mm: float, width_mm: float | None = None
) -> Sheet:
    """Rows of figures, tallest first, ``gap_mm`` apart; about three wide to two high.

    ``width_mm`` fixes the width of a row instead; a wider figure gets a row of its own.
    """
    if width_mm is None:
        area = sum((f.width_mm + gap_mm) * (f.height_mm + gap_mm) for f in figures)
        width_mm = 1.35 * sqrt(area)
    width_mm = max([width_mm, *(f.width_mm for f in figures)])
    placed, right, down, row_height, widest = [], 0.0, 0.0, 0.0, 0.0
    for figure in sorted(figures, key=lambda f: (-f.height_mm, -f.width_mm)):
        if right and right + figure.width_mm > width_mm:
            right, down = 0.0, down + row_height + gap_mm
            row_height = 0.0
        placed.append(figure.moved(right, down))
        widest = max(widest, right + figure.width_mm)
        right += figure.width_mm + gap_mm
        row_height = max(row_height, figure.height_mm)
    return Sheet(tuple(placed), widest, down + row_height)
