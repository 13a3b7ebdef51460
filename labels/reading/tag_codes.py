"""What the tag of a bolt says to a machine: its bar code and its QR code, as text.

Two decoders look: zxing-cpp, then libzbar where the computer has it. Letters are not read;
docs/decisions/tags-are-kept.md says why.
"""

from __future__ import annotations

import numpy as np
import zxingcpp

from labels.reading.photograph import open_photograph
from stash.foreign import read_apart
from stash.foreign.limits import PICTURE

FORMATS = ("EAN13", "EAN8", "UPCA", "UPCE", "Code128", "QRCode", "DataMatrix")
LONGEST = 300
"""Characters of one code that are told: a note, not a document."""


def read_tag(data: bytes) -> tuple[str, ...]:
    """The codes in a photograph of a tag, each once; InvalidInput when it is no picture."""
    grey, _scale = open_photograph(data)
    found = dict.fromkeys([*_zxing(grey), *_zbar(grey)])
    return tuple(text[:LONGEST] for text in found if text.strip())


def read_tag_apart(data: bytes) -> tuple[str, ...]:
    """As :func:`read_tag`, in a process of its own: for photographs from anywhere."""
    return read_apart(PICTURE, read_tag, data)


def _zxing(grey: np.ndarray) -> list[str]:
    formats = zxingcpp.BarcodeFormats([getattr(zxingcpp.BarcodeFormat, name) for name in FORMATS])
    return [found.text for found in zxingcpp.read_barcodes(grey, formats=formats)]


def _zbar(grey: np.ndarray) -> list[str]:
    try:
        from pyzbar import pyzbar
    except ImportError:  # the wrapper is there, the library it wraps is not
        return []
    kinds = [getattr(pyzbar.ZBarSymbol, name)
             for name in ("EAN13", "EAN8", "UPCA", "UPCE", "CODE128", "QRCODE")]
    return [found.data.decode("utf-8", "replace") for found in pyzbar.decode(grey, symbols=kinds)]
