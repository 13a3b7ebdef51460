"""The printed tray: a page to pour buttons on, so that one photograph counts and measures them.

A rim of numbered markers gives scale and perspective; inside it lies a fine check, and
where the check cannot be seen, something lies on it. Coordinates are mm from the upper
left corner of the rim, x to the right and y down the page.
"""

from __future__ import annotations

from dataclasses import dataclass

from stash.model.calibration import INK_SHARES
from stash.model.outline import Point


@dataclass(frozen=True, kw_only=True)
class TrayBoard:
    """The tray as data: what is printed and what is looked for are the same numbers.

    Marker ``n`` of the OpenCV dictionary stands in the n-th cell of the rim in reading
    order. A square of the check is dark where (row + column) is even.
    """

    columns: int = 13
    rows: int = 17
    pitch_mm: float = 15.0
    marker_mm: float = 12.0
    square_mm: float = 1.0
    check_inset_mm: float = 16.0
    dictionary: str = "DICT_5X5_100"
    ruler_mm: float = 150.0

    @property
    def width_mm(self) -> float:
        """Across the rim."""
        return self.columns * self.pitch_mm

    @property
    def height_mm(self) -> float:
        """Down the rim."""
        return self.rows * self.pitch_mm

    @property
    def check_mm(self) -> tuple[float, float, float, float]:
        """(left, top, right, foot) of the check: what is poured must lie in here."""
        inset = self.check_inset_mm
        return inset, inset, self.width_mm - inset, self.height_mm - inset

    @property
    def rim(self) -> tuple[tuple[int, int], ...]:
        """(row, column) of each cell of the rim, in reading order."""
        return tuple(
            (r, c)
            for r in range(self.rows)
            for c in range(self.columns)
            if r in (0, self.rows - 1) or c in (0, self.columns - 1)
        )

    @property
    def grey_boxes(self) -> tuple[tuple[float, float, float, float], ...]:
        """(left, top, right, foot) of the five greys under the rim, bare paper first."""
        wide, top = self.width_mm / len(INK_SHARES), self.height_mm + 2.5
        return tuple((n * wide, top, (n + 1) * wide, top + 7) for n in range(len(INK_SHARES)))

    def marker_corners(self, index: int) -> tuple[Point, Point, Point, Point]:
        """Corners of a marker, clockwise from its upper left."""
        row, column = self.rim[index]
        inset = (self.pitch_mm - self.marker_mm) / 2
        left, top = column * self.pitch_mm + inset, row * self.pitch_mm + inset
        right, foot = left + self.marker_mm, top + self.marker_mm
        return (left, top), (right, top), (right, foot), (left, foot)


TRAY = TrayBoard()
