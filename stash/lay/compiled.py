"""Compiled kernels: machine code kept on disk (see ``kept``), so only the first search
ever waits for it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, ParamSpec, Protocol, TypeVar, cast

import numba
from numba.core import cgutils, types
from numba.extending import intrinsic

from stash.lay import kept
from stash.lay.parts import PartCompiler

KEPT = kept.folder()
if KEPT is not None:
    vars(numba.config)["CACHE_DIR"] = str(KEPT)
# The third level takes half a second longer for a first lay, and no search is faster by it.
_SETTINGS = vars(numba.config)
_SETTINGS["OPT"] = type(_SETTINGS["OPT"])(2)

_PART: dict[str, Any] = {"nogil": True}
if PartCompiler is not None:
    _PART |= {
        "pipeline_class": PartCompiler, "no_cpython_wrapper": True, "no_cfunc_wrapper": True
    }


_unpacked, _null = cast(Any, cgutils.unpack_tuple), cast(Any, cgutils.get_null_value)

P = ParamSpec("P")
R = TypeVar("R")
T = TypeVar("T")


class Kernel(Protocol[P, R]):
    """A compiled function."""

    __name__: str
    py_func: Callable[P, R]
    signatures: list[Any]

    def __call__(self, *args: P.args, **kwargs: P.kwargs) -> R:
        """Run it."""

    def compile(self, signature: tuple[Any, ...]) -> Any:
        """Compile it for arguments of these types, or fetch what was kept."""


def kernel(function: Callable[P, R]) -> Kernel[P, R]:
    """Compile ``function``, which may be called from anywhere, without the interpreter lock,
    so that workers are threads.

    Arithmetic stays strict: which side of an edge a point lies on must come out the same
    wherever it is asked.
    """
    return cast(Kernel[P, R], numba.njit(cache=KEPT is not None, nogil=True)(function))


def inner(function: Callable[P, R]) -> Kernel[P, R]:
    """A kernel that only kernels call: it is compiled into them, and not for itself."""
    return cast(Kernel[P, R], _once(numba.njit(**_PART)(function)))


def woven(function: Callable[P, R]) -> Kernel[P, R]:
    """An inner kernel whose machine code becomes part of its callers'.

    A call would copy every field of every tuple of arrays, which costs more than most
    of these functions do.
    """
    return cast(Kernel[P, R], _once(numba.njit(forceinline=True, **_PART)(function)))


def _once(part: Any) -> Any:
    """Ask for a part by kinds of numbers alone: where a caller begins with a written 0 and goes
    on with what it got, it would else be compiled for that very 0 first, to no use."""
    asked, plain = getattr(part, "get_call_template", None), cast(Any, types).unliteral
    if asked is None:  # a compiler that is built otherwise: it is compiled twice, and works
        return part

    def asked_plainly(args: Any, kws: Any) -> Any:
        return asked(tuple(map(plain, args)), {name: plain(kind) for name, kind in kws.items()})

    part.get_call_template = asked_plainly
    return part


def alone(part: Kernel[P, R]) -> Kernel[P, R]:
    """An inner kernel that may be called from anywhere, for tests and measurements."""
    return kernel(part.py_func)


@intrinsic
def _lent(_typing: Any, arrays: Any) -> Any:
    def build(context: Any, builder: Any, signature: Any, args: Any) -> Any:
        kinds = signature.args[0]
        fields = _unpacked(builder, args[0])
        plain = [_uncounted(context, builder, k, f) for k, f in zip(kinds, fields, strict=True)]
        return context.make_tuple(builder, kinds, plain)

    return arrays(arrays), build


def _uncounted(context: Any, builder: Any, kind: Any, value: Any) -> Any:
    if isinstance(kind, types.BaseTuple):
        pairs = zip(cast(Any, kind), _unpacked(builder, value), strict=True)
        plain = [_uncounted(context, builder, k, field) for k, field in pairs]
        return context.make_tuple(builder, kind, plain)
    if not isinstance(kind, types.Array):
        return value
    view = context.make_array(kind)(context, builder, value)
    view.meminfo = _null(view.meminfo.type)
    view.parent = _null(view.parent.type)
    return view._getvalue()


@intrinsic
def _lowest_bit(_typing: Any, bits: Any) -> Any:
    def build(context: Any, builder: Any, signature: Any, args: Any) -> Any:
        return builder.cttz(args[0], cgutils.true_bit)

    return numba.int64(numba.uint64), build


# What kernels call is the intrinsic itself; a type checker sees what it does.
if TYPE_CHECKING:
    def lent(arrays: T) -> T:
        """Tuples of arrays and numbers without their counts of users, for the length of one call.

        Kernels count whoever looks at an array, with instructions that stop the processor and
        that cores fight over; the caller holds the arrays meanwhile, so nothing is lost.
        """

    def lowest_bit(bits: Any) -> int:
        """The number of the lowest bit that is set in a word."""
else:
    lent, lowest_bit = _lent, _lowest_bit


def inlined(function: Callable[P, R]) -> Kernel[P, R]:
    """A small helper of kernels, compiled into its callers."""
    return cast(Kernel[P, R], numba.njit(nogil=True, inline="always")(function))
