"""The distance between two places that a finger pointed at: a zip's stops, a buckle's bar."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.eye.floor.find_sheets import find_sheets
from stash.eye.floor.seen_floor import Floor, fit_floor
from stash.eye.floor.upright import read_picture
from stash.model.calibration import BOARD
from stash.model.measured import Measured, Origin

SNAP_MM = 3.0  # a finger points within about two millimetres
FINE_MM = 0.15
POINTED_ERROR_MM, SNAPPED_ERROR_MM, ERROR_SHARE = 2.0, 0.5, 0.002
Pixel = tuple[float, float]


@dataclass(frozen=True, kw_only=True)
class Between:
    """The distance, and the two places in the photograph that it was taken between."""

    length: Measured
    ends_px: tuple[Pixel, Pixel]


def between(
    data: bytes, one_px: Pixel, other_px: Pixel, *, snap: bool = True, ruler_mm: float | None = None
) -> Between:
    """From one place to another along the floor, each moved onto the edge it points at.

    The edge looked for is the strongest across the line between the two, within ``SNAP_MM``.
    """
    image = read_picture(data)
    scale = 1.0 if ruler_mm is None else ruler_mm / BOARD.ruler_mm
    grey = cv2.cvtColor(image, cv2.COLOR_BGR2GRAY)
    floor = fit_floor(find_sheets(grey), (image.shape[1], image.shape[0]), scale)
    ends = floor.to_floor(np.array([one_px, other_px], float))
    errors = [POINTED_ERROR_MM, POINTED_ERROR_MM]
    if snap:
        ahead = (ends[1] - ends[0]) / max(float(np.hypot(*(ends[1] - ends[0]))), 1e-9)
        for i, way in enumerate((ahead, -ahead)):
            moved = _snapped(grey, floor, ends[i], way)
            if moved is not None:
                ends[i] = ends[i] + moved * way
                errors[i] = SNAPPED_ERROR_MM
    length = float(np.hypot(*(ends[1] - ends[0])))
    error = float(np.sqrt(errors[0] ** 2 + errors[1] ** 2 + (ERROR_SHARE * length) ** 2))
    drawn = floor.to_image(ends)
    return Between(
        length=Measured(value=length, error=error, origin=Origin.PHOTOGRAPHED),
        ends_px=(_pair(drawn[0]), _pair(drawn[1])))


def _pair(spot: NDArray[Any]) -> Pixel:
    return float(spot[0]), float(spot[1])


def _snapped(
    grey: NDArray[np.uint8], floor: Floor, spot: NDArray[Any], way: NDArray[Any]
) -> float | None:
    """How far along the line the strongest edge near a place lies; None where none stands out."""
    along = np.arange(-SNAP_MM, SNAP_MM + FINE_MM / 2, FINE_MM)
    side = np.array([-way[1], way[0]])
    across = np.linspace(-0.8, 0.8, 9)
    points = spot + along[:, None, None] * way + across[None, :, None] * side
    pixels = floor.to_image(points.reshape(-1, 2)).astype(np.float32).reshape(1, -1, 2)
    levels = cv2.remap(grey, pixels, None, cv2.INTER_LINEAR)[0].reshape(len(along), 9)
    profile = np.convolve(np.median(levels.astype(float), axis=1), [0.25, 0.5, 0.25], "same")
    slope = np.abs(np.gradient(profile))[2:-2]
    trust = slope * np.exp(-0.5 * (along[2:-2] / (0.7 * SNAP_MM)) ** 2)
    best = int(trust.argmax())
    if slope[best] < 3 * np.median(slope) + 1.0:
        return None
    return float(along[2:-2][best])
