"""Drawn swatches, so that the demo has something to look at without a photograph.

Each weave is a small rule on the pixel grid; the threads are jittered by a fixed
seed, so the same cloth is always drawn the same way.
"""

from __future__ import annotations

import io
from typing import Any

import numpy as np
from numpy.typing import NDArray
from PIL import Image

SIDE_PX = 480

Grid = NDArray[Any]


def swatch(weave: str, colours: tuple[str, ...], seed: int) -> bytes:
    """A square JPEG of cloth in its colours; an unknown weave is drawn plain."""
    random = np.random.default_rng(seed)
    ground, *others = [np.array(_rgb(colour), float) for colour in colours]
    accent = others[0] if others else ground * 0.82
    y, x = np.mgrid[0:SIDE_PX, 0:SIDE_PX]
    share = _WEAVES.get(weave, _plain)(x, y)[..., None]
    picture = ground * (1 - share) + accent * share
    picture += _threads(random)[..., None]
    image = Image.fromarray(np.clip(picture, 0, 255).astype(np.uint8))
    written = io.BytesIO()
    image.save(written, "JPEG", quality=86)
    return written.getvalue()


def _rgb(colour: str) -> tuple[int, int, int]:
    red, green, blue = (int(colour[i : i + 2], 16) for i in (1, 3, 5))
    return red, green, blue


def _threads(random: np.random.Generator) -> Grid:
    """Uneven warp and weft threads, as brightness to add."""
    warp = np.repeat(random.normal(0, 5, SIDE_PX // 3 + 1), 3)[:SIDE_PX]
    weft = np.repeat(random.normal(0, 5, SIDE_PX // 3 + 1), 3)[:SIDE_PX]
    return warp[None, :] + weft[:, None] + random.normal(0, 2.5, (SIDE_PX, SIDE_PX))


def _plain(x: Grid, y: Grid) -> Grid:
    return np.asarray(0.25 * (((x // 3) + (y // 3)) % 2))


def _twill(x: Grid, y: Grid) -> Grid:
    return np.asarray(0.55 * (((x + y) // 4) % 3 == 0))


def _chambray(x: Grid, y: Grid) -> Grid:
    return np.asarray(0.6 * ((x // 2) % 2))


def _stripe(x: Grid, y: Grid) -> Grid:
    return np.asarray(((x % 60) < 24) * 1.0)


def _check(x: Grid, y: Grid) -> Grid:
    return np.asarray(0.5 * ((x % 96) < 40) + 0.5 * ((y % 96) < 40))


def _spot(x: Grid, y: Grid) -> Grid:
    column = x // 60
    dx, dy = x % 60 - 30, (y + 30 * (column % 2)) % 60 - 30
    return np.asarray((dx**2 + dy**2 < 90) * 1.0)


def _leaf(x: Grid, y: Grid) -> Grid:
    column = x // 80
    dx, dy = x % 80 - 40, (y + 60 * (column % 2)) % 120 - 60
    blade = (np.abs(dx) < 16 * np.cos(np.clip(dy / 50 * np.pi / 2, -1.57, 1.57))) & (abs(dy) < 48)
    return np.asarray(blade * np.where(np.abs(dx) < 2, 0.35, 0.95))


def _cord(x: Grid, y: Grid) -> Grid:
    return np.asarray(0.5 + 0.5 * np.sin(x / SIDE_PX * 2 * np.pi * 40))


def _knit(x: Grid, y: Grid) -> Grid:
    return np.asarray(0.5 * ((np.abs(x % 10 - 5) + y) % 8 < 3))


_WEAVES = {
    "plain": _plain, "twill": _twill, "chambray": _chambray, "stripe": _stripe, "check": _check,
    "spot": _spot, "leaf": _leaf, "cord": _cord, "knit": _knit,
}
