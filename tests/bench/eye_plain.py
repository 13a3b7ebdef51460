"""What hides a plain ground, for counting real pictures that have no tray in them."""

from __future__ import annotations

import cv2
import numpy as np


def hidden_on_plain(grey: np.ndarray, cell_mm: float) -> tuple[np.ndarray, float, np.ndarray]:
    """(hidden from 0 to 1, the cell, logarithm of light) of a picture of things on a ground.

    Light is compared with that around it, parted in two by Otsu's threshold, and the part
    that makes up the edge of the picture is ground.
    """
    look = np.log(grey.astype(np.float32) / 255 + 0.02)
    even = look - cv2.GaussianBlur(look, (0, 0), 14 / cell_mm)
    even = cv2.GaussianBlur(even, (0, 0), 0.25 / cell_mm)
    low, high = np.percentile(even, [1, 99])
    levels = np.clip((even - low) / (high - low) * 255, 0, 255).astype(np.uint8)
    _, parted = cv2.threshold(levels, 0, 1, cv2.THRESH_BINARY + cv2.THRESH_OTSU)
    rim = np.concatenate([parted[:4].ravel(), parted[-4:].ravel(), parted[:, :4].ravel()])
    things = parted if rim.mean() < 0.5 else 1 - parted
    size = 2 * int(0.5 / cell_mm) + 1
    disc = cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (size, size))
    things = cv2.morphologyEx(things, cv2.MORPH_CLOSE, disc)
    outer, _ = cv2.findContours(things, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    whole = np.zeros_like(things)
    cv2.drawContours(whole, outer, -1, 1, cv2.FILLED)
    whole = cv2.morphologyEx(whole, cv2.MORPH_OPEN, disc)
    return cv2.GaussianBlur(whole.astype(np.float32), (0, 0), 0.3 / cell_mm), cell_mm, look
