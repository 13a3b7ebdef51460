"""A photograph made ready to be kept: turned upright, made smaller, and without a location."""

from __future__ import annotations

import io
import warnings
from dataclasses import dataclass

from PIL import Image, ImageOps

from stash.errors import InvalidInput
from stash.foreign.picture import ACCEPTED, checked_size

SIDE_PX = 1600
SMALL_PX = 320


@dataclass(frozen=True, kw_only=True)
class PreparedPhoto:
    """A photograph as it is kept: JPEGs of at most 1600 and 320 pixels a side."""

    jpeg: bytes
    small: bytes
    width_px: int
    height_px: int


def prepared(content: bytes) -> PreparedPhoto:
    """The picture in ``content`` upright, made smaller, in RGB and without any metadata."""
    image = upright(content)
    smaller = _smaller(image, SIDE_PX)
    return PreparedPhoto(jpeg=_jpeg(smaller), small=_jpeg(_smaller(image, SMALL_PX)),
                    width_px=smaller.width, height_px=smaller.height)


def upright(content: bytes) -> Image.Image:
    """The picture as its camera held it, in RGB; InvalidInput when it is none or too large."""
    checked_size(content)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            image = Image.open(io.BytesIO(content), formats=ACCEPTED)
            image.draft("RGB", (SIDE_PX, SIDE_PX))
            return ImageOps.exif_transpose(image).convert("RGB")
    except (OSError, ValueError, SyntaxError, Image.DecompressionBombError, TypeError,
            LookupError, ArithmeticError) as error:
        raise InvalidInput("picture_damaged", field="photo") from error


def _smaller(image: Image.Image, side_px: int) -> Image.Image:
    smaller = image.copy()
    smaller.thumbnail((side_px, side_px))
    return smaller


def _jpeg(image: Image.Image) -> bytes:
    out = io.BytesIO()
    image.save(out, "JPEG", quality=85, optimize=True)
    return out.getvalue()
