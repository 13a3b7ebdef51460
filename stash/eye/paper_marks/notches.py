"""Notches on the edge of a piece: a short line square to it, a triangle, a V or a slit cut in.

The edge is unrolled: along it runs one axis, into the paper the other. There a notch is a
mark that begins at the edge, runs straight in and ends within a finger's width; lines along
the edge (the stitching, solid or dashed) are taken away first, and what runs on into the piece
(a dart, a line across) or comes in rows (hatching, a ruler) is none.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, degrees, hypot

import cv2
import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Point as Place
from shapely.geometry import Polygon

from stash.eye.floor.find_sheets import Array
from stash.eye.outlines.backdrop import FromAbove
from stash.eye.outlines.clean_outline import corner_indices
from stash.eye.outlines.edges import evenly, outward
from stash.eye.paper_marks.ink import log_brightness
from stash.model.outline import Point

STEP_MM = 0.5
DIP_MM = 20.0  # the radius that outlines are closed by: what it leaves open is no notch
WIDEST_DIP_MM = 16.0
LEAST_DIP_MM2, DIP_NEAR_MM = 3.0, 6.0
DEEP_MM = 24.0  # how far into the paper is looked
BEGINS_MM = 3.5  # from the edge at most, where the traced edge is out and a dark rim was left
DEPTH_MM = (3.5, 17.0)
LEAST_CUT_MM = 2.5
WIDEST_MM = 14.0  # of a triangle at its base
LINE_MM = 2.6  # a mark no wider is a line
THIN_MM = 1.0  # and none is thinner
SQUARE_DEG = 25.0
ALONG_MM = 11.0  # a stroke along the edge as long as that is no part of a notch
DASH_MM = 1.5  # wider again by so much, a mark has met a dash
FROM_CORNER_MM = 9.0
DIFFERENT = 0.12  # in logarithms of brightness, from the paper near it
ROW_MM, ROW = 40.0, 5  # so many marks within that are a row, which is hatching or a ruler
EVEN_MM = 80.0  # of the edge, over which the paper's brightness is taken


@dataclass(frozen=True)
class SeenNotch:
    """A notch: where it meets the outline, where it ends in the paper, and what it looks like.

    ``kind`` is "line" or "triangle"; a V that was cut in is a triangle, a slit a line.
    ``dip_mm`` is the ring of what the traced outline lost there to a dark triangle or a cut.
    """

    at_mm: Point
    inward_mm: Point
    kind: str
    dip_mm: tuple[Point, ...] = ()


@dataclass(frozen=True)
class _Mark:
    """A connected mark on the unrolled edge: where along it, how deep, how wide it begins."""

    along_mm: float
    begin_mm: float
    depth_mm: float
    base_mm: float
    tip_mm: float
    lean_deg: float


def find_notches(seen: FromAbove, ring_mm: Array) -> tuple[SeenNotch, ...]:
    """The notches of a piece by its outline, in the order of the outline."""
    whole, dips = mended(ring_mm)
    rim = evenly(whole, STEP_MM)
    inward = -outward_of(rim)
    strip = _unrolled(seen, rim, inward)
    marks = [m for m in _marks(_different(strip)) if _is_notch(m)]
    marks = [m for m in marks if not _in_row(m, marks) and not _near_corner(m, rim)]
    found = []
    for mark in sorted(marks, key=lambda m: m.along_mm):
        i = round(mark.along_mm / STEP_MM) % len(rim)
        (x, y), (u, v) = rim[i], inward[i]
        kind = "line" if mark.base_mm <= LINE_MM else "triangle"
        at = (float(x), float(y))
        inward_mm = (float(x + u * mark.depth_mm), float(y + v * mark.depth_mm))
        lost = next((d for d in dips if d.distance(Place(at)) < DIP_NEAR_MM), None)
        found.append(SeenNotch(at, inward_mm, kind, _corners(lost) if lost else ()))
    return tuple(found)


def mended(ring_mm: Array) -> tuple[Array, list[Polygon]]:
    """(the outline with narrow dips closed over, the dips)."""
    piece = Polygon(ring_mm).buffer(0)
    closed = piece.buffer(DIP_MM).buffer(-DIP_MM, join_style="mitre")
    lost = [part for part in shapely.get_parts(closed.difference(piece))
            if isinstance(part, Polygon) and part.area > LEAST_DIP_MM2
            and max(np.ptp(np.array(part.exterior.coords), axis=0)) < WIDEST_DIP_MM]
    whole = shapely.union_all([piece, *(part.buffer(0.05) for part in lost)])
    if not isinstance(whole, Polygon):
        return np.asarray(ring_mm, float), []
    return np.array(whole.exterior.coords)[:-1], lost


def _corners(dip: Polygon) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in dip.exterior.coords[:-1])


def outward_of(rim: Array) -> Array:
    """Unit normals, steadied over a centimetre, so that an edge that wavers does not fan out."""
    normals = outward(rim)
    wrapped = np.concatenate([normals[-10:], normals, normals[:10]])
    smooth = np.stack([np.convolve(wrapped[:, k], np.ones(21) / 21, "valid") for k in (0, 1)], 1)
    return smooth / np.maximum(np.hypot(*smooth.T), 1e-9)[:, None]


def _unrolled(seen: FromAbove, rim: Array, inward: Array) -> NDArray[np.float32]:
    """Brightness, in logarithms: a row each depth, a column each step along the edge."""
    depths = np.arange(0, DEEP_MM, STEP_MM)
    spots = rim[None] + depths[:, None, None] * inward[None]
    cells = seen.to_cells(spots.reshape(-1, 2)).reshape(*spots.shape).astype(np.float32)
    logs = log_brightness(seen)
    parts = [cv2.remap(logs, part, None, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
             for part in np.array_split(cells, cells.shape[1] // 16_000 + 1, axis=1)]
    return np.concatenate(parts, axis=1)


def _different(strip: NDArray[np.float32]) -> NDArray[np.uint8]:
    """What is not as bright as the paper, without strokes along the edge; once round and more."""
    half = int(EVEN_MM / STEP_MM / 2)
    ring = np.concatenate([strip[:, -half:], strip, strip[:, :half]], axis=1)
    paper = np.median(ring[int(6 / STEP_MM):], axis=0)
    near = cv2.blur(paper[None], (2 * half + 1, 1))[0]
    off = (np.abs(ring - near) > DIFFERENT).astype(np.uint8)
    along = np.ones((1, int(ALONG_MM / STEP_MM)), np.uint8)
    strokes = cv2.morphologyEx(off, cv2.MORPH_OPEN, along)
    strokes = cv2.dilate(strokes, np.ones((3, 1), np.uint8))
    kept = off & ~strokes & 1
    # What a stroke along the edge cut in two is one again.
    return cv2.morphologyEx(kept, cv2.MORPH_CLOSE, np.ones((7, 1), np.uint8))


def _marks(off: NDArray[np.uint8]) -> list[_Mark]:
    """The connected marks, each once."""
    half = int(EVEN_MM / STEP_MM / 2)
    count, labels, stats, _ = cv2.connectedComponentsWithStats(off, connectivity=8)
    found = []
    for n in range(1, count):
        left, _top, wide, _high, area = stats[n]
        middle = left + wide / 2
        if area < 5 or not half <= middle < off.shape[1] - half:
            continue
        rows, columns = np.nonzero(labels[:, left : left + wide] == n)
        found.append(_measured(rows, columns + left - half))
    return found


def _measured(rows: NDArray[np.int_], columns: NDArray[np.int_]) -> _Mark:
    first, last = int(rows.min()), int(rows.max())
    spans = {r: columns[rows == r] for r in np.unique(rows)}
    middles = np.array([(r, (c.min() + c.max()) / 2) for r, c in spans.items()])
    widths = np.array([c.max() - c.min() + 1 for c in spans.values()]) * STEP_MM
    own = _before_a_dash(widths)
    middles, widths = middles[:own], widths[:own]
    third = max(1, len(widths) // 3)
    slope = np.polyfit(middles[:, 0], middles[:, 1], 1)[0] if len(middles) > 2 else 99.0
    at = float(np.polyval(np.polyfit(middles[:, 0], middles[:, 1], 1), 0)) \
        if len(middles) > 2 else float(columns.mean())
    return _Mark(
        along_mm=at * STEP_MM, begin_mm=first * STEP_MM, depth_mm=(last + 1) * STEP_MM,
        base_mm=float(np.median(widths[:third])), tip_mm=float(np.median(widths[-third:])),
        lean_deg=degrees(atan2(float(slope), 1.0)))


def _before_a_dash(widths: Array) -> int:
    """How many rows are the mark's own, where it ends on a dash of the stitching line."""
    narrowest = np.minimum.accumulate(widths)
    wider = np.nonzero((widths > narrowest + DASH_MM) & (np.arange(len(widths)) > 5))[0]
    return int(wider[0]) if len(wider) else len(widths)


