"""What photographs show: paper pieces, and what is left of a cut.

Apart from the other acts, since OpenCV takes a while to load. Each photograph is read
through the door for foreign files.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from stash.eye.outlines import remnant
from stash.eye.outlines.backdrop import Backdrop
from stash.eye.outlines.remnant import Remnant
from stash.eye.outlines.trace import Tracing
from stash.foreign import read_apart
from stash.foreign.limits import MEASURED
from stash.pattern import traced
from stash.pattern.drawn import Reading
from stash.pattern.traced import TracedOver

__all__ = ["Backdrop"]


def trace_pieces(
    photos: Iterable[bytes], *, ruler_mm: float | None = None, grain: str = "longest"
) -> tuple[Reading, tuple[float, ...]]:
    """(the pieces of one or more photographs, the error of each in mm)."""
    return traced.trace_pieces(photos, ruler_mm=ruler_mm, grain=grain, trace=_apart)


def trace_over(photos: Iterable[bytes], *, ruler_mm: float | None = None) -> TracedOver:
    """The pieces of one or more photographs, each with the photograph that lies under it."""
    return traced.trace_over(photos, ruler_mm=ruler_mm, trace=_apart)


def trace_remnant(
    photos: bytes | Sequence[bytes], *, ruler_mm: float | None = None
) -> Remnant:
    """The largest shape of one or several photographs, its grain by the arrow card."""
    return read_apart(MEASURED, _remnant, photos, ruler_mm)


def _apart(photo: bytes, ruler_mm: float | None) -> Tracing:
    return read_apart(MEASURED, traced.traced, photo, ruler_mm)


def _remnant(photos: bytes | Sequence[bytes], ruler_mm: float | None) -> Remnant:
    return remnant.trace_remnant(photos, ruler_mm=ruler_mm)
