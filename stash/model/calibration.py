"""The printed calibration sheet: a chequered board with a numbered marker in each light square.

A photograph shows it beside paper pieces; its corners give scale and perspective.
The board fits A4 and US Letter with room for a ruler. Coordinates are mm from the
board's upper left corner, x to the right and y down the sheet.
"""

from __future__ import annotations

from dataclasses import dataclass

from stash.model.outline import Point

INK_SHARES = (0.0, 0.25, 0.5, 0.75, 1.0)
"""Black ink on the five greys that are printed beside the board and the tray."""


@dataclass(frozen=True, kw_only=True)
class CalibrationBoard:
    """The board as data: what is printed and what is looked for are the same numbers.

    Light squares (odd row + column) carry the markers of one sheet in reading order;
    sheet ``n`` (from 1) uses the next ``markers_per_sheet`` ids of the OpenCV
    dictionary, so that several sheets can lie in one photograph.
    """

    columns: int = 7
    rows: int = 9
    square_mm: float = 25.0
    marker_mm: float = 18.0
    dictionary: str = "DICT_4X4_250"
    sheets: int = 8
    ruler_mm: float = 150.0
    paper_margin_mm: float = 60.0

    @property
    def width_mm(self) -> float:
        """Across the printed board."""
        return self.columns * self.square_mm

    @property
    def height_mm(self) -> float:
        """Down the printed board."""
        return self.rows * self.square_mm

    @property
    def light_squares(self) -> tuple[tuple[int, int], ...]:
        """(row, column) of each square that carries a marker, in reading order."""
        return tuple(
            (r, c) for r in range(self.rows) for c in range(self.columns) if (r + c) % 2
        )

    @property
    def markers_per_sheet(self) -> int:
        """How many ids one sheet takes."""
        return len(self.light_squares)

    def marker_corners(self, index: int) -> tuple[Point, Point, Point, Point]:
        """Corners of the marker in the index-th light square, clockwise from its upper left."""
        row, column = self.light_squares[index]
        inset = (self.square_mm - self.marker_mm) / 2
        left, top = column * self.square_mm + inset, row * self.square_mm + inset
        right, foot = left + self.marker_mm, top + self.marker_mm
        return (left, top), (right, top), (right, foot), (left, foot)

    @property
    def grey_boxes(self) -> tuple[tuple[float, float, float, float], ...]:
        """(left, top, right, foot) of the five greys over the board, bare paper first."""
        wide = self.width_mm / len(INK_SHARES)
        return tuple((n * wide, -10.5, (n + 1) * wide, -3.5) for n in range(len(INK_SHARES)))

    @property
    def inner_corners(self) -> tuple[Point, ...]:
        """Where four squares meet: the points that a photograph shows most exactly."""
        return tuple(
            (c * self.square_mm, r * self.square_mm)
            for r in range(1, self.rows)
            for c in range(1, self.columns)
        )


BOARD = CalibrationBoard()
