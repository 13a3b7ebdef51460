"""The grain as it is drawn on a piece: a long straight line with an arrowhead at an end.

Straight lines are voted for (Hough's transform, in Duda and Hart's form, Communications of the
ACM 15, 1972); at the ends of each long one an arrowhead is looked for: ink that spreads evenly to
both sides going back from the tip, and is over after a finger's width.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, degrees, hypot, pi

import cv2
import numpy as np
import shapely
from numpy.typing import NDArray

from stash.eye.floor.find_sheets import Array
from stash.eye.outlines.backdrop import FromAbove
from stash.eye.paper_marks.ink import Mask, ink
from stash.model.outline import Point

LEAST_MM = 60.0
SEWN_MM, MOST_BESIDE = 19.0, 0.7
LEAST_SHARE = 0.12  # of the piece's longer side
FROM_EDGE_MM = 4.0
GAP_MM = 4.0  # that a line may break off for
INKED = 0.85  # of a solid line: a dashed one has less
STRAIGHT_MM = 1.2
HEAD_MM = (2.0, 16.0)
SIDE_MM = 9.0
LEAST_SPREAD_MM = 1.8
STEP_MM = 0.5
MOST_LINES = 60


@dataclass(frozen=True)
class SeenGrain:
    """A line with an arrowhead: its two ends, the first one with a head, and how many heads."""

    from_mm: Point
    to_mm: Point
    heads: int

    @property
    def turn_deg(self) -> float:
        """Which way it runs, counter-clockwise from x, within a half turn."""
        (x0, y0), (x1, y1) = self.from_mm, self.to_mm
        turn = degrees(atan2(y1 - y0, x1 - x0))
        return turn - 180 if turn > 90 else turn + 180 if turn <= -90 else turn


def find_grain(seen: FromAbove, ring_mm: Array) -> SeenGrain | None:
    """The line most like a grain arrow within a piece: two heads before one, then the longest."""
    marks = ink(seen) & _inside(seen, ring_mm)
    ring = np.asarray(ring_mm, float)
    least = max(LEAST_MM, LEAST_SHARE * float(np.ptp(ring, axis=0).max()))
    found = []
    for a, b in _lines(marks, seen.cell_mm, least):
        if _beside_edge(seen.to_mm(np.linspace(a, b, 40)), ring):
            continue
        ends = [_has_head(marks, seen.cell_mm, a, b), _has_head(marks, seen.cell_mm, b, a)]
        if any(ends):
            tip, tail = (a, b) if ends[0] else (b, a)
            found.append((sum(ends), hypot(*(b - a)), tip, tail))
    if not found:
        return None
    heads, _, tip, tail = max(found, key=lambda one: (one[0], one[1]))
    (x0, y0), (x1, y1) = seen.to_mm(np.array([tip, tail]))
    return SeenGrain((float(x0), float(y0)), (float(x1), float(y1)), heads)


def _beside_edge(points_mm: Array, ring_mm: Array) -> bool:
    """Whether a line runs along the edge, as the stitching does."""
    rim = shapely.LinearRing(ring_mm)
    return float((shapely.distance(shapely.points(points_mm), rim) < SEWN_MM).mean()) > MOST_BESIDE


def _inside(seen: FromAbove, ring_mm: Array) -> Mask:
    """The cells of the piece, but for its rim."""
    mask = np.zeros(seen.colour.shape[:2], np.uint8)
    cv2.fillPoly(mask, [np.round(seen.to_cells(ring_mm)).astype(np.int32)], 1)
    size = 2 * int(FROM_EDGE_MM / seen.cell_mm) + 1
    return np.asarray(cv2.erode(mask, np.ones((size, size), np.uint8)) > 0)


def _lines(marks: Mask, cell_mm: float, least_mm: float) -> list[tuple[Array, Array]]:
    """Ends in cells of the long straight inked lines, the longest first, each once."""
    voted = cv2.HoughLinesP(
        marks.astype(np.uint8) * 255, 1.0, pi / 720, int(0.5 * least_mm / cell_mm), None,
        least_mm / cell_mm * 0.7, GAP_MM / cell_mm)
    if voted is None:
        return []
    rough = sorted((line.reshape(2, 2).astype(float) for line in voted),
                   key=lambda ends: -hypot(*(ends[1] - ends[0])))
    kept: list[tuple[Array, Array]] = []
    for ends in rough:
        if len(kept) >= MOST_LINES or any(_along(ends, other, cell_mm) for other in kept):
            continue
        a, b = _followed(marks, ends, cell_mm)
        long_enough = hypot(*(b - a)) * cell_mm >= least_mm
        if long_enough and _share_inked(marks, a, b, cell_mm) > INKED:
            kept.append((a, b))
    return kept


def _along(ends: Array, line: tuple[Array, Array], cell_mm: float) -> bool:
    """Whether a line lies on another that was found."""
    a, b = line
    unit = (b - a) / max(hypot(*(b - a)), 1e-9)
    off = np.abs((ends - a) @ np.array([-unit[1], unit[0]]))
    along = (ends - a) @ unit
    slack = 3 / cell_mm
    return bool((off < 2.5 / cell_mm).all() and along.min() > -slack
                and along.max() < hypot(*(b - a)) + slack)


def _followed(marks: Mask, ends: Array, cell_mm: float) -> tuple[Array, Array]:
    """The line fitted to its ink, and followed to where the ink ends."""
    a, b = _fitted(marks, ends[0], ends[1], cell_mm)
    unit = (b - a) / max(hypot(*(b - a)), 1e-9)
    reach = 0.6 * hypot(*(b - a))
    return _to_end(marks, a, -unit, reach, cell_mm), _to_end(marks, b, unit, reach, cell_mm)


def _fitted(marks: Mask, a: Array, b: Array, cell_mm: float) -> tuple[Array, Array]:
    unit = (b - a) / max(hypot(*(b - a)), 1e-9)
    side = np.array([-unit[1], unit[0]])
    along = np.arange(0, hypot(*(b - a)), 1.0)
    across = np.arange(-STRAIGHT_MM * 2 / cell_mm, STRAIGHT_MM * 2 / cell_mm + 0.5, 0.5)
    spots = a + along[:, None, None] * unit + across[None, :, None] * side
    inked = _at(marks, spots)
    rows = inked.any(axis=1)
    if rows.sum() < 10:
        return a, b
    middle = (inked * across).sum(axis=1)[rows] / inked.sum(axis=1)[rows]
    slope, start = np.polyfit(along[rows], middle, 1)
    return a + start * side, b + (start + slope * along[-1]) * side


def _to_end(marks: Mask, start: Array, unit: Array, reach: float, cell_mm: float) -> Array:
    """How far the ink goes on from an end, over small gaps."""
    steps = np.arange(-6 / cell_mm, reach, 0.5)
    inked = _at(marks, start + steps[:, None] * unit)
    gap = int(GAP_MM / cell_mm / 0.5)
    last, missing = 0, 0
    for n, here in enumerate(inked):
        missing = 0 if here else missing + 1
        last = n if here else last
        if missing > gap:
            break
    return np.asarray(start + steps[last] * unit)


def _share_inked(marks: Mask, a: Array, b: Array, cell_mm: float) -> float:
    unit = (b - a) / max(hypot(*(b - a)), 1e-9)
    side = np.array([-unit[1], unit[0]])
    along = np.arange(0, hypot(*(b - a)), 1.0)
    across = np.arange(-STRAIGHT_MM / cell_mm, STRAIGHT_MM / cell_mm + 0.5, 0.5)
    spots = a + along[:, None, None] * unit + across[None, :, None] * side
    return float(_at(marks, spots).any(axis=1).mean())


def _at(marks: Mask, cells: Array) -> NDArray[np.bool_]:
    """Whether cells are inked; none beyond the picture is."""
    whole = np.round(cells).astype(int)
    rows, columns = marks.shape
    inside = (whole >= 0).all(axis=-1) & (whole[..., 0] < columns) & (whole[..., 1] < rows)
    safe = np.where(inside[..., None], whole, 0)
    return np.asarray(marks[safe[..., 1], safe[..., 0]] & inside)


def _has_head(marks: Mask, cell_mm: float, tip: Array, tail: Array) -> bool:
    """An arrowhead at ``tip``: ink spreads to both sides behind it, alike, and then is over."""
    unit = (tail - tip) / max(hypot(*(tail - tip)), 1e-9)
    side = np.array([-unit[1], unit[0]])
    back = np.arange(-1.0, HEAD_MM[1] + 10.0, STEP_MM)
    off = np.arange(0, SIDE_MM, STEP_MM)
    spread = []
    for sign in (-1, 1):
        spots = (tip + back[:, None, None] / cell_mm * unit
                 + sign * off[None, :, None] / cell_mm * side)
        spread.append(_furthest(_at(marks, spots), off))
    left, right = spread
    both = np.minimum(left, right)
    head = back <= HEAD_MM[1]
    widest = int(np.where(head, both, 0.0).argmax())
    if both[widest] < LEAST_SPREAD_MM or back[widest] < HEAD_MM[0]:
        return False
    if max(left[widest], right[widest]) > 1.9 * both[widest]:
        return False
    at_tip = (back >= -1.0) & (back <= 0.5)
    behind = (back > back[widest] + 3.0) & (back <= back[widest] + 9.0)
    narrow = max(1.2, 0.45 * both[widest])
    steep = both[widest] > 0.2 * back[widest]
    return bool(steep and np.maximum(left, right)[at_tip].max() <= narrow + 0.3
                and np.percentile(np.maximum(left, right)[behind], 80) <= narrow)


def _furthest(inked: NDArray[np.bool_], off: Array) -> Array:
    """How far from the line the outermost ink of each row lies."""
    return np.where(inked, off[None], 0.0).max(axis=1)
