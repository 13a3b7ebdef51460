"""What is left of a cut, measured where it lies on the floor."""

from __future__ import annotations

import numpy as np
import shapely
from shapely.geometry import Polygon

from stash.eye.outlines.measure import Traced
from stash.eye.outlines.trace import trace_photo
from stash.model import Outline


def trace_remnant(data: bytes, *, ruler_mm: float | None = None) -> Traced:
    """The largest shape, holes included, laid with its longest axis along x from (0, 0)."""
    largest = trace_photo(data, ruler_mm=ruler_mm).shapes[0]
    turn = np.radians(-_long_axis_deg(largest.outline))
    spin = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    rings = [np.array(r) @ spin for r in (largest.outline.ring_mm, *largest.outline.holes_mm)]
    corner = rings[0].min(axis=0)
    moved = [tuple((float(x), float(y)) for x, y in ring - corner) for ring in rings]
    return Traced(Outline(moved[0], tuple(moved[1:])), largest.error_mm)


def _long_axis_deg(outline: Outline) -> float:
    """The direction of the long side of the smallest rectangle around an outline."""
    corners = np.array(shapely.minimum_rotated_rectangle(Polygon(outline.ring_mm)).exterior.coords)
    sides = np.diff(corners[:3], axis=0)
    across, up = sides[np.hypot(*sides.T).argmax()]
    return float(np.degrees(np.arctan2(up, across)))
