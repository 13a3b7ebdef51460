"""The search for the largest rectangle in an outline that is none itself.

The plane is divided by lines through every corner, and by even lines between, where a
traced edge has too few corners or too many to try all; the largest block of cells inside
the outline is found row by row as the largest rectangle under a histogram, each cell
counted by its true size. On an outline of right angles that is exact. Then every side is
pushed outward as far as the outline allows.
"""

from __future__ import annotations

import numpy as np
import shapely
from shapely.geometry import Polygon, box

from stash.ledger.shapes import polygon
from stash.model import Outline

LINES = 36
"""Lines each way beyond which corners are thinned out, and below which even ones are added."""
TOUCH_MM = 1e-6
"""An edge that is touched is not crossed."""
PUSHES = 24


def largest_rectangle(outline: Outline) -> tuple[float, float, float, float]:
    """(least x, least y, most x, most y) of the largest rectangle by area inside it."""
    left, low, right, high = outline.bounds_mm
    shape = polygon(outline)
    points = [point for ring in (outline.ring_mm, *outline.holes_mm) for point in ring]
    square = _square(outline)
    xs = _lines([x for x, _ in points], left, right, square)
    ys = _lines([y for _, y in points], low, high, square)
    room = shape.buffer(TOUCH_MM, join_style="mitre")
    found = _largest(_inside(room, xs, ys), xs, ys)
    if found is None:  # thinner than the lines are apart
        middle = shape.representative_point()
        found = (middle.x, middle.y, middle.x, middle.y)
    x0, y0, x1, y1 = found if square else _pushed(room, found, (left, low, right, high))
    return x0, y0, x1, y1


def _square(outline: Outline) -> bool:
    """Whether every edge runs along or across the grain."""
    return all(
        abs(x0 - x1) < TOUCH_MM or abs(y0 - y1) < TOUCH_MM
        for ring in (outline.ring_mm, *outline.holes_mm)
        for (x0, y0), (x1, y1) in zip(ring, ring[1:] + ring[:1], strict=True)
    )


def _lines(corners: list[float], least: float, most: float, square: bool) -> np.ndarray:
    known = np.unique(np.array(corners))
    if square:
        return known
    if len(known) > LINES:
        known = known[np.linspace(0, len(known) - 1, LINES).astype(int)]
    return np.unique(np.concatenate([known, np.linspace(least, most, LINES)]))


def _inside(room: Polygon, xs: np.ndarray, ys: np.ndarray) -> np.ndarray:
    """For each cell, by row and column, whether it lies inside."""
    shapely.prepare(room)
    x0, y0 = np.meshgrid(xs[:-1], ys[:-1])
    x1, y1 = np.meshgrid(xs[1:], ys[1:])
    return np.asarray(shapely.covers(room, shapely.box(x0, y0, x1, y1)))


def _largest(
    inside: np.ndarray, xs: np.ndarray, ys: np.ndarray
) -> tuple[float, float, float, float] | None:
    """The largest block of cells: for each row the heights above it, and a stack of starts."""
    best, found = 0.0, None
    base = np.full(inside.shape[1], ys[0])
    for row in range(inside.shape[0]):
        base = np.where(inside[row], base, ys[row + 1])
        heights = ys[row + 1] - base
        stack: list[tuple[float, float]] = []  # (where it starts, how high it is)
        for column, height in enumerate([*heights, 0.0]):
            start = xs[column]
            while stack and stack[-1][1] >= height:
                begun, tall = stack.pop()
                if (xs[column] - begun) * tall > best:
                    best = (xs[column] - begun) * tall
                    found = (begun, ys[row + 1] - tall, xs[column], ys[row + 1])
                start = begun
            stack.append((start, height))
    return tuple(map(float, found)) if found else None  # type: ignore[return-value]


def _pushed(
    room: Polygon, found: tuple[float, float, float, float],
    bounds: tuple[float, float, float, float],
) -> tuple[float, float, float, float]:
    """Each side moved out as far as the rectangle stays inside, twice round."""
    sides = list(found)
    for side in (0, 1, 2, 3) * 2:
        inner, outer = sides[side], bounds[side]
        for _ in range(PUSHES):
            middle = (inner + outer) / 2
            tried = [*sides]
            tried[side] = middle
            if shapely.covers(room, box(tried[0], tried[1], tried[2], tried[3])):
                inner = middle
            else:
                outer = middle
        sides[side] = inner
    return sides[0], sides[1], sides[2], sides[3]
