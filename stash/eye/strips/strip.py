"""Strips in one photograph: the width across the middle line, the length along it."""

from __future__ import annotations

from dataclasses import dataclass, replace

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.errors import InvalidInput
from stash.eye.floor.find_sheets import Array, find_sheets
from stash.eye.floor.seen_floor import fit_floor
from stash.eye.floor.straightened import FloorPlan, paper_on_floor, straighten
from stash.eye.floor.upright import read_picture
from stash.eye.outlines.trace import paper_corners
from stash.eye.strips.across import Sight, edge_run, edges_across, normals
from stash.eye.strips.ends import Followed, followed, run
from stash.eye.strips.middle_line import middle_line
from stash.eye.strips.stand_out import standing_out
from stash.model.calibration import BOARD

CELL_MM = 0.5
LEAST_MM2 = 80.0
LEAST_LONG = 3.0  # times as long as wide
LEAST_WIDE_MM = 2.5
TRIM = 0.8  # of a width
WIDTH_ERROR_MM, LENGTH_ERROR_MM = 0.25, 0.4
ERROR_SHARE = 0.002
DARKER = 1.4  # times as light as a strip is the paper on which its end is seen
UNSEEN_END_MM = 15.0  # so far an end may run on over white paper unseen
BEYOND_END_MM = 4.0  # of floor past an end, or it may run on out of the picture
SHARP_MM, SHARP_PX = 0.9, 2.5  # an edge of cloth runs over less, or over so many blurred pixels
LEAST_PX_MM = SHARP_PX / SHARP_MM  # with fewer, a streak in wood is as sharp as cloth


@dataclass(frozen=True, kw_only=True)
class Strip:
    """One strip as it lies; ``line_px`` is its middle line in the photograph, for drawing.

    Errors are two standard errors in mm; ``sure`` is false where its edges were not seen
    along most of it, or its width changes: such a one is no strip. ``ended`` is false where an
    end lies on the sheet or on something of the strip's own colour, so that it was not seen.
    """

    width_mm: float
    width_error_mm: float
    length_mm: float
    length_error_mm: float
    sure: bool
    ended: bool
    line_px: tuple[tuple[float, float], ...]


@dataclass(frozen=True, kw_only=True)
class SeenStrips:
    """The strips that were measured, and what looks like one but could not be.

    ``asked_px`` are middle lines in the photograph: such a one lies in the joint of two boards,
    so that it seems to go on, or its edges were not seen well enough.
    """

    strips: tuple[Strip, ...]
    asked_px: tuple[tuple[tuple[float, float], ...], ...]


def measure_strips(data: bytes, *, ruler_mm: float | None = None) -> tuple[Strip, ...]:
    """Every strip beside the calibration sheet that could be measured, the longest first."""
    return seen_strips(data, ruler_mm=ruler_mm).strips


def seen_strips(data: bytes, *, ruler_mm: float | None = None) -> SeenStrips:
    """Every strip beside the calibration sheet, the longest first, and what is to be asked about.

    Raises InvalidInput where no sheet is found, where no strip stands out from the floor, or
    where the picture is too coarse to tell cloth from the streaks of a floor.
    """
    scale = 1.0 if ruler_mm is None else ruler_mm / BOARD.ruler_mm
    image = read_picture(data)
    sheets = find_sheets(cv2.cvtColor(image, cv2.COLOR_BGR2GRAY))
    floor = fit_floor(sheets, (image.shape[1], image.shape[0]), scale)
    paper = paper_on_floor(floor, len(sheets), paper_corners(BOARD), scale)
    if max(_px_to_mm(Sight(image, floor), quad) for quad in paper) < LEAST_PX_MM:
        raise InvalidInput("strips_too_far", field="photo")
    plan = straighten(image, floor, paper, CELL_MM)
    count, labels, stats, _ = cv2.connectedComponentsWithStats(standing_out(plan).astype(np.uint8))
    found: list[Strip] = []
    asked: list[Strip] = []
    for i in range(1, count):
        if stats[i, cv2.CC_STAT_AREA] * plan.cell_mm**2 < LEAST_MM2:
            continue
        left, top, wide, high, _ = stats[i]
        part = labels[top : top + high, left : left + wide] == i
        line = middle_line(part, plan.cell_mm)
        if line is not None:
            spots, area = plan.to_floor(line + (left, top)), part.sum() * plan.cell_mm**2
            strip = None if _cut_off(plan, stats[i]) else _measured(
                Sight(image, floor), spots, area, paper)
            if strip is not None:
                (found if strip.sure else asked).append(strip)
    if not found and not asked:
        raise InvalidInput("no_strip_seen", field="photo")
    strips = _once(sorted(found, key=lambda one: -one.length_mm))
    unsure = _once([*strips, *asked])[len(strips):]
    return SeenStrips(strips=strips, asked_px=tuple(one.line_px for one in unsure))


