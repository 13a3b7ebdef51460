"""The decoders themselves, each from a grey image to (text, corners) pairs.

Only full QR symbols are asked for: with the whole QR family allowed, Micro QR produced
wrong reads on noise.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

import numpy as np
import zxingcpp

from labels.reading.readings import Corners

Decoded = tuple[str, Corners]
Decoder = Callable[[np.ndarray], list[Decoded]]


def zxing(grey: np.ndarray) -> list[Decoded]:
    """Every symbol that zxing-cpp reads without an error."""
    return [(b.text, _corners(b.position)) for b in _zxing(grey, errors=False)]


def zxing_and_located(grey: np.ndarray) -> tuple[list[Decoded], list[Corners]]:
    """What :func:`zxing` reads, and the corners of symbols it finds and cannot read."""
    seen = _zxing(grey, errors=True)
    read = [(b.text, _corners(b.position)) for b in seen if b.valid]
    return read, [_corners(b.position) for b in seen if not b.valid]


def _zxing(grey: np.ndarray, *, errors: bool) -> list[zxingcpp.Barcode]:
    return zxingcpp.read_barcodes(
        np.ascontiguousarray(grey),
        formats=zxingcpp.BarcodeFormats(zxingcpp.BarcodeFormat.QRCodeModel2),
        return_errors=errors,
    )


def _corners(position: zxingcpp.Position) -> Corners:
    points = (position.top_left, position.top_right, position.bottom_right, position.bottom_left)
    return tuple((float(p.x), float(p.y)) for p in points)


@cache
def zbar() -> Decoder | None:
    """A decoder over libzbar, or None where the library is not on this computer.

    pyzbar imports without it and fails only when its wrapper is loaded.
    """
    try:
        from pyzbar import pyzbar
    except ImportError:
        return None

    def decode(grey: np.ndarray) -> list[Decoded]:
        found = pyzbar.decode(grey, symbols=[pyzbar.ZBarSymbol.QRCODE])
        return [
            (f.data.decode("utf-8", "replace"), tuple((float(p.x), float(p.y)) for p in f.polygon))
            for f in found
            if len(f.polygon) == 4
        ]

    return decode
