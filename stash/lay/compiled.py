"""Compiled kernels: machine code kept on disk, so only the first search ever waits for it."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from pathlib import Path

import numba

_FAST = {"contract", "nsz", "arcp"}  # never "nnan": a stray NaN must stay visible


def kernel(function: Callable) -> Callable:
    """Compile ``function`` without the interpreter lock, so that workers are threads.

    The compiled code is stored beside the source, else in the user's cache folder;
    where neither can be written (a read-only install) a temporary folder serves.
    """
    try:
        return _compile(function)
    except RuntimeError:
        numba.config.CACHE_DIR = str(Path(tempfile.gettempdir()) / "lengthwise-compiled")
        return _compile(function)


def inlined(function: Callable) -> Callable:
    """A small helper of kernels, compiled into its callers."""
    return numba.njit(nogil=True, fastmath=_FAST, inline="always")(function)


def _compile(function: Callable) -> Callable:
    return numba.njit(cache=True, nogil=True, fastmath=_FAST)(function)
