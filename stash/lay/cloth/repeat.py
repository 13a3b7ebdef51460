"""Repeats: where the print recurs, and about which lines it mirrors onto itself.

The lattice starts at (0, 0) of the opened-out cloth: a print recurs every
``lengthwise_mm`` along and ``crosswise_mm`` across; half-drop prints start half a
repeat later in every second column across.
"""

from __future__ import annotations

from math import remainder

from stash.lay.cloth.outlines import turned
from stash.model import Point, Repeat

PRINT_MM = 0.05  # as far as the first match point of a piece may be off the print
MATCH_MM = 0.5  # and the others, when the first lies on it


def placed(point: Point, turn_deg: float, mirrored: bool) -> Point:
    """A point of a piece after mirroring and turning about its origin."""
    x, y = point[0], -point[1] if mirrored else point[1]
    halves, rest = divmod(turn_deg % 360, 180)
    ((x, y),) = turned(((x, y),), rest)
    return (-x, -y) if halves else (x, y)


def off_lattice_mm(along_mm: float, across_mm: float, repeat: Repeat) -> float:
    """How far a step is from the nearest whole repeat, half-drop columns counted."""
    column = round(across_mm / repeat.crosswise_mm) if repeat.crosswise_mm else 0
    off_across = remainder(across_mm, repeat.crosswise_mm) if repeat.crosswise_mm else 0.0
    if not repeat.lengthwise_mm:
        return abs(off_across)
    drop = repeat.lengthwise_mm / 2 if repeat.half_drop and column % 2 else 0.0
    off_along = remainder(along_mm - drop, repeat.lengthwise_mm)
    return max(abs(off_across), abs(off_along))


def fold_steps_mm(repeat: Repeat | None) -> tuple[float, float]:
    """(along, across): the print mirrors onto itself about every line across the cloth at a
    multiple of the first, and along it at a multiple of the second; 0 where about any line."""
    if repeat is None:
        return 0.0, 0.0
    columns = 1 if repeat.half_drop else 2  # about a line between two, a drop would be off
    return (repeat.lengthwise_mm or 0.0) / 2, (repeat.crosswise_mm or 0.0) / columns
