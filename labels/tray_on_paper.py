"""The tray on paper: a page to pour buttons on, so that a photograph counts and measures them."""

from __future__ import annotations

from labels.canvas import Canvas
from labels.printed import Cell, draw_greys, draw_ruler, fill, line, lines, marker_boxes, paper_mm
from stash.model.tray import TRAY, TrayBoard
from stash.sentences import METRIC, Reader

TOP_MM = {"a4": 8.0, "letter": 5.0}
STEPS = ("pour_on_tray", "photograph_tray_from_above")


def tray_pdf(paper: str = "a4", tray: TrayBoard = TRAY, reader: Reader = METRIC) -> bytes:
    """A PDF of one page."""
    page = paper_mm(paper)
    canvas = Canvas(page, reader)
    canvas.set_title(canvas.said("tray"))
    canvas.add_page()
    left, top = (page[0] - tray.width_mm) / 2, TOP_MM[paper]
    boxes = [box for index in range(len(tray.rim)) for box in _marker(tray, index, left, top)]
    fill(canvas, [*boxes, *_check(tray, left, top)])
    draw_greys(canvas, tray.grey_boxes, (left, top))
    base = top + tray.height_mm + tray.pitch_mm + 0.5
    if paper == "a4":
        draw_ruler(canvas, (left, base + 2.0), tray.ruler_mm)
        steps = [canvas.said(step) for step in STEPS]
        lines(canvas, canvas.said("tray"), steps, (left, base + 4.0))
    else:
        line(canvas, f"{canvas.said('tray')}. {canvas.said(STEPS[0])}", (left, base - 4.5), 6)
    return bytes(canvas.output())


def _marker(tray: TrayBoard, index: int, left: float, top: float) -> list[Cell]:
    (x, y), *_ = tray.marker_corners(index)
    return marker_boxes(tray.dictionary, index, (left + x, top + y), tray.marker_mm)


def _check(tray: TrayBoard, left: float, top: float) -> list[Cell]:
    """The dark squares of the check."""
    x0, y0, x1, y1 = tray.check_mm
    side = tray.square_mm
    rows, columns = round((y1 - y0) / side), round((x1 - x0) / side)
    return [
        (left + x0 + column * side, top + y0 + row * side, side, side)
        for row in range(rows)
        for column in range(columns)
        if (row + column) % 2 == 0
    ]
