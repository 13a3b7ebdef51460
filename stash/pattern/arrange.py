"""Figures set side by side on a sheet, none over another, for drawing and printing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf, sqrt

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
    """Tallest first, each as high up and then as far left as its box fits, ``gap_mm`` apart.

    ``width_mm`` limits the width (a wider figure still gets its own); without it
    the sheet comes out about three wide to two high.
    """
    if width_mm is None:
        area = sum((f.width_mm + gap_mm) * (f.height_mm + gap_mm) for f in figures)
        width_mm = 1.35 * sqrt(area)
    width_mm = max([width_mm, *(f.width_mm for f in figures)])
    skyline = [(0.0, 0.0)]  # (left, depth already used), each up to the next one's left
    placed = []
    for figure in sorted(figures, key=lambda f: (-f.height_mm, -f.width_mm)):
        down, left = min(
            (_depth(skyline, start, start + figure.width_mm), start)
            for start, _ in skyline
            if start + figure.width_mm <= width_mm + 1e-6
        )
        placed.append(figure.moved(left, down))
        end = left + figure.width_mm + gap_mm
        skyline = _raised(skyline, left, end, down + figure.height_mm + gap_mm)
    right = max(f.shape.bounds[2] for f in placed) if placed else 0.0
    width = min(width_mm, max((left for left, _ in skyline), default=right) - gap_mm)
    height = max((depth for _, depth in skyline), default=gap_mm) - gap_mm
    return Sheet(tuple(placed), max(width, right), height)


def _depth(skyline: Sequence[tuple[float, float]], left: float, right: float) -> float:
    """How far down a box between left and right must start."""
    ends = [start for start, _ in skyline[1:]] + [inf]
    return max(
        depth
        for (start, depth), end in zip(skyline, ends, strict=True)
        if start < right and end > left
    )


def _raised(
    skyline: Sequence[tuple[float, float]], left: float, right: float, depth: float
) -> list[tuple[float, float]]:
    """The skyline once the stretch from left to right is used down to depth."""
    resumed = [d for start, d in skyline if start <= right][-1]
    kept = [(start, d) for start, d in skyline if start < left or start > right]
    return sorted([*kept, (left, depth), (right, resumed)])
