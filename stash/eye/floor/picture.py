"""A photograph from its bytes, turned the right way up and of a size that can be worked on."""

from __future__ import annotations

import io
import warnings

import cv2
import numpy as np
from numpy.typing import NDArray
from PIL import Image, UnidentifiedImageError

from stash.errors import InvalidInput

MOST_BYTES = 60_000_000
MOST_PIXELS = 120_000_000
WORK_PIXELS = 16_000_000
LEAST_SIDE_PX = 600


def read_picture(data: bytes) -> NDArray[np.uint8]:
    """The picture in BGR. Raises InvalidInput for anything that is not a usable photograph."""
    if len(data) > MOST_BYTES:
        raise InvalidInput("photograph_too_large", most_mb=60)
    width, height = _size(data)
    if width * height > MOST_PIXELS:
        raise InvalidInput("too_many_pixels", most_megapixels=120)
    if min(width, height) < LEAST_SIDE_PX:
        raise InvalidInput("too_few_pixels", across_px=width, down_px=height)
    try:
        image = cv2.imdecode(np.frombuffer(data, np.uint8), cv2.IMREAD_COLOR)
    except cv2.error:
        image = None
    if image is None:
        raise InvalidInput("photograph_damaged")
    shrink = (WORK_PIXELS / (image.shape[0] * image.shape[1])) ** 0.5
    if shrink < 1:
        image = cv2.resize(image, None, fx=shrink, fy=shrink, interpolation=cv2.INTER_AREA)
    return image


def _size(data: bytes) -> tuple[int, int]:
    """Width and height without decoding, so that a bomb is seen before it goes off."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)
            with Image.open(io.BytesIO(data)) as image:
                return image.size
    except Image.DecompressionBombError as error:
        raise InvalidInput("photograph_far_too_large") from error
    except (UnidentifiedImageError, OSError, ValueError, SyntaxError) as error:
        raise InvalidInput("not_a_photograph") from error