def _is_notch(mark: _Mark) -> bool:
    """Begins at the edge, runs square in, and ends soon: as a line or narrowing to a point."""
    least = DEPTH_MM[0] if mark.base_mm <= LINE_MM else LEAST_CUT_MM
    if mark.begin_mm > BEGINS_MM or not least <= mark.depth_mm <= DEPTH_MM[1]:
        return False
    if abs(mark.lean_deg) > SQUARE_DEG or mark.base_mm < THIN_MM:
        return False
    if mark.base_mm <= LINE_MM:
        return mark.tip_mm <= LINE_MM and mark.depth_mm - mark.begin_mm > 2.5
    return mark.base_mm <= WIDEST_MM and mark.tip_mm < 0.7 * mark.base_mm


def _in_row(mark: _Mark, marks: list[_Mark]) -> bool:
    return sum(abs(m.along_mm - mark.along_mm) < ROW_MM for m in marks) >= ROW


def _near_corner(mark: _Mark, rim: Array) -> bool:
    """Whether the outline turns sharply there: two edges' strips meet, and lines cross."""
    ring = evenly(rim, 1.0)
    x, y = rim[round(mark.along_mm / STEP_MM) % len(rim)]
    return any(hypot(ring[i][0] - x, ring[i][1] - y) < FROM_CORNER_MM
               for i in corner_indices(ring))
