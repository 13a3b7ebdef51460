"""What photographs show: paper pieces, and what is left of a cut.

Apart from the other acts, since OpenCV takes a while to load. Each photograph is read
through the door for foreign files.
"""

from __future__ import annotations

from collections.abc import Iterable

from stash.eye.outlines import remnant
from stash.eye.outlines.measure import Traced
from stash.eye.outlines.trace import Tracing
from stash.foreign import read_apart
from stash.foreign.limits import MEASURED
from stash.pattern import traced
from stash.pattern.drawn import Reading


def trace_pieces(
    photos: Iterable[bytes], *, ruler_mm: float | None = None, grain: str = "longest"
) -> tuple[Reading, tuple[float, ...]]:
    """(the pieces of one or more photographs, the error of each in mm)."""
    return traced.trace_pieces(photos, ruler_mm=ruler_mm, grain=grain, trace=_apart)


def trace_remnant(photo: bytes, *, ruler_mm: float | None = None) -> Traced:
    """The largest shape of a photograph, holes included."""
    return read_apart(MEASURED, _remnant, photo, ruler_mm)


def _apart(photo: bytes, ruler_mm: float | None) -> Tracing:
    return read_apart(MEASURED, traced.traced, photo, ruler_mm)


def _remnant(photo: bytes, ruler_mm: float | None) -> Traced:
    return remnant.trace_remnant(photo, ruler_mm=ruler_mm)