def _once(strips: list[Strip]) -> tuple[Strip, ...]:
    """Without those found a second time by a part of them that stood out alone."""
    kept: list[Strip] = []
    for one in strips:
        middle = np.array(one.line_px[len(one.line_px) // 2])
        near = [np.hypot(*(np.array(other.line_px) - middle).T).min() for other in kept]
        pixels = [_px_of(other) * other.width_mm / 2 for other in kept]
        if not any(gap < reach for gap, reach in zip(near, pixels, strict=True)):
            kept.append(one)
    return tuple(kept)


def _px_of(strip: Strip) -> float:
    """Pixels to a millimetre along a strip."""
    return float(np.hypot(*np.diff(np.array(strip.line_px), axis=0).T).sum()) / strip.length_mm


def _measured(sight: Sight, line: Array, area_mm2: float, paper: Array) -> Strip | None:
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
    edges = edges_across(sight, inner, normals(inner), rough_width / 2)
    seen = np.isfinite(edges).all(axis=1)
    if seen.sum() < 4:
        return None
    width = float(np.median(edges[seen].sum(axis=1)))
    if width < LEAST_WIDE_MM:
        return None
    whole = followed(sight, inner[seen], width)
    if whole is None or not _sharp(sight, whole, width):
        return None
    strip = _told(sight, whole, width, (float(seen.mean()), paper))
    # What ended within the picture by its colour, and runs out of it by its edges, lies in a joint.
    return strip if _within(sight, whole) else replace(
        strip, sure=False, line_px=_drawn(sight, inner))


def _told(sight: Sight, whole: Followed, width: float, known: tuple[float, Array]) -> Strip:
    """The strip as it was followed; ``known`` is how much of it was seen, and the sheets' paper."""
    seen_share, paper = known
    length = run(whole.line) + whole.beyond_mm
    widths = whole.widths
    spread = float(np.percentile(widths, 75) - np.percentile(widths, 25))
    ended = whole.ended and not _lost_on_paper(sight, whole, paper)
    error = LENGTH_ERROR_MM + ERROR_SHARE * length + (0.0 if ended else UNSEEN_END_MM)
    return Strip(
        width_mm=width, width_error_mm=float(WIDTH_ERROR_MM + spread / np.sqrt(len(widths))),
        length_mm=float(length), length_error_mm=float(error),
        sure=bool(whole.even and seen_share > 0.6 and spread < 0.5 + 0.03 * width), ended=ended,
        line_px=_drawn(sight, whole.line))


def _drawn(sight: Sight, line: Array) -> tuple[tuple[float, float], ...]:
    """A line on the floor in the photograph."""
    return tuple((float(x), float(y)) for x, y in sight.floor.to_image(line))


def _lost_on_paper(sight: Sight, whole: Followed, paper: Array) -> bool:
    """Whether an end lies on a sheet and the strip is not plainly darker than its paper."""
    quads = [quad.astype(np.float32) for quad in paper]
    for tip, inner in zip(whole.tips, (whole.line, whole.line[::-1]), strict=True):
        ahead = (tip - inner[3]) / max(float(np.hypot(*(tip - inner[3]))), 1e-9)
        if any(cv2.pointPolygonTest(quad, (float(tip[0]), float(tip[1])), False) >= 0
               for quad in quads):
            light = [float(sight.colours(tip + far * ahead).mean()) for far in (-3.0, 3.0)]
            if light[1] < DARKER * light[0]:
                return True
    return False


def _within(sight: Sight, whole: Followed) -> bool:
    """Whether the picture goes on past both ends; else it is part of something longer."""
    high, wide = sight.image.shape[:2]
    tips = sight.floor.to_image(whole.tips)
    margin = BEYOND_END_MM * _px_to_mm(sight, whole.line)
    return bool((tips >= margin).all() and (tips <= np.array([wide, high]) - 1 - margin).all())


def _px_to_mm(sight: Sight, line: Array) -> float:
    pixels = np.hypot(*np.diff(sight.floor.to_image(line), axis=0).T).sum()
    return float(pixels) / max(run(line), 1e-9)


def _sharp(sight: Sight, whole: Followed, width_mm: float) -> bool:
    """Whether its edges are those of a thing laid on the floor."""
    line = whole.line
    most = max(SHARP_MM, SHARP_PX / max(_px_to_mm(sight, line), 1e-9))
    return edge_run(sight, line, normals(line), width_mm / 2) < most


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
