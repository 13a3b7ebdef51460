"""Compiled kernels: machine code kept on disk, so only the first search ever waits for it."""

from __future__ import annotations

import hashlib
import tempfile
from collections.abc import Callable
from pathlib import Path

import numba
from numba.core import cgutils
from numba.extending import intrinsic
from platformdirs import user_cache_path


def kernel(function: Callable) -> Callable:
    """Compile ``function`` without the interpreter lock, so that workers are threads.

    Arithmetic stays strict: which side of an edge a point lies on must come out the same
    wherever it is asked.
    """
    return numba.njit(cache=True, nogil=True)(function)


def woven(function: Callable) -> Callable:
    """A kernel whose machine code becomes part of its callers'.

    A call would copy every field of every tuple of arrays, which costs more than most
    of these functions do.
    """
    return numba.njit(cache=True, nogil=True, forceinline=True)(function)


@intrinsic
def lent(_typing, arrays):
    """A tuple of arrays without their counts of users, for the length of one call.

    Kernels count whoever looks at an array, with instructions that stop the processor and
    that cores fight over; the caller holds the arrays meanwhile, so nothing is lost.
    """

    def build(context, builder, signature, args):
        kinds = signature.args[0]
        fields = cgutils.unpack_tuple(builder, args[0])
        plain = [_uncounted(context, builder, k, f) for k, f in zip(kinds, fields, strict=True)]
        return context.make_tuple(builder, kinds, plain)

    return arrays(arrays), build


def _uncounted(context, builder, kind, array):
    view = context.make_array(kind)(context, builder, array)
    view.meminfo = cgutils.get_null_value(view.meminfo.type)
    view.parent = cgutils.get_null_value(view.parent.type)
    return view._getvalue()


@intrinsic
def lowest_bit(_typing, bits):
    """The number of the lowest bit that is set in a word."""

    def build(context, builder, signature, args):
        return builder.cttz(args[0], cgutils.true_bit)

    return numba.int64(numba.uint64), build


def inlined(function: Callable) -> Callable:
    """A small helper of kernels, compiled into its callers."""
    return numba.njit(nogil=True, inline="always")(function)


def cache_folder() -> Path:
    """Where machine code is kept: a folder of its own for every state of the kernels.

    Kernels call each other across files, and an older copy of the program may still be
    running during an update, so the folder is named by what all their sources say. The
    user's cache folder, or a temporary one where that cannot be written.
    """
    said = hashlib.sha256()
    for source in sorted(Path(__file__).parent.rglob("*.py")):
        text = source.read_bytes()
        if b"lay.compiled" in text or source.name == Path(__file__).name:
            said.update(text)
    for base in (user_cache_path("lengthwise", appauthor=False), Path(tempfile.gettempdir())):
        folder = base / f"lays-{said.hexdigest()[:16]}"
        try:
            folder.mkdir(parents=True, exist_ok=True)
            (folder / "writable").touch()
        except OSError:
            continue
        return folder
    return Path(tempfile.mkdtemp())


if not numba.config.CACHE_DIR:
    numba.config.CACHE_DIR = str(cache_folder())
