"""The edge of a shape to a fraction of a pixel, looked up in the photograph itself."""

from __future__ import annotations

from collections.abc import Sequence

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.eye.floor.find_sheets import Array
from stash.eye.floor.joined_plan import trust
from stash.eye.floor.seen_floor import Floor

SPACING_MM = 1.0
LOOK_MM = 7.0
STEP_MM = 0.25
LEVEL_MM = 3.0  # the outermost stretch on each side, whose mean is paper or floor
LEAST_STEP = 10.0  # grey levels between paper and floor for an edge to be believed
STEADY_POINTS = 9


def evenly(ring: Array, spacing: float = SPACING_MM) -> Array:
    """The closed ring as points at even spacing."""
    closed = np.vstack([ring, ring[:1]])
    lengths = np.hypot(*np.diff(closed, axis=0).T)
    along = np.concatenate([[0.0], np.cumsum(lengths)])
    count = max(8, int(along[-1] / spacing))
    wanted = np.linspace(0, along[-1], count, endpoint=False)
    return np.stack([np.interp(wanted, along, closed[:, k]) for k in (0, 1)], axis=1)


def soothed(ring: Array, sigma_points: float) -> Array:
    """A closed ring under a Gaussian."""
    reach = int(4 * sigma_points) + 1
    kernel = np.exp(-0.5 * (np.arange(-reach, reach + 1) / sigma_points) ** 2)
    kernel /= kernel.sum()
    wrapped = np.concatenate([ring[-reach:], ring, ring[:reach]])
    return np.stack([np.convolve(wrapped[:, k], kernel, "valid") for k in (0, 1)], axis=1)


def outward(ring: Array) -> Array:
    """Unit normals that point out of the ring."""
    ahead = np.roll(ring, -2, axis=0) - np.roll(ring, 2, axis=0)
    normal = np.stack([ahead[:, 1], -ahead[:, 0]], axis=1)
    normal /= np.maximum(np.hypot(*normal.T), 1e-9)[:, None]
    doubled = np.roll(ring, -1, axis=0)
    area = (ring[:, 0] * doubled[:, 1] - doubled[:, 0] * ring[:, 1]).sum()
    return normal if area > 0 else -normal


def refined(
    views: Sequence[tuple[NDArray[np.uint8], Floor]], ring: Array
) -> tuple[Array, float]:
    """(the ring moved onto the edge, share of its points where an edge was seen).

    Along each normal the edge is where the colour is half way between paper and floor. Of
    several pictures of the floor each tells so much as it is to be trusted there.
    """
    base = soothed(evenly(soothed(evenly(ring), 2.0)), 2.0)
    normals = outward(base)
    total, found = np.zeros(len(base)), np.zeros(len(base))
    for image, floor in views:
        weight = np.ones(len(base)) if len(views) == 1 else trust(floor, base)
        shown = np.nonzero(weight > 0)[0]
        if not len(shown):
            continue
        edge, sure = _looked_up(image, floor, base[shown], normals[shown])
        told = np.where(sure, weight[shown], 0.0)
        total[shown] += told
        found[shown] += told * np.where(sure, edge, 0.0)
    sure = total > 0
    if not sure.any():
        return base, 0.0
    steady = _steadied(found / np.where(sure, total, 1.0), sure)
    return base + steady[:, None] * normals, float(sure.mean())


def _looked_up(
    image: NDArray[np.uint8], floor: Floor, base: Array, normals: Array
) -> tuple[Array, NDArray[np.bool_]]:
    """How far along each normal one picture shows the edge, and whether it shows one."""
    offsets = np.arange(-LOOK_MM, LOOK_MM + STEP_MM / 2, STEP_MM)
    spots = base[:, None, :] + offsets[None, :, None] * normals[:, None, :]
    pixels = floor.to_image(spots.reshape(-1, 2)).astype(np.float32)
    colour = colours_at(image, pixels).reshape(len(base), len(offsets), 3)
    return _crossing(colour, offsets)


def colours_at(image: NDArray[np.uint8], pixels: NDArray[np.float32]) -> Array:
    """Colours at fractional pixels; rows of at most 16,000, as OpenCV wants them."""
    parts = [
        cv2.remap(image, part.reshape(1, -1, 2), None, cv2.INTER_LINEAR)[0]
        for part in np.array_split(pixels, len(pixels) // 16_000 + 1)
    ]
    return np.concatenate(parts).astype(float)


def _crossing(colour: Array, offsets: Array) -> tuple[Array, NDArray[np.bool_]]:
    """For each profile: where it crosses half way from inside to outside, and whether it does."""
    level = round(LEVEL_MM / STEP_MM)
    inside, outside = colour[:, :level].mean(axis=1), colour[:, -level:].mean(axis=1)
    step = inside - outside
    size = np.square(step).sum(axis=1)
    share = ((colour - outside[:, None]) * step[:, None]).sum(axis=2) / np.maximum(size, 1)[:, None]
    down = (share[:, :-1] >= 0.5) & (share[:, 1:] < 0.5)
    middle = (offsets[:-1] + offsets[1:]) / 2
    cost = np.where(down, np.abs(middle)[None, :], np.inf)
    at = cost.argmin(axis=1)
    rows = np.arange(len(share))
    here, there = share[rows, at], share[rows, at + 1]
    edge = offsets[at] + STEP_MM * (here - 0.5) / np.maximum(here - there, 1e-6)
    sure = down.any(axis=1) & (np.sqrt(size) > LEAST_STEP)
    return edge, sure


def _steadied(edge: Array, sure: NDArray[np.bool_]) -> Array:
    """Edges with gaps bridged and strays (pencil, specks) replaced by the median near them."""
    index = np.arange(len(edge))
    filled = np.interp(index, index[sure], edge[sure], period=len(edge))
    half = STEADY_POINTS // 2
    wrapped = np.concatenate([filled[-half:], filled, filled[:half]])
    windows = np.lib.stride_tricks.sliding_window_view(wrapped, STEADY_POINTS)
    median = np.median(windows, axis=1)
    return np.where(np.abs(filled - median) > 0.8, median, filled)
