"""A photograph from its bytes, turned the right way up and of a size that can be worked on."""

from __future__ import annotations

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.errors import InvalidInput
from stash.foreign.picture import checked_size

WORK_PIXELS = 16_000_000
LEAST_SIDE_PX = 600


def read_picture(data: bytes) -> NDArray[np.uint8]:
    """The picture in BGR. Raises InvalidInput for anything that is not a usable photograph."""
    width, height = checked_size(data)
    if min(width, height) < LEAST_SIDE_PX:
        raise InvalidInput("too_few_pixels", across_px=width, down_px=height)
    try:
        image = cv2.imdecode(np.frombuffer(data, np.uint8), cv2.IMREAD_COLOR)
    except cv2.error:
        image = None
    if image is None:
        raise InvalidInput("picture_damaged", field="photo")
    shrink = (WORK_PIXELS / (image.shape[0] * image.shape[1])) ** 0.5
    if shrink < 1:
        image = cv2.resize(image, None, fx=shrink, fy=shrink, interpolation=cv2.INTER_AREA)
    return image


def shown_jpeg(data: bytes, side_px: int = 1400) -> tuple[bytes, tuple[int, int]]:
    """(a photograph as a page shows it, (width, height) that it is measured at).

    It is turned upright, and no side is longer than ``side_px``.
    """
    image = read_picture(data)
    size = image.shape[1], image.shape[0]
    shrink = side_px / max(image.shape[:2])
    if shrink < 1:
        image = cv2.resize(image, None, fx=shrink, fy=shrink, interpolation=cv2.INTER_AREA)
    jpeg = cv2.imencode(".jpg", image, [cv2.IMWRITE_JPEG_QUALITY, 82])[1].tobytes()
    return jpeg, size
