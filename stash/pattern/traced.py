"""Paper pieces traced from photographs, as the pieces of a pattern."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from stash.eye.outlines.backdrop import Backdrop
from stash.eye.outlines.trace import Tracing, trace_photos
from stash.eye.paper_marks.drawn_on import PaperMarks
from stash.fact import fact
from stash.model import Outline, Underlay
from stash.model.underlay import photo_number
from stash.pattern.drawn import UNNAMED, Drawn, Reading, longest_axis_deg, reading_of

SHEET_DEG = -90.0  # which way the long side of the first calibration sheet runs


def traced(photos: Sequence[bytes], ruler_mm: float | None) -> Tracing:
    """What photographs show, and what lies under each piece along its longest axis."""
    return trace_photos(photos, ruler_mm=ruler_mm,
                        along=lambda outline: longest_axis_deg(outline.ring_mm))


@dataclass(frozen=True)
class TracedOver:
    """Traced pieces, each along its longest axis, and for each its error in mm.

    ``under`` are the photographs from above that lie under them, where ``Piece.under`` says.
    ``together`` are the numbers of the photographs that were put together, one tuple a floor;
    ``drawn`` the notches and the grain arrow found on each piece, offered and not yet kept;
    ``sheet_deg`` how the long side of the first calibration sheet runs in each piece.
    """

    reading: Reading
    errors_mm: tuple[float, ...]
    under: tuple[Backdrop, ...]
    together: tuple[tuple[int, ...], ...] = ()
    drawn: tuple[PaperMarks, ...] = ()
    sheet_deg: tuple[float, ...] = ()


def trace_over(
    photos: Sequence[bytes], *, ruler_mm: float | None = None,
    trace: Callable[[Sequence[bytes], float | None], Tracing] = traced,
) -> TracedOver:
    """The pieces of one or more photographs; ``trace`` reads the photographs.

    Pieces are named "piece", "piece 2" ... to be renamed.
    """
    found = trace(photos, ruler_mm)
    angles = [longest_axis_deg(shape.outline.ring_mm) for shape in found.shapes]
    drawn = [Drawn(name=UNNAMED, ring=shape.outline.ring_mm, grain=_along(angle))
             for shape, angle in zip(found.shapes, angles, strict=True)]
    together = [fact("photographs_put_together", numbers=", ".join(map(str, numbers)))
                for numbers in found.together]
    reading = reading_of(drawn, 0.0, [*together, *found.notes])
    pieces = tuple(
        replace(piece, under=lies_under(under))
        for piece, under in zip(reading.pieces, found.under, strict=True))
    return TracedOver(
        upright_sizes(replace(reading, pieces=pieces)),
        tuple(shape.error_mm for shape in found.shapes), found.under, found.together, found.drawn,
        tuple(SHEET_DEG - angle for angle in angles))


def lies_under(backdrop: Backdrop) -> Underlay:
    """Which photograph it is and where its corners lie, in the frame of the outline."""
    left, low, wide, high = backdrop.box_mm
    return Underlay(photo=photo_number(backdrop.jpeg), corners_mm=(
        (left, low + high), (left + wide, low + high), (left, low)))


def upright_sizes(reading: Reading) -> Reading:
    """With the sizes of the pieces as they stand: how one lay on the floor means nothing."""
    outlines = [Outline(piece.outline_mm) for piece in reading.pieces]
    return replace(reading, drawn_mm=tuple((o.width_mm, o.length_mm) for o in outlines))


def _along(angle_deg: float) -> tuple[tuple[float, float], tuple[float, float]]:
    turn = np.radians(angle_deg)
    return (0.0, 0.0), (float(np.cos(turn)), float(np.sin(turn)))
