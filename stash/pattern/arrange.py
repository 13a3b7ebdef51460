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
    placed: dict[int, Figure] = {}
    for index in sorted(
        range(len(figures)), key=lambda i: (-figures[i].height_mm, -figures[i].width_mm)
    ):
        figure = figures[index]
        down, left = min(
            (_depth(skyline, start, start + figure.width_mm + gap_mm), start)
            for start, _ in skyline
            if start + figure.width_mm <= width_mm + 1e-6
        )
        placed[index] = figure.moved(left, down)
        end = left + figure.width_mm + gap_mm
        skyline = _raised(skyline, left, end, down + figure.height_mm + gap_mm)
    right = max((left for left, _ in skyline), default=0.0) - gap_mm
    foot = max((depth for _, depth in skyline), default=0.0) - gap_mm
    return Sheet(tuple(placed[i] for i in range(len(figures))), right, foot)


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
