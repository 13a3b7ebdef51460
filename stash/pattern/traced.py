"""Paper pieces traced from photographs, as the pieces of a pattern."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from stash.errors import InvalidInput
from stash.eye.outlines.backdrop import Backdrop
from stash.eye.outlines.trace import Tracing, trace_photos
from stash.eye.paper_marks.drawn_on import PaperMarks
from stash.fact import fact
from stash.model import Outline
from stash.pattern.drawn import Drawn, Reading, longest_axis_deg, reading_of


def traced(photos: Sequence[bytes], ruler_mm: float | None) -> Tracing:
    """What photographs show, and what lies under each piece along its longest axis."""
    return trace_photos(photos, ruler_mm=ruler_mm,
                        along=lambda outline: longest_axis_deg(outline.ring_mm))


@dataclass(frozen=True)
class TracedOver:
    """Traced pieces: for each its error in mm, and the photograph from above that lies under it.

    What lies under them is only given where their grain was taken along the longest axis.
    ``together`` are the numbers of the photographs that were put together, one tuple a floor;
    ``drawn`` the notches and the grain arrow found on each piece, offered and not yet kept.
    """

    reading: Reading
    errors_mm: tuple[float, ...]
    under: tuple[Backdrop, ...]
    together: tuple[tuple[int, ...], ...] = ()
    drawn: tuple[PaperMarks, ...] = ()


def trace_pieces(
    photos: Sequence[bytes], *, ruler_mm: float | None = None, grain: str = "longest",
    trace: Callable[[Sequence[bytes], float | None], Tracing] = traced,
) -> tuple[Reading, tuple[float, ...]]:
    """As :func:`trace_over`: (the pieces, the error of each in mm)."""
    found = trace_over(photos, ruler_mm=ruler_mm, grain=grain, trace=trace)
    return found.reading, found.errors_mm


def trace_over(
    photos: Sequence[bytes], *, ruler_mm: float | None = None, grain: str = "longest",
    trace: Callable[[Sequence[bytes], float | None], Tracing] = traced,
) -> TracedOver:
    """The pieces of one or more photographs.

    ``grain`` "longest" takes the longest axis of each piece, "sheet" the long side of
    the first calibration sheet. ``trace`` reads the photographs. Pieces are
    named "piece", "piece 2" ... to be renamed.
    """
    if grain not in {"longest", "sheet"}:
        raise InvalidInput("grain_along_what", typed=grain)
    found = trace(photos, ruler_mm)
    drawn = []
    for shape in found.shapes:
        ring = shape.outline.ring_mm
        angle = -90.0 if grain == "sheet" else longest_axis_deg(ring)
        drawn.append(Drawn(name="piece", ring=ring, grain=_along(angle)))
    together = [fact("photographs_put_together", numbers=", ".join(map(str, numbers)))
                for numbers in found.together]
    reading = reading_of(drawn, 0.0, [*together, *found.notes])
    # How a piece lay on the floor means nothing, so its sizes are given as it stands upright.
    outlines = [Outline(piece.outline_mm) for piece in reading.pieces]
    sizes = tuple((o.width_mm, o.length_mm) for o in outlines)
    errors = tuple(shape.error_mm for shape in found.shapes)
    longest = grain == "longest"
    return TracedOver(replace(reading, drawn_mm=sizes), errors, found.under if longest else (),
                      found.together, found.drawn if longest else ())


def _along(angle_deg: float) -> tuple[tuple[float, float], tuple[float, float]]:
    turn = np.radians(angle_deg)
    return (0.0, 0.0), (float(np.cos(turn)), float(np.sin(turn)))
