"""A photograph of a printed sheet: 24 labels, twelve megapixels, seen a little askew."""

from __future__ import annotations

from random import Random

import cv2
import numpy as np
from scan_scenes import ADDRESS

from labels.payload import compose
from labels.qr import QUIET_MODULES, symbol
from stash.model import Code

PHOTOGRAPH = (4000, 3000)
GRID = (6, 4)
CELL_PX = (620, 420)


def photograph(seed: int) -> tuple[np.ndarray, set[str]]:
    """(BGR picture, the 24 codes on it)."""
    random, rng = Random(seed), np.random.default_rng(seed)
    codes = [Code.draw(random).text for _ in range(GRID[0] * GRID[1])]
    sheet = np.full((GRID[1] * CELL_PX[1], GRID[0] * CELL_PX[0]), 235, np.uint8)
    for n, code in enumerate(codes):
        row, column = divmod(n, GRID[0])
        corner = column * CELL_PX[0] + 30, row * CELL_PX[1] + 30
        _stick(sheet, code, corner, random.choice((4, 6, 8)))
    picture = _seen(sheet, rng)
    grey = np.clip(picture + rng.normal(0, 6, picture.shape), 0, 255).astype(np.uint8)
    coded = cv2.imencode(".jpg", cv2.GaussianBlur(grey, (0, 0), 1.2), [1, 75])[1]
    return cv2.imdecode(coded, cv2.IMREAD_COLOR), set(codes)


def _stick(sheet: np.ndarray, code: str, corner: tuple[int, int], module_px: int) -> None:
    x, y = corner
    made = symbol(compose(code, ADDRESS))
    flat = np.kron(~np.pad(made.modules, QUIET_MODULES), np.ones((module_px, module_px)))
    side = len(flat)
    sheet[y : y + side, x : x + side] = (flat * 255).astype(np.uint8)
    cv2.putText(sheet, code, (x + side + 6, y + 60), cv2.FONT_HERSHEY_SIMPLEX, 1.2, 0, 3)


def _seen(sheet: np.ndarray, rng) -> np.ndarray:
    """The sheet filling the picture, its corners pulled in unevenly, as is the light."""
    width, height = PHOTOGRAPH
    inset, pull = 0.05, 0.066
    corners = np.float32([(0, 0), (1, 0), (1, 1), (0, 1)]) * (1 - 2 * inset) + inset
    corners += rng.uniform(0, pull, (4, 2)) * np.sign(0.5 - corners)
    flat = np.float32([(0, 0), (1, 0), (1, 1), (0, 1)]) * np.float32(sheet.shape[::-1])
    view = cv2.getPerspectiveTransform(flat, corners * np.float32(PHOTOGRAPH))
    seen = cv2.warpPerspective(sheet, view, PHOTOGRAPH, flags=cv2.INTER_AREA, borderValue=110)
    light = np.linspace(rng.uniform(0.5, 1), rng.uniform(0.7, 1), width, dtype=np.float32)
    return seen * light[None, :] * np.linspace(1, rng.uniform(0.7, 1), height)[:, None]
