"""The colour of what lies in a photograph beside the printed greys, and how sure it is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.errors import InvalidInput
from stash.eye.colour.difference import difference, lab_of_srgb
from stash.eye.colour.greys import Array, Correction, coded, correction_by, written
from stash.eye.floor.find_sheets import find_sheets
from stash.eye.floor.seen_floor import Floor, fit_floor
from stash.eye.floor.upright import read_picture
from stash.eye.tray.rim import find_rim
from stash.model.calibration import BOARD
from stash.model.tray import TRAY

# CIEDE2000 that nine in ten stay within, by tests/bench/eye_colour.py, rounded up.
ERROR_DE00 = {"daylight": 6.0, "warm": 12.0, "unknown": 15.0}
PAIR_ERROR_DE00 = {"daylight": 4.0, "warm": 6.0, "unknown": 8.0}
WARM_RED_OVER_BLUE = 0.09  # in natural logarithms of linear light, of paper
FULL = 252.0  # a channel at its end says nothing
SPOT_SHARE = 0.025  # of the picture's shorter side: the radius that a colour is taken over
Pixel = tuple[float, float]


class Light(StrEnum):
    """What the paper says of the light; unknown where no greys were seen."""

    DAYLIGHT = "daylight"
    WARM = "warm"
    UNKNOWN = "unknown"

    @property
    def known(self) -> bool:
        """Whether the printed greys were seen; else a colour is not worth keeping."""
        return self is not Light.UNKNOWN


@dataclass(frozen=True, kw_only=True)
class SeenColour:
    """``colour`` is #rrggbb under daylight; nine in ten lie within ``error_de00`` of it."""

    colour: str
    lab: tuple[float, float, float]
    error_de00: float
    light: Light


def colours_in(data: bytes, at_px: Sequence[Pixel] = ()) -> tuple[SeenColour, ...]:
    """The colour at each place of a photograph; by default at the place farthest from the sheet.

    ``at_px`` are pixels of the picture as the camera took it, turned upright.
    """
    image = read_picture(data)
    floor, boxes = _greys_in(image)
    correction, light = _corrected(image, floor, boxes)
    spots = list(at_px) or [_farthest(image, floor, boxes)]
    return tuple(_told(_levels(image, spot), correction, light) for spot in spots)


def colours_along(data: bytes, lines_px: Sequence[Sequence[Pixel]]) -> tuple[SeenColour, ...]:
    """The colour along each line, as thin as it is: of ribbons, cords, threads."""
    image = read_picture(data)
    correction, light = _corrected(image, *_greys_in(image))
    found = []
    for line in lines_px:
        pixels = np.array(line, np.float32).reshape(1, -1, 2)
        levels = cv2.remap(image, pixels, None, cv2.INTER_LINEAR)[0].astype(float)
        found.append(_told(np.median(levels, axis=0)[::-1], correction, light))
    return tuple(found)


def _corrected(
    image: NDArray[np.uint8], floor: Floor | None, boxes: tuple[Any, ...]
) -> tuple[Correction | None, Light]:
    """What the printed greys say of the light; None where none were seen."""
    if floor is None:
        return None, Light.UNKNOWN
    steps = np.array([grey_level(image, floor, box) for box in boxes])
    if steps[0].max() >= FULL:
        raise InvalidInput("paper_too_bright", field="photo")
    correction = correction_by(steps)
    return correction, _light(steps[0]) if correction else Light.UNKNOWN


def by_greys(level: Array, steps: Array) -> SeenColour | None:
    """The colour of a level (red, green, blue) by the greys seen with it; None if they are none."""
    correction = correction_by(steps)
    return None if correction is None else _told(level, correction, _light(steps[0]))


def apart_in(data: bytes, one_px: Pixel, other_px: Pixel) -> tuple[float, float]:
    """(CIEDE2000 between two places of one photograph, how far that may be out).

    Far surer than two photographs, since light and camera are the same for both.
    """
    one, other = colours_in(data, (one_px, other_px))
    found = float(difference(np.array([one.lab]), np.array([other.lab]))[0])
    return found, PAIR_ERROR_DE00[one.light.value]


