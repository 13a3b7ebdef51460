"""Colour corrected by five printed greys: paper white, and black ink at 25, 50, 75 and 100 %.

A grey has the same light in all three channels. So each channel is bent until every step
is grey, which takes out the colour of the light and the camera's own liking at each
brightness, whatever the printer made of "50 %". How bright a step is, is known for the paper
and for full ink; between them the camera's usual curve (IEC 61966-2-1) is trusted as much as the
printed share of ink, whose growth on paper is only roughly known.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stash.model.calibration import INK_SHARES

Array = NDArray[np.float64]

PAPER, INK = 0.84, 0.05  # reflectance of office paper and of toner: common practice, no source
DOT_GAIN = 0.16  # at half ink, of office printers; common practice, no source
TRUST_STEPS = 0.4
LEAST_APART = 6.0  # levels between neighbouring steps, or the greys are not what they should be


@dataclass(frozen=True)
class Correction:
    """A curve for each channel: ``levels`` (k, 3) seen, ``light`` (k,) reflectance meant."""

    levels: Array
    light: Array

    def reflectance(self, seen: Array) -> Array:
        """Linear light (n, 3), 1 a perfect white, of levels from 0 to 255 (n, 3)."""
        seen = np.asarray(seen, float)
        return np.stack([self._channel(seen[:, c], c) for c in range(3)], axis=1)

    def _channel(self, seen: Array, channel: int) -> Array:
        """Between the steps on a smooth scale (the cube root); beyond them straight on."""
        at, root = self.levels[:, channel], np.cbrt(self.light)
        inside = np.interp(seen, at, root)
        low = root[0] + (seen - at[0]) * (root[1] - root[0]) / (at[1] - at[0])
        high = root[-1] + (seen - at[-1]) * (root[-1] - root[-2]) / (at[-1] - at[-2])
        value = np.where(seen < at[0], low, np.where(seen > at[-1], high, inside))
        return np.clip(value, 0, None) ** 3


def correction_by(steps: Array) -> Correction | None:
    """From the five steps as photographed (5, 3), paper first; None when they are no scale.

    Levels are 0 to 255, channels red, green, blue.
    """
    falling = -np.diff(steps, axis=0)
    if (falling < LEAST_APART / 3).any() or (falling.mean(axis=1) < LEAST_APART).any():
        return None
    order = steps[::-1]
    light = _light_of_steps(steps.mean(axis=1))[::-1]
    return Correction(order, light)


def _light_of_steps(levels: Array) -> Array:
    """What each step reflects, paper first."""
    usual = _usual_curve(levels / 255)
    scale = (usual - usual[-1]) / (usual[0] - usual[-1])
    by_camera = INK + (PAPER - INK) * scale
    share = np.array(INK_SHARES)
    covered = share + 4 * DOT_GAIN * share * (1 - share)
    by_print = PAPER * (1 - covered) + INK * covered  # A. Murray and E. R. Davies, 1936
    mixed = TRUST_STEPS * np.cbrt(by_print) + (1 - TRUST_STEPS) * np.cbrt(by_camera)
    return mixed**3


def _usual_curve(share: Array) -> Array:
    return np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)


def coded(light: Array) -> Array:
    """sRGB from 0 to 1 of linear light (n, 3)."""
    light = np.clip(light, 0, 1)
    return np.where(light <= 0.0031308, 12.92 * light,
                    1.055 * np.maximum(light, 1e-9) ** (1 / 2.4) - 0.055)


def written(light: Array) -> str:
    """One linear colour (3,) as #rrggbb."""
    levels = np.round(coded(np.asarray(light)[None])[0] * 255).astype(int)
    return "#" + "".join(f"{int(level):02x}" for level in levels)
