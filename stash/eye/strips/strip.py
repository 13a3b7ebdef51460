"""Strips in one photograph: the width across the middle line, the length along it."""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.errors import InvalidInput
from stash.eye.floor.fit import Floor, fit_floor
from stash.eye.floor.picture import read_picture
from stash.eye.floor.plan import FloorPlan, paper_on_floor, straighten
from stash.eye.floor.sheets import Array, find_sheets
from stash.eye.outlines.edges import colours_at
from stash.eye.outlines.trace import paper_corners
from stash.eye.strips.middle_line import middle_line
from stash.eye.strips.stand_out import standing_out
from stash.model.calibration import BOARD

CELL_MM = 0.5
LEAST_MM2 = 80.0
LEAST_LONG = 3.0  # times as long as wide
LEAST_WIDE_MM = 2.5
TRIM = 0.8  # of a width
BEYOND_MM = 5.0
PROFILE_MM = 0.1
LEVEL_MM = 2.0
WIDTH_ERROR_MM, LENGTH_ERROR_MM = 0.25, 0.4
ERROR_SHARE = 0.002
FAINT = 6.0


@dataclass(frozen=True, kw_only=True)
class Strip:
    """One strip as it lies; ``line_px`` is its middle line in the photograph, for drawing.

    Errors are two standard errors in mm; ``sure`` is false where its edges were not seen
    along most of it, or its width changes: such a one is no strip.
    """

    width_mm: float
    width_error_mm: float
    length_mm: float
    length_error_mm: float
    sure: bool
    line_px: tuple[tuple[float, float], ...]


def measure_strips(data: bytes, *, ruler_mm: float | None = None) -> tuple[Strip, ...]:
    """Every strip beside the calibration sheet, the longest first.

    Raises InvalidInput where no sheet is found or no strip stands out from the floor.
    """
    scale = 1.0 if ruler_mm is None else ruler_mm / BOARD.ruler_mm
    image = read_picture(data)
    sheets = find_sheets(cv2.cvtColor(image, cv2.COLOR_BGR2GRAY))
    floor = fit_floor(sheets, (image.shape[1], image.shape[0]), scale)
    paper = paper_on_floor(floor, len(sheets), paper_corners(BOARD), scale)
    plan = straighten(image, floor, paper, CELL_MM)
    count, labels, stats, _ = cv2.connectedComponentsWithStats(standing_out(plan).astype(np.uint8))
    found = []
    for i in range(1, count):
        if stats[i, cv2.CC_STAT_AREA] * plan.cell_mm**2 < LEAST_MM2:
            continue
        left, top, wide, high, _ = stats[i]
        part = labels[top : top + high, left : left + wide] == i
        line = middle_line(part, plan.cell_mm)
        if line is not None:
            spots, area = plan.to_floor(line + (left, top)), part.sum() * plan.cell_mm**2
            strip = None if _cut_off(plan, stats[i]) else _measured(image, floor, spots, area)
            if strip is not None and strip.sure:
                found.append(strip)
    if not found:
        raise InvalidInput("no_strip_seen", field="photo")
    return tuple(sorted(found, key=lambda one: -one.length_mm))


def _measured(image: NDArray[np.uint8], floor: Floor, line: Array, area_mm2: float) -> Strip | None:
    """One strip along its middle line on the floor; None for what is no strip."""
    line = _smooth(line)
    rough_length = float(np.hypot(*np.diff(line, axis=0).T).sum()) + 3.0
    rough_width = area_mm2 / rough_length
    if rough_length < LEAST_LONG * rough_width:
        return None
    # Near its ends the middle line runs to a corner, so it is taken up a width further in.
    away = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))])
    inner = line[(away > TRIM * rough_width) & (away < away[-1] - TRIM * rough_width)]
    if len(inner) < 5:
        return None
    ahead = np.gradient(inner, axis=0)
    ahead /= np.maximum(np.hypot(*ahead.T), 1e-9)[:, None]
    across = np.stack([-ahead[:, 1], ahead[:, 0]], axis=1)
    edges = np.stack([
        _edge(image, floor, inner, side * across, rough_width / 2) for side in (1, -1)], axis=1)
    seen = np.isfinite(edges).all(axis=1)
    if seen.sum() < 4:
        return None
    widths = edges[seen].sum(axis=1)
    width = float(np.median(widths))
    if width < LEAST_WIDE_MM:
        return None
    spread = float(np.percentile(widths, 75) - np.percentile(widths, 25))
    reach = TRIM * rough_width + 1.5
    ends = [_end(image, floor, inner, width, reach), _end(image, floor, inner[::-1], width, reach)]
    length = _run(inner, np.where(seen, (edges[:, 0] - edges[:, 1]) / 2, 0), across) + sum(ends)
    return Strip(
        width_mm=width, width_error_mm=float(WIDTH_ERROR_MM + spread / np.sqrt(seen.sum())),
        length_mm=float(length), length_error_mm=float(LENGTH_ERROR_MM + ERROR_SHARE * length),
        sure=bool(seen.mean() > 0.6 and spread < 0.35 + 0.04 * width),
        line_px=tuple((float(x), float(y)) for x, y in floor.to_image(line)))


