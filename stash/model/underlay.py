"""The photograph that a traced piece lies over."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass

from stash.model.outline import Point

DIGITS = 20


@dataclass(frozen=True, kw_only=True)
class Underlay:
    """Which photograph lies under a piece, and where, mm in the piece's frame.

    ``corners_mm`` are its upper left, upper right and lower left corner; turned or moved with
    the piece, they always say how it lies.
    """

    photo: str
    corners_mm: tuple[Point, Point, Point]

    @property
    def middle_mm(self) -> Point:
        """Its middle."""
        _, (x0, y0), (x1, y1) = self.corners_mm
        return (x0 + x1) / 2, (y0 + y1) / 2


def photo_number(content: bytes) -> str:
    """What a photograph is called: a digest of its file."""
    return hashlib.sha256(content).hexdigest()[:DIGITS]
