"""Which of the eight masks a QR symbol is printed with: the one that disturbs readers least.

The penalty is that of ISO/IEC 18004, 7.8.3.1 (N1 = 3, N2 = 3, N3 = 40, N4 = 10), worked out
for all eight at once.
"""

from __future__ import annotations

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view
from numpy.typing import NDArray

Bits = NDArray[np.bool_]
Counts = NDArray[np.int64]

_FINDER_LIKE = (0b10111010000, 0b00001011101)
_BITS = 2 ** np.arange(10, -1, -1)


def penalties(symbols: Bits) -> Counts:
    """The penalty of each symbol; ``symbols[n, row, column]`` is True where dark."""
    lines = np.concatenate([symbols, symbols.transpose(0, 2, 1)], axis=1)
    return _runs(lines) + _blocks(symbols) + _finder_like(lines) + _balance(symbols)


def _runs(lines: Bits) -> Counts:
    """3 for five alike in a line and 1 for each further one."""
    dark = sliding_window_view(lines, 5, axis=2).sum(axis=3)
    alike = (dark == 0) | (dark == 5)
    begun = alike & ~np.pad(alike, ((0, 0), (0, 0), (1, 0)))[:, :, :-1]
    counted: Counts = alike.sum(axis=(1, 2)) + 2 * begun.sum(axis=(1, 2))
    return counted


def _blocks(symbols: Bits) -> Counts:
    dark = sliding_window_view(symbols, (2, 2), axis=(1, 2)).sum(axis=(3, 4))
    counted: Counts = 3 * ((dark == 0) | (dark == 4)).sum(axis=(1, 2))
    return counted


def _finder_like(lines: Bits) -> Counts:
    windows = sliding_window_view(lines, 11, axis=2) @ _BITS
    counted: Counts = 40 * np.isin(windows, _FINDER_LIKE).sum(axis=(1, 2))
    return counted


def _balance(symbols: Bits) -> Counts:
    percent = 100 * symbols.mean(axis=(1, 2))
    counted: Counts = 10 * (np.abs(percent - 50) // 5).astype(np.int64)
    return counted
