"""From photographs to the outlines in them: whatever stands out from the floor by the sheets."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.errors import InvalidInput
from stash.eye.floor.find_sheets import Array, find_sheets
from stash.eye.floor.joined_floors import JoinedFloors, Photographed, chained, fit_together
from stash.eye.floor.joined_plan import joined_plan
from stash.eye.floor.same_floor import by_floor
from stash.eye.floor.seen_floor import Floor, Straight, fit_floor
from stash.eye.floor.straightened import paper_at, straighten
from stash.eye.floor.upright import read_picture
from stash.eye.outlines.along_x import laid, onto_floor
from stash.eye.outlines.backdrop import Backdrop, backdrop
from stash.eye.outlines.edges import refined
from stash.eye.outlines.measure import Traced, found_edges, measured, outlined
from stash.eye.outlines.straight import straight_edges, straight_in_view
from stash.eye.paper_marks.drawn_on import PaperMarks, paper_marks
from stash.fact import Fact, fact
from stash.model import Outline
from stash.model.calibration import BOARD, CalibrationBoard

FLAT_PX = 1.0
MOST_PHOTOS = 12
PAPER_CELL_MM = 0.8  # of the picture that an outline on paper is corrected over


Along = Callable[[Outline], float]
BOARD_CORNERS = np.array([(0, 0), (BOARD.width_mm, 0), (BOARD.width_mm, BOARD.height_mm),
                          (0, BOARD.height_mm)], float)


@dataclass(frozen=True)
class Tracing:
    """The shapes of each floor, largest first, and sentences on what was left out.

    ``under`` are the photographs from above under each shape, laid as the caller asked;
    ``together`` the numbers, from 1, of those photographs that were put together; ``drawn``
    what is drawn on each shape, where it was laid.
    """

    shapes: tuple[Traced, ...]
    notes: tuple[Fact, ...]
    under: tuple[Backdrop, ...] = ()
    together: tuple[tuple[int, ...], ...] = ()
    drawn: tuple[PaperMarks, ...] = ()


def trace_photo(
    data: bytes, *, ruler_mm: float | None = None, along: Along | None = None
) -> Tracing:
    """As :func:`trace_photos`, of one photograph."""
    return trace_photos([data], ruler_mm=ruler_mm, along=along)


def trace_photos(
    photos: Sequence[bytes], *, ruler_mm: float | None = None, along: Along | None = None
) -> Tracing:
    """Every shape that stands out from the floor beside the printed calibration sheets.

    Photographs that share a sheet are put together and their shapes traced over all of them;
    others show shapes of their own. ``ruler_mm`` is what the sheet's printed ruler truly
    measures, when the printer changed the scale. ``along`` tells in degrees what shall run
    along x in ``under``. Raises InvalidInput when a photograph shows no sheet, nothing stands
    out, or a shape runs out of the photographs or onto a sheet.
    """
    scale = printed_scale(ruler_mm, BOARD)
    if len(photos) > MOST_PHOTOS:
        raise InvalidInput("too_many_photographs", most=MOST_PHOTOS, field="photo")
    views = [_photographed(data, scale, n, len(photos)) for n, data in enumerate(photos, 1)]
    floors = by_floor(views, BOARD_CORNERS, paper_corners(BOARD))
    found = [_apart(floor, [views[k] for k in floor], scale, along, len(photos))
             for floor in floors]
    notes = [note for tracing in found for note in tracing.notes]
    return Tracing(
        tuple(s for t in found for s in t.shapes), tuple(dict.fromkeys(notes)),
        tuple(u for t in found for u in t.under),
        tuple(tuple(k + 1 for k in floor) for floor in floors if len(floor) > 1),
        tuple(d for t in found for d in t.drawn))


def _apart(
    numbers: Sequence[int], views: Sequence[Photographed], scale: float, along: Along | None,
    photographs: int,
) -> Tracing:
    """The shapes of one floor; what runs out of a photograph that stands alone is told so."""
    try:
        return _of_floor(views, scale, along)
    except InvalidInput as error:
        if error.fact.kind == "piece_leaves_picture" and photographs > 1:
            raise InvalidInput("piece_leaves_its_photograph", number=numbers[0] + 1,
                               field="photo") from error
        raise


def _photographed(data: bytes, scale: float, number: int, of: int) -> Photographed:
    image = read_picture(data)
    try:
        sheets = find_sheets(cv2.cvtColor(image, cv2.COLOR_BGR2GRAY))
    except InvalidInput as error:
        if of > 1 and error.fact.kind in ("no_calibration_sheet", "too_little_of_sheet"):
            raise InvalidInput("no_sheet_in_photograph", number=number, field="photo") from error
        raise
    return Photographed(image, sheets, fit_floor(sheets, _size(image), scale))


def _size(image: NDArray[np.uint8]) -> tuple[int, int]:
    return image.shape[1], image.shape[0]


def _of_floor(views: Sequence[Photographed], scale: float, along: Along | None) -> Tracing:
    """The shapes of one floor, traced over all the photographs of it."""
    fitted = _fitted(views, scale)
    images = [view.image for view in views]
    papers = paper_at(fitted.sheets.values(), paper_corners(BOARD), scale)
    plan = (straighten(images[0], fitted.floors[0], papers) if len(views) == 1
            else joined_plan(images, fitted.floors, papers))
    edges, notes = found_edges(list(zip(images, fitted.floors, strict=True)), plan)
    straight = straight_edges if len(views) == 1 else straight_in_view
    better = _fitted(views, scale, [
        [line for rings in edges for line in straight(rings[0], floor)]
        for floor in fitted.floors])
    if len(views) == 1:
        shapes = [measured(rings, fitted.floors[0], better.floors[0]) for rings in edges]
    else:
        onto = list(zip(images, better.floors, strict=True))
        shapes = [outlined([refined(onto, ring)[0] for ring in rings], better.floors)
                  for rings in edges]
    if max(floor.residual_px for floor in fitted.floors) > FLAT_PX:
        notes.append(fact("sheet_not_flat"))
    seen = list(zip(images, better.floors, strict=True))
    below = [_under(seen, s.outline, along(s.outline)) for s in shapes] if along else []
    return Tracing(tuple(shapes), tuple(notes), tuple(under for under, _ in below),
                   drawn=tuple(marks for _, marks in below))


def _fitted(
    views: Sequence[Photographed], scale: float, straight: Sequence[Sequence[Straight]] = ()
) -> JoinedFloors:
    """The floor of one photograph, or those of several, and where the sheets lie."""
    if len(views) == 1:
        [view] = views
        floor = fit_floor(view.sheets, _size(view.image), scale, straight[0]) if straight \
            else view.floor
        return JoinedFloors((floor,), replace(view, floor=floor).poses())
    poses = chained([view.poses() for view in views], BOARD_CORNERS * scale)
    return fit_together(views, [p for p in poses if p is not None], scale, straight)


def _under(
    views: Sequence[tuple[NDArray[np.uint8], Floor]], outline: Outline, turn_deg: float
) -> tuple[Backdrop, PaperMarks]:
    """(what lies under a shape, what is drawn on it), both as it was laid."""
    flat, corner = laid(outline, turn_deg)
    shown = [(image, floor, onto_floor(turn_deg, corner)) for image, floor in views]
    size = flat.length_mm, flat.width_mm
    return backdrop(shown, size, PAPER_CELL_MM), paper_marks(shown, flat)


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
