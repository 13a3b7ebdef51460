"""What is taken off a cut other than straight across: a corner, a strip, a hole, a notch.

One looks along the cloth from its near end (least x) to its far end, face up: the left
edge is that of the greatest y.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from stash.errors import Conflict, InvalidInput
from stash.ledger.shapes import from_polygon, polygon
from stash.ledger.whole import Whole
from stash.model import Outline

if TYPE_CHECKING:
    from shapely import Polygon
    from shapely.geometry.base import BaseGeometry

SLIVER_MM2 = 1.0
TOUCH_MM = 1e-6
BEYOND_MM = 1.0
"""A bite at an edge is cut this much further out, so that no thread of cloth stays there."""


class End(StrEnum):
    """The ends of a cut."""

    NEAR = "near"
    FAR = "far"


class LongSide(StrEnum):
    """The long sides of a cut."""

    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, kw_only=True)
class Bite:
    """A rectangle that is gone; a length or width of None reaches all along or all across.

    It lies at ``end`` and ``edge``; where one of them is None, it begins so far from the
    near end, or from the right edge.
    """

    length_mm: float | None = None
    width_mm: float | None = None
    end: End | None = None
    edge: LongSide | None = None
    from_near_mm: float = 0.0
    from_right_mm: float = 0.0


@dataclass(frozen=True, kw_only=True)
class Pieces:
    """So many equal pieces, cut side by side across the cloth, row behind row."""

    count: int
    length_mm: float
    width_mm: float

    @property
    def area_mm2(self) -> float:
        """Of all of them."""
        return self.count * self.length_mm * self.width_mm

    def bites(self, outline: Outline, end: End, edge: LongSide) -> tuple[Bite, ...]:
        """Full rows, and the row begun, from this end and edge; Conflict when it is too narrow."""
        in_row = int((outline.width_mm + TOUCH_MM) // self.width_mm) if self.width_mm > 0 else 0
        if not in_row or self.count < 1:
            raise Conflict("pieces_do_not_fit")
        rows, rest = divmod(self.count, in_row)
        found = []
        if rows:
            found.append(Bite(
                length_mm=rows * self.length_mm, width_mm=in_row * self.width_mm, end=end,
                edge=edge))
        if rest:
            before = rows * self.length_mm
            if end is End.FAR:
                before = outline.length_mm - before - self.length_mm
            found.append(Bite(
                length_mm=self.length_mm, width_mm=rest * self.width_mm, edge=edge,
                from_near_mm=max(before, 0.0)))
        return tuple(found)


def around(outline: Outline, kept: Whole) -> tuple[Bite, ...]:
    """What must go so that only this rectangle stays."""
    left, low, right, high = outline.bounds_mm
    ends = [Bite(length_mm=mm, end=end) for mm, end in (
        (kept.x_mm - left, End.NEAR), (right - kept.x_mm - kept.length_mm, End.FAR))
        if mm > TOUCH_MM]
    edges = [Bite(width_mm=mm, edge=edge) for mm, edge in (
        (kept.y_mm - low, LongSide.RIGHT), (high - kept.y_mm - kept.width_mm, LongSide.LEFT))
        if mm > TOUCH_MM]
    return (*ends, *edges)


def bitten(outline: Outline, bites: Iterable[Bite]) -> Outline:
    """The outline without the bites, in its own frame.

    InvalidInput when a bite takes nothing or leaves nothing, Conflict when the cloth
    would fall apart.
    """
    from shapely import Polygon, get_parts  # loaded with the first bite only

    rest: BaseGeometry = polygon(outline)
    for bite in bites:
        before = rest.area
        rest = rest.difference(_box(outline, bite))
        if before - rest.area <= SLIVER_MM2:
            raise InvalidInput("bite_takes_nothing", field="bite")
    parts = [p for p in get_parts(rest) if isinstance(p, Polygon) and p.area > SLIVER_MM2]
    if not parts:
        raise InvalidInput("bite_takes_all", field="bite")
    if len(parts) > 1:
        raise Conflict("piece_falls_apart")
    return from_polygon(parts[0])


def _box(outline: Outline, bite: Bite) -> Polygon:
    from shapely import box

    left, low, right, high = outline.bounds_mm
    _refuse_nothing(bite)
    along = _span(left, right, bite.length_mm, bite.from_near_mm,
                  at_start=bite.end is End.NEAR, at_stop=bite.end is End.FAR)
    across = _span(low, high, bite.width_mm, bite.from_right_mm,
                   at_start=bite.edge is LongSide.RIGHT, at_stop=bite.edge is LongSide.LEFT)
    return box(along[0], across[0], along[1], across[1])


def _span(
    start: float, stop: float, size: float | None, offset: float, *, at_start: bool, at_stop: bool
) -> tuple[float, float]:
    if size is None:
        return start - BEYOND_MM, stop + BEYOND_MM
    if at_start:
        return start - BEYOND_MM, start + size
    if at_stop:
        return stop - size, stop + BEYOND_MM
    return start + offset, start + offset + size


def _refuse_nothing(bite: Bite) -> None:
    sizes = [size for size in (bite.length_mm, bite.width_mm) if size is not None]
    if not sizes or min(sizes) <= 0 or min(bite.from_near_mm, bite.from_right_mm) < 0:
        raise InvalidInput("bite_has_no_size", field="bite")
