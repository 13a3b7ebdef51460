"""The calibration sheet on paper: the board that photographs are measured by, greys, a ruler."""

from __future__ import annotations

from labels.canvas import Canvas
from labels.printed import PAPERS_MM, draw_greys, draw_ruler, fill, lines, marker_boxes, paper_mm
from stash.errors import InvalidInput
from stash.model.calibration import BOARD, CalibrationBoard
from stash.sentences import METRIC, Reader

__all__ = ["PAPERS_MM", "calibration_sheet_pdf"]

TOP_MM = 15.0
STEPS = ("print_true_and_measure", "lay_sheet_beside", "photograph_sheet_from_above")


def calibration_sheet_pdf(
    numbers: tuple[int, ...] = (1,), paper: str = "a4", board: CalibrationBoard = BOARD,
    reader: Reader = METRIC,
) -> bytes:
    """A PDF with one page for each sheet number, 1 to ``board.sheets``, all different.

    Two sheets in one photograph must have different numbers.
    """
    page = paper_mm(paper)
    if not numbers or not all(1 <= number <= board.sheets for number in numbers):
        raise InvalidInput("calibration_number", most=board.sheets, field="sheet")
    canvas = Canvas(page, reader)
    canvas.set_title(canvas.said("calibration_sheets"))
    for number in numbers:
        canvas.add_page()
        left = (page[0] - board.width_mm) / 2
        draw_greys(canvas, board.grey_boxes, (left, TOP_MM))
        _board(canvas, board, number, left)
        base = TOP_MM + board.height_mm + 9.0
        draw_ruler(canvas, (left, base), board.ruler_mm)
        title = canvas.said("calibration_sheet", number=number)
        lines(canvas, title, [canvas.said(step) for step in STEPS], (left, base + 2.0))
    return bytes(canvas.output())


def _board(canvas: Canvas, board: CalibrationBoard, number: int, left: float) -> None:
    """Dark squares, and in the light ones the markers of this sheet."""
    side = board.square_mm
    boxes = [
        (left + column * side, TOP_MM + row * side, side, side)
        for row in range(board.rows)
        for column in range(board.columns)
        if (row + column) % 2 == 0
    ]
    first = (number - 1) * board.markers_per_sheet
    for index in range(board.markers_per_sheet):
        (x, y), *_ = board.marker_corners(index)
        boxes += marker_boxes(
            board.dictionary, first + index, (left + x, TOP_MM + y), board.marker_mm)
    fill(canvas, boxes)
