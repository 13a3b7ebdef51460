"""Where the check can be seen, and so nothing lies on it.

The check is demodulated along both its diagonals in the logarithm of light, in which its
contrast is the same in shadow and in sun. Its phase far from everything tells how the page
curls; what agrees in phase is ground, whatever colour lies beside it.
"""

from __future__ import annotations

from typing import Any

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.eye.tray.from_above import Flat
from stash.model.tray import TRAY, TrayBoard

Map = NDArray[np.float32]
NEAR_MM = 0.62  # half width of what one cell is judged by
WIDE_MM = 9.0  # over which the page curls and light falls off
SPARSE, FAR_TIMES = 0.03, 4  # where no ground is near, that farther off tells
FAINT = 0.012  # of full light: what the lens scatters into black ink
LEAST_CHECK = 0.3  # of the strongest check: what deep shadow and noise leave of it
STRONG = 0.75  # of the strongest check near by: certainly ground, no film over it


def light_of(colour: NDArray[np.uint8]) -> Map:
    """Linear light from 0 to 1 of a photograph, by the curve of IEC 61966-2-1."""
    level = np.arange(256) / 255
    curve = np.where(level <= 0.04045, level / 12.92, ((level + 0.055) / 1.055) ** 2.4)
    return cv2.LUT(cv2.cvtColor(colour, cv2.COLOR_BGR2GRAY), curve.astype(np.float32))


def ground_seen(flat: Flat, tray: TrayBoard = TRAY) -> Map:
    """For each cell from 0 (hidden) to about 1 (the check as strong as around it)."""
    logs = np.log(light_of(flat.colour) + FAINT)
    logs -= _blurred(logs, 1.5 / flat.cell_mm)
    xs, ys = flat.axes_mm()
    xs, ys = xs - tray.check_mm[0], ys - tray.check_mm[1]
    mixed = [_mixed(logs, _wave(xs, ys, sign, tray.square_mm), flat.cell_mm) for sign in (1, -1)]
    sure = _sure(np.minimum(np.abs(mixed[0]), np.abs(mixed[1])))
    # An edge looks like one diagonal of the check, never like both.
    seen = np.minimum(*(_agreeing(part, sure, flat.cell_mm) for part in mixed))
    outside = (xs < 0) | (xs > tray.check_mm[2] - tray.check_mm[0])
    seen[:, outside] = 1.0
    outside = (ys < 0) | (ys > tray.check_mm[3] - tray.check_mm[1])
    seen[outside] = 1.0
    return seen


def _wave(
    xs: NDArray[Any], ys: NDArray[Any], sign: float, square_mm: float
) -> NDArray[np.complex64]:
    """exp(-i pi (x + sign y) / square): one diagonal of the check."""
    turn = np.pi / square_mm
    return (np.exp(-1j * turn * sign * ys)[:, None] * np.exp(-1j * turn * xs)[None]).astype(
        np.complex64)


def _mixed(logs: Map, wave: NDArray[np.complex64], cell_mm: float) -> NDArray[np.complex64]:
    """The strength and phase of one diagonal near each cell."""
    mixed = logs * wave
    near = NEAR_MM / cell_mm
    real, imaginary = (_blurred(np.ascontiguousarray(p), near) for p in (mixed.real, mixed.imag))
    return real + 1j * imaginary


def _sure(strength: Map) -> Map:
    """How far each cell may be trusted to show the check as it is where nothing lies."""
    most = float(np.percentile(strength, 90))
    small = cv2.resize(strength, None, fx=1 / 16, fy=1 / 16, interpolation=cv2.INTER_AREA)
    around = cv2.dilate(small, np.ones((9, 9), np.uint8))
    full = np.clip(cv2.resize(around, strength.shape[::-1]), LEAST_CHECK * most, most)
    return (np.clip(strength / full - STRONG, 0, None) ** 2 * (strength < 1.6 * most)).astype(
        np.float32)


def _agreeing(mixed: NDArray[np.complex64], sure: Map, cell_mm: float) -> Map:
    """The strength of one diagonal that agrees in phase with the ground around it."""
    real, imaginary = np.ascontiguousarray(mixed.real), np.ascontiguousarray(mixed.imag)
    wide = WIDE_MM / cell_mm
    weight, along, across = (
        _wide(part, wide) + SPARSE * _wide(part, FAR_TIMES * wide)
        for part in (sure, sure * real, sure * imaginary)
    )
    along, across = along / (weight + 1e-6), across / (weight + 1e-6)
    usual = along**2 + across**2
    usual = np.maximum(usual, (LEAST_CHECK * np.sqrt(np.percentile(usual, 90))) ** 2)
    return (real * along + imaginary * across) / usual


def _blurred(values: Map, sigma: float) -> Map:
    return cv2.GaussianBlur(values, (0, 0), sigma)


def _wide(values: Map, sigma: float) -> Map:
    """A wide blur, reckoned on every eighth cell."""
    small = cv2.resize(values, None, fx=1 / 8, fy=1 / 8, interpolation=cv2.INTER_AREA)
    soft = cv2.GaussianBlur(small, (0, 0), sigma / 8)
    return cv2.resize(soft, values.shape[::-1], interpolation=cv2.INTER_LINEAR)