def _greys_in(image: NDArray[np.uint8]) -> tuple[Floor | None, tuple[Any, ...]]:
    """The floor by the tray or the first sheet, and where the greys lie on it."""
    grey = cv2.cvtColor(image, cv2.COLOR_BGR2GRAY)
    size = image.shape[1], image.shape[0]
    rim = find_rim(grey)
    if rim is not None:
        return fit_floor([rim], size), TRAY.grey_boxes
    try:
        sheets = find_sheets(grey)
    except InvalidInput:
        return None, ()
    return fit_floor(sheets[:1], size), BOARD.grey_boxes


def grey_level(image: NDArray[np.uint8], floor: Floor, box: tuple[float, ...]) -> Array:
    """The mean level (red, green, blue) of the middle of a grey; half tones average out."""
    left, top, right, foot = box
    xs = np.linspace(left + 0.2 * (right - left), right - 0.2 * (right - left), 60)
    ys = np.linspace(top + 0.25 * (foot - top), foot - 0.25 * (foot - top), 24)
    spots = np.stack(np.meshgrid(xs, ys), axis=-1).reshape(-1, 2)
    pixels = floor.to_image(spots).astype(np.float32).reshape(1, -1, 2)
    levels = cv2.remap(image, pixels, None, cv2.INTER_LINEAR)[0].astype(float)
    return levels.mean(axis=0)[::-1]


def _light(paper: Array) -> Light:
    """Warm where the camera leaves the paper clearly redder than blue."""
    linear = ((paper / 255 + 0.055) / 1.055) ** 2.4
    warm = float(np.log(linear[0] / linear[2])) > WARM_RED_OVER_BLUE
    return Light.WARM if warm else Light.DAYLIGHT


def _levels(image: NDArray[np.uint8], spot: Pixel) -> Array:
    """The median level (red, green, blue) around a place."""
    height, width = image.shape[:2]
    if not (0 <= spot[0] < width and 0 <= spot[1] < height):
        raise InvalidInput("outside_picture", field="at")
    radius = max(3, round(SPOT_SHARE * min(height, width)))
    y0, x0 = max(0, int(spot[1]) - radius), max(0, int(spot[0]) - radius)
    part = image[y0 : int(spot[1]) + radius + 1, x0 : int(spot[0]) + radius + 1]
    return np.asarray(np.median(part.reshape(-1, 3).astype(float), axis=0)[::-1], float)


def _told(level: Array, correction: Correction | None, light: Light) -> SeenColour:
    levels = level[None]
    if correction is None:
        light_rgb = np.where(levels / 255 <= 0.04045, levels / 255 / 12.92,
                             ((levels / 255 + 0.055) / 1.055) ** 2.4)
    else:
        light_rgb = correction.reflectance(levels)
    lab = lab_of_srgb(coded(light_rgb))[0]
    return SeenColour(
        colour=written(light_rgb[0]), lab=(float(lab[0]), float(lab[1]), float(lab[2])),
        error_de00=ERROR_DE00[light.value], light=light)


def _farthest(image: NDArray[np.uint8], floor: Floor | None, boxes: tuple[Any, ...]) -> Pixel:
    """The place farthest from the printed sheet and from the edge of the picture."""
    height, width = image.shape[:2]
    free = np.ones((height // 8 + 2, width // 8 + 2), np.uint8)
    free[[0, -1]] = 0
    free[:, [0, -1]] = 0
    if floor is not None:
        board = BOARD if boxes == BOARD.grey_boxes else TRAY
        right, foot = board.width_mm + 12, board.height_mm + 32
        corners = np.array([(-12, -16), (right, -16), (right, foot), (-12, foot)])
        hull = cv2.convexHull((floor.to_image(corners) / 8 + 1).astype(np.int32))
        cv2.fillConvexPoly(free, hull, 0)
    far = cv2.distanceTransform(free, cv2.DIST_L2, 5)
    row, column = np.unravel_index(int(far.argmax()), far.shape)
    return float((column - 1) * 8), float((row - 1) * 8)
