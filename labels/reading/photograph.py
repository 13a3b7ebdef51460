"""From the bytes of a photograph to an image array, or one sentence that says why not."""

from __future__ import annotations

import io
import warnings

import numpy as np
from PIL import Image, ImageOps

from labels.reading.cascade import Thoroughness, look
from labels.reading.readings import Corners, LabelReading, PhotoReadings
from stash.errors import InvalidInput
from stash.foreign import read_apart
from stash.foreign.limits import PICTURE
from stash.foreign.picture import LARGEST_BYTES, checked_size

LARGEST_SIDE_PX = 4800
"""Larger photographs are halved until they fit: labels keep enough pixels, memory stays bounded."""

_HEIC_BRANDS = (b"heic", b"heix", b"hevc", b"heim", b"heis", b"mif1", b"msf1", b"avif")


def read_bytes(data: bytes, effort: Thoroughness = Thoroughness.FULL) -> list[LabelReading]:
    """The labels in a photograph; InvalidInput when it is not a picture that can be opened."""
    return list(look_bytes(data, effort).readings)


def look_bytes(data: bytes, effort: Thoroughness = Thoroughness.FULL) -> PhotoReadings:
    """Everything seen in a photograph; corners are in its pixels as it is shown upright."""
    grey, scale = open_photograph(data)
    return _scaled(look(grey, effort), scale)


def look_apart(data: bytes) -> PhotoReadings:
    """As :func:`look_bytes`, in a process of its own: for photographs from anywhere."""
    return read_apart(PICTURE, look_bytes, data)


def open_photograph(data: bytes) -> tuple[np.ndarray, float]:
    """(grey image turned upright, factor from its pixels to the photograph's)."""
    if data[4:8] == b"ftyp" and data[8:12] in _HEIC_BRANDS:
        raise InvalidInput("photograph_heic")
    checked_size(data)
    return _decode(data)


def check_size(size_bytes: int) -> None:
    """InvalidInput when a file is larger than any photograph worth reading."""
    if size_bytes > LARGEST_BYTES:
        raise InvalidInput("picture_too_many_bytes", size_mb=size_bytes / 1e6,
                           most_mb=LARGEST_BYTES / 1e6)


def _decode(data: bytes) -> tuple[np.ndarray, float]:
    try:
        with warnings.catch_warnings(), Image.open(io.BytesIO(data)) as picture:
            warnings.simplefilter("ignore")
            width, height = picture.size
            picture.draft("L", (LARGEST_SIDE_PX, LARGEST_SIDE_PX))
            upright = ImageOps.exif_transpose(picture)
            scale = max(width, height) / max(upright.size)
            grey = upright.convert("L") if upright.mode != "L" else upright
            shrink = -(-max(grey.size) // LARGEST_SIDE_PX)
            if shrink > 1:
                grey = grey.reduce(shrink)
            return np.asarray(grey, dtype=np.uint8), scale * shrink
    except (OSError, SyntaxError, ValueError, TypeError, LookupError, ArithmeticError,
            Image.DecompressionBombError) as error:
        raise InvalidInput("picture_damaged") from error


def _scaled(sight: PhotoReadings, scale: float) -> PhotoReadings:
    if scale == 1.0:
        return sight

    def grow(corners: Corners) -> Corners:
        return tuple((x * scale, y * scale) for x, y in corners)

    readings = tuple(
        LabelReading(r.code, grow(r.corners_px), r.decoder, r.payload, r.host)
        for r in sight.readings
    )
    return PhotoReadings(readings, sight.strangers, tuple(grow(c) for c in sight.unread))
