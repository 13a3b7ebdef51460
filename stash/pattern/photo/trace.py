"""From a photograph to outlines in millimetres: paper pieces, or a remnant of cloth."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import cv2
import numpy as np

from stash.errors import InvalidInput
from stash.model import Outline
from stash.model.calibration import BOARD, CalibrationBoard
from stash.pattern.drawn import Drawn, Reading, longest_axis_deg, reading_of
from stash.pattern.photo.floor import fit_floor
from stash.pattern.photo.measure import Traced, found_edges, measured
from stash.pattern.photo.picture import read_picture
from stash.pattern.photo.plan import paper_on_floor, straighten
from stash.pattern.photo.sheets import Array, find_sheets
from stash.pattern.photo.straight import straight_edges

FLAT_PX = 1.0


@dataclass(frozen=True)
class Tracing:
    """The shapes of one photograph, largest first, and sentences on what was left out."""

    shapes: tuple[Traced, ...]
    notes: tuple[str, ...]


def trace_photo(
    data: bytes, *, ruler_mm: float | None = None, board: CalibrationBoard = BOARD
) -> Tracing:
    """Every shape that stands out from the floor beside the printed calibration sheets.

    ``ruler_mm`` is what the sheet's printed ruler truly measures, when the printer
    changed the scale. Raises InvalidInput when no sheet is found, nothing stands out,
    or a shape runs out of the picture or onto a sheet.
    """
    scale = _scale(ruler_mm, board)
    image = read_picture(data)
    sheets = find_sheets(cv2.cvtColor(image, cv2.COLOR_BGR2GRAY), board)
    floor = fit_floor(sheets, (image.shape[1], image.shape[0]), scale)
    paper = paper_on_floor(floor, len(sheets), paper_corners(board), scale)
    plan = straighten(image, floor, paper)
    edges, notes = found_edges(image, floor, plan)
    straight = [line for rings in edges for line in straight_edges(rings[0], floor)]
    better = fit_floor(sheets, (image.shape[1], image.shape[0]), scale, straight)
    shapes = [measured(rings, floor, better) for rings in edges]
    if floor.residual_px > FLAT_PX:
        notes.append("The calibration sheet seems not to lie flat, so sizes are less certain.")
    return Tracing(tuple(shapes), tuple(dict.fromkeys(notes)))


def trace_pieces(
    photos: Sequence[bytes], *, ruler_mm: float | None = None, grain: str = "longest"
) -> tuple[Reading, tuple[float, ...]]:
    """(the pieces of one or more photographs, the error of each in mm).

    ``grain`` "longest" takes the longest axis of each piece, "sheet" the long side of
    the first calibration sheet. Pieces are named "piece", "piece 2" ... to be renamed.
    """
    if grain not in {"longest", "sheet"}:
        raise InvalidInput(f"The grain runs along the longest axis or the sheet, not “{grain}”.")
    tracings = [trace_photo(data, ruler_mm=ruler_mm) for data in photos]
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


def trace_remnant(data: bytes, *, ruler_mm: float | None = None) -> Traced:
    """The largest shape, holes included, laid with its longest axis along x from (0, 0)."""
    largest = trace_photo(data, ruler_mm=ruler_mm).shapes[0]
    turn = np.radians(-longest_axis_deg(largest.outline.ring_mm))
    spin = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    rings = [np.array(r) @ spin for r in (largest.outline.ring_mm, *largest.outline.holes_mm)]
    corner = rings[0].min(axis=0)
    moved = [tuple((float(x), float(y)) for x, y in ring - corner) for ring in rings]
    return Traced(Outline(moved[0], tuple(moved[1:])), largest.error_mm)


def paper_corners(board: CalibrationBoard) -> Array:
    """The paper a board may be printed on (A4 or Letter), generously, as seen from the board."""
    side, top, foot = 21.0, 16.0, board.paper_margin_mm
    right, low = board.width_mm + side, board.height_mm + foot
    return np.array([(-side, -top), (right, -top), (right, low), (-side, low)])


def _scale(ruler_mm: float | None, board: CalibrationBoard) -> float:
    scale = 1.0 if ruler_mm is None else ruler_mm / board.ruler_mm
    if not 0.8 <= scale <= 1.25:
        raise InvalidInput(
            f"The printed ruler measures {board.ruler_mm:.0f} mm when printed at full size; "
            f"{ruler_mm:.0f} mm is too far from that, please measure it again.",
            field="ruler",
        )
    return scale


def _along(angle_deg: float) -> tuple[tuple[float, float], tuple[float, float]]:
    turn = np.radians(angle_deg)
    return (0.0, 0.0), (float(np.cos(turn)), float(np.sin(turn)))
