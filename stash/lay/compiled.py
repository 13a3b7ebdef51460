"""Compiled kernels: machine code kept on disk (see ``kept``), so only the first search
ever waits for it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numba
from numba.core import cgutils, types
from numba.extending import intrinsic

from stash.lay import kept
from stash.lay.parts import PartCompiler

KEPT = kept.folder()
if KEPT is not None:
    numba.config.CACHE_DIR = str(KEPT)

_PART: dict[str, Any] = {"nogil": True}
if PartCompiler is not None:
    _PART |= {
        "pipeline_class": PartCompiler, "no_cpython_wrapper": True, "no_cfunc_wrapper": True
    }


def kernel(function: Callable) -> Callable:
    """Compile ``function``, which may be called from anywhere, without the interpreter lock,
    so that workers are threads.

    Arithmetic stays strict: which side of an edge a point lies on must come out the same
    wherever it is asked.
    """
    return numba.njit(cache=KEPT is not None, nogil=True)(function)


def inner(function: Callable) -> Callable:
    """A kernel that only kernels call: it is compiled into them, and not for itself."""
    return numba.njit(**_PART)(function)


def woven(function: Callable) -> Callable:
    """An inner kernel whose machine code becomes part of its callers'.

    A call would copy every field of every tuple of arrays, which costs more than most
    of these functions do.
    """
    return numba.njit(forceinline=True, **_PART)(function)


def alone(part: Any) -> Callable:
    """An inner kernel that may be called from anywhere, for tests and measurements."""
    return kernel(part.py_func)


@intrinsic
def lent(_typing, arrays):
    """Tuples of arrays and numbers without their counts of users, for the length of one call.

    Kernels count whoever looks at an array, with instructions that stop the processor and
    that cores fight over; the caller holds the arrays meanwhile, so nothing is lost.
    """

    def build(context, builder, signature, args):
        kinds = signature.args[0]
        fields = cgutils.unpack_tuple(builder, args[0])
        plain = [_uncounted(context, builder, k, f) for k, f in zip(kinds, fields, strict=True)]
        return context.make_tuple(builder, kinds, plain)

    return arrays(arrays), build


def _uncounted(context, builder, kind, value):
    if isinstance(kind, types.BaseTuple):
        fields = cgutils.unpack_tuple(builder, value)
        plain = [_uncounted(context, builder, k, f) for k, f in zip(kind, fields, strict=True)]
        return context.make_tuple(builder, kind, plain)
    if not isinstance(kind, types.Array):
        return value
    view = context.make_array(kind)(context, builder, value)
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