def _cut_off(plan: FloorPlan, box: NDArray[np.int32]) -> bool:
    """Whether a shape reaches out of the picture."""
    left, top, wide, high, _ = box
    part = plan.seen[max(top - 1, 0) : top + high + 1, max(left - 1, 0) : left + wide + 1]
    return not (part[[0, -1]].any() and part[:, [0, -1]].any())


def _smooth(line: Array) -> Array:
    """The middle line without the jitter of its cells; its ends stay."""
    if len(line) < 6:
        return line
    padded = np.concatenate([2 * line[:1] - line[2:0:-1], line, 2 * line[-1:] - line[-2:-4:-1]])
    kernel = np.array([1, 3, 4, 3, 1]) / 12
    return np.stack([np.convolve(padded[:, k], kernel, "valid") for k in (0, 1)], axis=1)


def _edge(
    image: NDArray[np.uint8], floor: Floor, spots: Array, toward: Array, about_mm: float
) -> Array:
    """How far from each spot the colour is half way to that of the floor; NaN where unseen."""
    reach = np.arange(0.0, about_mm + BEYOND_MM, PROFILE_MM)
    points = spots[:, None] + reach[None, :, None] * toward[:, None]
    pixels = floor.to_image(points.reshape(-1, 2)).astype(np.float32)
    colour = colours_at(image, pixels).reshape(len(spots), len(reach), 3)
    inside = colour[:, reach <= max(0.5 * about_mm, 0.5)].mean(axis=1)
    outside = colour[:, reach > about_mm + BEYOND_MM - LEVEL_MM].mean(axis=1)
    step = inside - outside
    size = np.maximum(np.square(step).sum(axis=1), 1e-6)
    share = ((colour - outside[:, None]) * step[:, None]).sum(axis=2) / size[:, None]
    down = (share[:, :-1] >= 0.5) & (share[:, 1:] < 0.5)
    off = np.where(down, np.abs(reach[:-1] - about_mm)[None], np.inf)
    at = off.argmin(axis=1)
    rows = np.arange(len(spots))
    part = (share[rows, at] - 0.5) / np.maximum(share[rows, at] - share[rows, at + 1], 1e-6)
    edge = reach[at] + PROFILE_MM * part
    good = down.any(axis=1) & (np.sqrt(size) > FAINT) & (off.min(axis=1) < 0.5 * about_mm + 2)
    return np.where(good, edge, np.nan)


def _run(line: Array, off: Array, across: Array) -> float:
    """How long the line is, moved half way between the two edges and rid of its jitter."""
    line = line + off[:, None] * across
    t = np.linspace(-1, 1, len(line))
    terms = np.polynomial.chebyshev.chebvander(t, min(9, len(line) // 4))
    smooth = terms @ np.linalg.lstsq(terms, line, rcond=None)[0]
    return float(np.hypot(*np.diff(smooth, axis=0).T).sum())


def _end(
    image: NDArray[np.uint8], floor: Floor, line: Array, width_mm: float, about_mm: float
) -> float:
    """How far beyond the first point of the line the strip ends, going on as it bends there."""
    ahead = line[0] - line[min(3, len(line) - 1)]
    ahead = ahead / max(float(np.hypot(*ahead)), 1e-9)
    side = np.array([-ahead[1], ahead[0]])
    rows = line[0] + np.linspace(-0.3, 0.3, 7)[:, None] * width_mm * side
    edge = _edge(image, floor, rows, np.repeat(ahead[None], 7, axis=0), about_mm)
    return float(np.nanmedian(edge)) if np.isfinite(edge).any() else about_mm
