"""What photographs show: paper pieces, and what is left of a cut.

Apart from the other acts, since OpenCV takes a while to load. Each photograph is read
through the door for foreign files.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from stash.eye.outlines import remnant
from stash.eye.outlines.backdrop import Backdrop
from stash.eye.outlines.remnant import Remnant
from stash.eye.outlines.trace import Tracing
from stash.eye.paper_marks.drawn_on import PaperMarks
from stash.foreign import read_apart
from stash.foreign.limits import MEASURED, photographs
from stash.pattern import traced
from stash.pattern.drawn import Reading
from stash.pattern.kept_marks import GRAINS, as_kept, with_marks
from stash.pattern.traced import TracedOver

__all__ = ["GRAINS", "Backdrop", "PaperMarks", "TracedOver", "as_kept", "with_marks"]


def never() -> bool:
    """The stop rule of work that is waited for."""
    return False


def trace_pieces(
    photos: Sequence[bytes], *, ruler_mm: float | None = None, grain: str = "longest"
) -> tuple[Reading, tuple[float, ...]]:
    """(the pieces with their grain along x, the error of each in mm)."""
    found = trace_over(photos, ruler_mm=ruler_mm)
    return as_kept(found, grain), found.errors_mm


def trace_over(
    photos: Sequence[bytes], *, ruler_mm: float | None = None,
    stop: Callable[[], bool] = never,
) -> TracedOver:
    """The pieces of one or more photographs, those of one floor put together.

    Under each piece lie the photographs that show it.
    """
    def trace(contents: Sequence[bytes], ruler_mm: float | None) -> Tracing:
        return read_apart(
            photographs(len(contents)), traced.traced, contents, ruler_mm, stop=stop)

    return traced.trace_over(photos, ruler_mm=ruler_mm, trace=trace)


def trace_remnant(
    photos: bytes | Sequence[bytes], *, ruler_mm: float | None = None
) -> Remnant:
    """The largest shape of one or several photographs, its grain by the arrow card."""
    return read_apart(MEASURED, _remnant, photos, ruler_mm)


def _remnant(photos: bytes | Sequence[bytes], ruler_mm: float | None) -> Remnant:
    return remnant.trace_remnant(photos, ruler_mm=ruler_mm)
