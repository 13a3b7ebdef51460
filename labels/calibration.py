"""The calibration sheet on paper: the board that photographs are measured by, and a ruler."""

from __future__ import annotations

from functools import cache

import cv2
import numpy as np

from labels.canvas import Canvas
from labels.ruler import UNPRINTABLE_MM
from stash.errors import InvalidInput
from stash.model.calibration import BOARD, CalibrationBoard

PAPERS_MM = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
TOP_MM = 15.0
STEPS = (
    "Print at 100 %, never “fit to page”. Lay a true ruler against the one below.",
    "Lay the sheet flat beside the pieces, two fingers apart, on a floor of another colour.",
    "Photograph from above with floor showing all around; for large pieces lay several sheets.",
)
MARKER_CELLS = 6  # four cells of code within a dark rim


def calibration_sheet_pdf(
    numbers: tuple[int, ...] = (1,), paper: str = "a4", board: CalibrationBoard = BOARD
) -> bytes:
    """A PDF with one page for each sheet number, 1 to ``board.sheets``, all different.

    Two sheets in one photograph must have different numbers.
    """
    if paper not in PAPERS_MM:
        raise InvalidInput("no_such_paper", papers=tuple(PAPERS_MM), typed=paper, field="paper")
    if not numbers or not all(1 <= number <= board.sheets for number in numbers):
        raise InvalidInput("calibration_number", most=board.sheets, field="sheet")
    canvas = Canvas(PAPERS_MM[paper])
    canvas.set_title("Calibration sheet")
    for number in numbers:
        canvas.add_page()
        left = (PAPERS_MM[paper][0] - board.width_mm) / 2
        _board(canvas, board, number, left)
        _foot(canvas, board, number, left)
    return bytes(canvas.output())


def _board(canvas: Canvas, board: CalibrationBoard, number: int, left: float) -> None:
    """Dark squares, and in the light ones the markers of this sheet; one path, filled once."""
    side = board.square_mm
    boxes = [
        (left + column * side, TOP_MM + row * side, side, side)
        for row in range(board.rows)
        for column in range(board.columns)
        if (row + column) % 2 == 0
    ]
    for index in range(board.markers_per_sheet):
        (x, y), *_ = board.marker_corners(index)
        cell = board.marker_mm / MARKER_CELLS
        bits = _marker(board.dictionary, (number - 1) * board.markers_per_sheet + index)
        boxes += [
            (left + x + column * cell, TOP_MM + y + row * cell, cell, cell)
            for row, column in zip(*np.nonzero(bits == 0), strict=True)
        ]
    k, height = canvas.k, canvas.h
    path = " ".join(
        f"{x * k:.4f} {(height - y - h) * k:.4f} {w * k:.4f} {h * k:.4f} re" for x, y, w, h in boxes
    )
    canvas._out("q 0 g " + path + " f Q")


@cache
def _marker(dictionary: str, number: int) -> np.ndarray:
    """One marker a pixel a cell: 0 dark, 255 light."""
    words = cv2.aruco.getPredefinedDictionary(getattr(cv2.aruco, dictionary))
    return words.generateImageMarker(number, MARKER_CELLS)


def _foot(canvas: Canvas, board: CalibrationBoard, number: int, left: float) -> None:
    """The ruler, what to do, and the number of the sheet."""
    base = TOP_MM + board.height_mm + 9.0
    length = round(board.ruler_mm)
    canvas.rule(left, base, left + length, base, thick_mm=0.15)
    for mm in range(length + 1):
        tall = 3.2 if mm % 10 == 0 else 2.4 if mm % 5 == 0 else 1.5
        canvas.rule(left + mm, base, left + mm, base - tall, thick_mm=0.12)
        if mm % 10 == 0:
            _say(canvas, str(mm // 10), (left + mm - 0.8, base - 6.4), 6.5)
    _say(canvas, f"{length} mm", (left + length + 2, base - 3.4), 8, bold=True)
    _say(canvas, f"Calibration sheet {number}", (left, base + 2.0), 9, bold=True)
    room = canvas.h - UNPRINTABLE_MM - base - 6.5
    step = min(4.2, room / len(STEPS))
    for row, said in enumerate(STEPS):
        _say(canvas, said, (left, base + 6.5 + step * row), 7.5)


def _say(
    canvas: Canvas, text: str, at_mm: tuple[float, float], size_pt: float, bold: bool = False
) -> None:
    """One line of text. Its width is asked for first, since asking sets another letter size."""
    canvas.width_mm(text, size_pt, bold)
    canvas.words(text, at_mm, size_pt, bold)
