"""From one photograph to the outlines in it: whatever stands out from the floor by the sheets."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.errors import InvalidInput
from stash.eye.floor.find_sheets import Array, find_sheets
from stash.eye.floor.seen_floor import Floor, fit_floor
from stash.eye.floor.straightened import paper_on_floor, straighten
from stash.eye.floor.upright import read_picture
from stash.eye.outlines.along_x import laid, onto_floor
from stash.eye.outlines.backdrop import Backdrop, backdrop
from stash.eye.outlines.measure import Traced, found_edges, measured
from stash.eye.outlines.straight import straight_edges
from stash.model import Outline
from stash.model.calibration import BOARD, CalibrationBoard

FLAT_PX = 1.0
PAPER_CELL_MM = 0.8  # of the picture that an outline on paper is corrected over


@dataclass(frozen=True)
class Tracing:
    """The shapes of one photograph, largest first, and sentences on what was left out.

    ``under`` are the photograph from above under each shape, laid as the caller asked.
    """

    shapes: tuple[Traced, ...]
    notes: tuple[str, ...]
    under: tuple[Backdrop, ...] = ()


def trace_photo(
    data: bytes, *, ruler_mm: float | None = None, board: CalibrationBoard = BOARD,
    along: Callable[[Outline], float] | None = None,
) -> Tracing:
    """Every shape that stands out from the floor beside the printed calibration sheets.

    ``ruler_mm`` is what the sheet's printed ruler truly measures, when the printer
    changed the scale. ``along`` tells in degrees what shall run along x in ``under``.
    Raises InvalidInput when no sheet is found, nothing stands out, or a shape runs out of
    the picture or onto a sheet.
    """
    scale = printed_scale(ruler_mm, board)
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
    under = tuple(_under(image, better, s.outline, along(s.outline)) for s in shapes
                  ) if along else ()
    return Tracing(tuple(shapes), tuple(dict.fromkeys(notes)), under)


def _under(image: NDArray[np.uint8], floor: Floor, outline: Outline, turn_deg: float) -> Backdrop:
    flat, corner = laid(outline, turn_deg)
    view = (image, floor, onto_floor(turn_deg, corner))
    return backdrop([view], (flat.length_mm, flat.width_mm), PAPER_CELL_MM)


def paper_corners(board: CalibrationBoard) -> Array:
    """The paper a board may be printed on (A4 or Letter), generously, as seen from the board."""
    side, top, foot = 21.0, 16.0, board.paper_margin_mm
    right, low = board.width_mm + side, board.height_mm + foot
    return np.array([(-side, -top), (right, -top), (right, low), (-side, low)])


def printed_scale(ruler_mm: float | None, board: CalibrationBoard) -> float:
    """How large the sheet came out of the printer, 1 at full size."""
    scale = 1.0 if ruler_mm is None else ruler_mm / board.ruler_mm
    if not 0.8 <= scale <= 1.25:
        raise InvalidInput(
            "ruler_far_off", true_ruler_mm=board.ruler_mm, ruler_mm=ruler_mm, field="ruler")
    return scale
