"""How different two colours look: CIELAB from sRGB, and the CIEDE2000 difference.

Sharma, Wu and Dalal, "The CIEDE2000 color-difference formula: implementation
notes, supplementary test data, and mathematical observations", Color Research
and Application 30 (2005) 21-30. sRGB to XYZ (D65, 2 degrees) by IEC 61966-2-1.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

import numpy as np

from stash.errors import InvalidInput

HEX = re.compile(r"#?([0-9a-fA-F]{6}|[0-9a-fA-F]{3})")
TO_XYZ = np.array(
    [[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]]
)
WHITE_D65 = np.array([0.9505, 1.0, 1.089])
POW25_7 = 25.0**7
# How a difference reads side by side; common practice, no source.
CLOSE, NEAR = 5.0, 12.0


def is_colour(text: str | None) -> bool:
    """True for ``#rrggbb`` or ``#rgb``."""
    return bool(text and HEX.fullmatch(text.strip()))


def lab(colours: Sequence[str]) -> np.ndarray:
    """CIELAB (n, 3) of colours written ``#rrggbb`` or ``#rgb``; InvalidInput otherwise."""
    rgb = np.empty((len(colours), 3))
    for row, text in enumerate(colours):
        found = HEX.fullmatch(text.strip())
        if not found:
            raise InvalidInput("not_a_colour", typed=text.strip()[:40], field="colour")
        digits = found.group(1)
        digits = digits if len(digits) == 6 else "".join(d * 2 for d in digits)
        rgb[row] = [int(digits[i : i + 2], 16) for i in (0, 2, 4)]
    return lab_of_srgb(rgb / 255)


def lab_of_srgb(rgb: np.ndarray) -> np.ndarray:
    """CIELAB (n, 3) of sRGB values from 0 to 1."""
    linear = np.where(rgb <= 0.04045, rgb / 12.92, ((rgb + 0.055) / 1.055) ** 2.4)
    ratio = linear @ TO_XYZ.T / WHITE_D65
    f = np.where(ratio > (6 / 29) ** 3, np.cbrt(ratio), ratio * (29 / 6) ** 2 / 3 + 4 / 29)
    return np.stack(
        [116 * f[:, 1] - 16, 500 * (f[:, 0] - f[:, 1]), 200 * (f[:, 1] - f[:, 2])], axis=1
    )


def difference(first: np.ndarray, second: np.ndarray) -> np.ndarray:
    """CIEDE2000 between CIELAB rows; either side may be a single row (1, 3)."""
    light1, a1, b1 = first[:, 0], first[:, 1], first[:, 2]
    light2, a2, b2 = second[:, 0], second[:, 1], second[:, 2]
    mean7 = ((np.hypot(a1, b1) + np.hypot(a2, b2)) / 2) ** 7
    stretch = 1 + 0.5 * (1 - np.sqrt(mean7 / (mean7 + POW25_7)))
    chroma1, chroma2 = np.hypot(a1 * stretch, b1), np.hypot(a2 * stretch, b2)
    hue1 = np.degrees(np.arctan2(b1, a1 * stretch)) % 360
    hue2 = np.degrees(np.arctan2(b2, a2 * stretch)) % 360
    d_hue, mean_hue = _hues(hue1, hue2, chroma1 * chroma2 == 0)
    d_big_hue = 2 * np.sqrt(chroma1 * chroma2) * np.sin(np.radians(d_hue / 2))
    mean_light, mean_chroma = (light1 + light2) / 2, (chroma1 + chroma2) / 2
    off50 = (mean_light - 50) ** 2
    weight_hue = 1 + 0.015 * mean_chroma * _hue_weight(mean_hue)
    by_light = (light2 - light1) / (1 + 0.015 * off50 / np.sqrt(20 + off50))
    by_chroma = (chroma2 - chroma1) / (1 + 0.045 * mean_chroma)
    by_hue = d_big_hue / weight_hue
    turn = _rotation(mean_hue, mean_chroma) * by_chroma * by_hue
    return np.asarray(np.sqrt(np.maximum(by_light**2 + by_chroma**2 + by_hue**2 + turn, 0.0)))


def apart(first: str, second: str) -> float:
    """CIEDE2000 between two written colours."""
    return float(difference(lab([first]), lab([second]))[0])


def _hues(
    hue1: np.ndarray, hue2: np.ndarray, grey: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Hue difference and mean hue in degrees, both the short way round the circle.

    Opposite hues (180 degrees) are a case of their own in the published table, so
    rounding in the last bit of an arctangent must not push them past it.
    """
    half = 180 + 1e-9
    raw = hue2 - hue1
    d_hue = np.where(raw > half, raw - 360, np.where(raw < -half, raw + 360, raw))
    total = hue1 + hue2
    wrapped = np.where(total < 360, (total + 360) / 2, (total - 360) / 2)
    mean = np.where(np.abs(raw) <= half, total / 2, wrapped)
    return np.where(grey, 0.0, d_hue), np.where(grey, total, mean)


def _hue_weight(mean_hue: np.ndarray) -> np.ndarray:
    rad = np.radians
    weight: np.ndarray = (
        1
        - 0.17 * np.cos(rad(mean_hue - 30))
        + 0.24 * np.cos(rad(2 * mean_hue))
        + 0.32 * np.cos(rad(3 * mean_hue + 6))
        - 0.20 * np.cos(rad(4 * mean_hue - 63))
    )
    return weight


def _rotation(mean_hue: np.ndarray, mean_chroma: np.ndarray) -> np.ndarray:
    chroma7 = mean_chroma**7
    swing = 30 * np.exp(-(((mean_hue - 275) / 25) ** 2))
    turned = np.sqrt(chroma7 / (chroma7 + POW25_7))
    return np.asarray(-2 * turned * np.sin(np.radians(2 * swing)))
