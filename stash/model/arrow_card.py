"""The arrow card: laid on a cloth along its grain, it tells a photograph where the grain runs.

Coordinates are mm from the card's upper left corner; the arrow runs along x.
"""

from __future__ import annotations

from dataclasses import dataclass

from stash.model.outline import Point


@dataclass(frozen=True, kw_only=True)
class ArrowCard:
    """The card as data; its markers follow those of the tray in the tray's dictionary."""

    width_mm: float = 180.0
    height_mm: float = 44.0
    marker_mm: float = 20.0
    inset_mm: float = 5.0
    markers: int = 4
    first_id: int = 90
    dictionary: str = "DICT_5X5_100"

    def marker_corners(self, index: int) -> tuple[Point, Point, Point, Point]:
        """Corners of a marker, clockwise from its upper left."""
        pitch = (self.width_mm - 2 * self.inset_mm - self.marker_mm) / (self.markers - 1)
        left, top = self.inset_mm + index * pitch, self.inset_mm
        right, foot = left + self.marker_mm, top + self.marker_mm
        return (left, top), (right, top), (right, foot), (left, foot)


ARROW = ArrowCard()
