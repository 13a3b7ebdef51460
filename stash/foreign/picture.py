"""What may be taken for a photograph: told from its first bytes, before it is decoded.

These are the only limits of pictures in the house.
"""

from __future__ import annotations

import io
import warnings

from PIL import Image, UnidentifiedImageError

from stash.errors import InvalidInput

LARGEST_BYTES = 50_000_000
MOST_PIXELS = 120_000_000
"""Of a JPEG, which can be decoded at a half, a quarter or an eighth of its size."""
MOST_PIXELS_WHOLE = 45_000_000
"""Of a coloured picture of another kind, which must be decoded whole: 45 million take 180 MB."""
ACCEPTED = ("JPEG", "PNG", "WEBP", "BMP", "TIFF", "GIF", "PPM")


def checked_size(content: bytes) -> tuple[int, int]:
    """Width and height in pixels; InvalidInput for what is none, is damaged or is too large."""
    if not content:
        raise InvalidInput("picture_empty", field="photo")
    if len(content) > LARGEST_BYTES:
        raise InvalidInput("picture_too_many_bytes", size_mb=len(content) / 1e6,
                           most_mb=LARGEST_BYTES / 1e6, field="photo")
    width, height, light = _header(content)
    most = MOST_PIXELS if light else MOST_PIXELS_WHOLE
    if width * height > most:
        raise InvalidInput("picture_too_many_pixels", megapixels=width * height / 1e6,
                           most_megapixels=most / 1e6, field="photo")
    return width, height


def _header(content: bytes) -> tuple[int, int, bool]:
    """Width, height, and whether a pixel costs a byte at most while it is decoded."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            with Image.open(io.BytesIO(content), formats=ACCEPTED) as picture:
                light = picture.format in ("JPEG", "MPO") or picture.mode in ("1", "L")
                return picture.width, picture.height, light
    except Image.DecompressionBombError as error:
        raise InvalidInput("picture_too_many_pixels", megapixels=float("inf"),
                           most_megapixels=MOST_PIXELS / 1e6, field="photo") from error
    except UnidentifiedImageError as error:
        raise InvalidInput("not_a_picture", field="photo") from error
    except (OSError, ValueError, SyntaxError, TypeError, LookupError, ArithmeticError) as error:
        raise InvalidInput("picture_damaged", field="photo") from error
