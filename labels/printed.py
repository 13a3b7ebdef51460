"""What the sheets for photographs share: papers, markers, greys, a ruler, and lines of text."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache

import cv2
import numpy as np

from labels.canvas import Canvas
from labels.ruler import UNPRINTABLE_MM
from stash.errors import InvalidInput
from stash.model.calibration import INK_SHARES

PAPERS_MM = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
DARK_RIM_CELLS = 2  # a cell of dark rim on either side of a marker's code
Cell = tuple[float, float, float, float]


def paper_mm(paper: str) -> tuple[float, float]:
    """The size of a paper by its name; InvalidInput for one that is not printed on."""
    if paper not in PAPERS_MM:
        raise InvalidInput("no_such_paper", papers=tuple(PAPERS_MM), typed=paper, field="paper")
    return PAPERS_MM[paper]


def marker_boxes(
    dictionary: str, number: int, at_mm: Sequence[float], side_mm: float
) -> list[Cell]:
    """The dark cells of a marker as (x, y, width, height), its upper left corner at ``at_mm``."""
    bits = _marker(dictionary, number)
    cell = side_mm / len(bits)
    return [
        (at_mm[0] + column * cell, at_mm[1] + row * cell, cell, cell)
        for row, column in zip(*np.nonzero(bits == 0), strict=True)
    ]


@cache
def _marker(dictionary: str, number: int) -> np.ndarray:
    """One marker a pixel a cell: 0 dark, 255 light."""
    words = cv2.aruco.getPredefinedDictionary(getattr(cv2.aruco, dictionary))
    return words.generateImageMarker(number, words.markerSize + DARK_RIM_CELLS)


def fill(canvas: Canvas, boxes: Iterable[Cell]) -> None:
    """Dark boxes as one path, filled once, so that no hairline shows between them."""
    k, height = canvas.k, canvas.h
    path = " ".join(
        f"{x * k:.4f} {(height - y - h) * k:.4f} {w * k:.4f} {h * k:.4f} re" for x, y, w, h in boxes
    )
    canvas._out("q 0 g " + path + " f Q")


def draw_greys(canvas: Canvas, boxes: Iterable[Cell], corner_mm: tuple[float, float]) -> None:
    """The five greys, given as (left, top, right, foot) from the corner of their board."""
    for (left, top, right, foot), ink in zip(boxes, INK_SHARES, strict=True):
        if ink:
            canvas.bar(corner_mm[0] + left, corner_mm[1] + top, right - left, foot - top,
                       grey=round(255 * (1 - ink)))


def draw_ruler(canvas: Canvas, at_mm: tuple[float, float], length_mm: float) -> None:
    """A ruler whose base line starts at a point, ticked every millimetre."""
    left, base = at_mm
    length = round(length_mm)
    canvas.rule(left, base, left + length, base, thick_mm=0.15)
    for mm in range(length + 1):
        tall = 3.2 if mm % 10 == 0 else 2.4 if mm % 5 == 0 else 1.5
        canvas.rule(left + mm, base, left + mm, base - tall, thick_mm=0.12)
        if mm % 10 == 0:
            line(canvas, str(mm // 10), (left + mm - 0.8, base - 6.4), 6.5)
    line(canvas, f"{length} mm", (left + length + 2, base - 3.4), 8, bold=True)


def lines(canvas: Canvas, title: str, said: Sequence[str], at_mm: tuple[float, float]) -> None:
    """A title and what to do, down to the edge that the printer can reach."""
    left, top = at_mm
    line(canvas, title, (left, top), 9, bold=True)
    room = canvas.h - UNPRINTABLE_MM - top - 4.5
    step = min(4.2, room / len(said))
    for row, words in enumerate(said):
        line(canvas, words, (left, top + 4.5 + step * row), 7.5)


def line(
    canvas: Canvas, text: str, at_mm: tuple[float, float], size_pt: float, bold: bool = False
) -> None:
    """One line of text. Its width is asked for first, since asking sets another letter size."""
    canvas.width_mm(text, size_pt, bold)
    canvas.words(text, at_mm, size_pt, bold)
