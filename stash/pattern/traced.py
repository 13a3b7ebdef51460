"""Paper pieces traced from photographs, as the pieces of a pattern."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

import numpy as np

from stash.errors import InvalidInput
from stash.eye.outlines.trace import Tracing, trace_photo
from stash.model import Outline
from stash.pattern.drawn import Drawn, Reading, longest_axis_deg, reading_of


def traced(photo: bytes, ruler_mm: float | None) -> Tracing:
    """What one photograph shows."""
    return trace_photo(photo, ruler_mm=ruler_mm)


def trace_pieces(
    photos: Iterable[bytes], *, ruler_mm: float | None = None, grain: str = "longest",
    trace: Callable[[bytes, float | None], Tracing] = traced,
) -> tuple[Reading, tuple[float, ...]]:
    """(the pieces of one or more photographs, the error of each in mm).

    ``grain`` "longest" takes the longest axis of each piece, "sheet" the long side of
    the first calibration sheet. ``trace`` reads one photograph. Pieces are
    named "piece", "piece 2" ... to be renamed.
    """
    if grain not in {"longest", "sheet"}:
        raise InvalidInput("grain_along_what", typed=grain)
    tracings = [trace(data, ruler_mm) for data in photos]
    drawn, errors = [], []
    for shape in (s for t in tracings for s in t.shapes):
        ring = shape.outline.ring_mm
        angle = -90.0 if grain == "sheet" else longest_axis_deg(ring)
        drawn.append(Drawn(name="piece", ring=ring, grain=_along(angle)))
        errors.append(shape.error_mm)
    notes = [note for t in tracings for note in t.notes]
    reading = reading_of(drawn, 0.0, notes)
    # How a piece lay on the floor means nothing, so its sizes are given as it stands upright.
    outlines = [Outline(piece.outline_mm) for piece in reading.pieces]
    sizes = tuple((o.width_mm, o.length_mm) for o in outlines)
    return replace(reading, drawn_mm=sizes), tuple(errors)


def _along(angle_deg: float) -> tuple[tuple[float, float], tuple[float, float]]:
    turn = np.radians(angle_deg)
    return (0.0, 0.0), (float(np.cos(turn)), float(np.sin(turn)))
