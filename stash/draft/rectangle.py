"""A rectangular panel by its finished size and the allowance of each edge."""

from __future__ import annotations

from dataclasses import dataclass

from stash.draft.cutting_line import Edge
from stash.draft.panel import ONCE, Cutting, Panel


@dataclass(frozen=True)
class Turnings:
    """What is allowed beyond each edge, mm: top (x = 0), bottom, and each side."""

    top: float
    bottom: float
    sides: float


def rectangle(
    name: str, size_mm: tuple[float, float], allow: Turnings, cutting: Cutting = ONCE
) -> Panel:
    """``size_mm`` finished, (along the grain, across it); the corner of top and side at 0, 0."""
    long, wide = size_mm
    a, b, c, d = (0.0, 0.0), (0.0, wide), (long, wide), (long, 0.0)
    edges = (
        Edge("top", (a, b), allow.top), Edge("side", (b, c), allow.sides),
        Edge("bottom", (c, d), allow.bottom), Edge("side 2", (d, a), allow.sides),
    )
    return Panel(name=name, edges=edges, cutting=cutting)
