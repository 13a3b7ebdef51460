"""Where buttons and their holes go on a front, from the respacing of its closure."""

from __future__ import annotations

from stash.model import Closure, Mark, MarkKind, Point
from stash.notions.buttons import buttonhole_mm, respace

BEYOND_MM = 3.0  # a hole starts 1/8 in beyond the centre line (common practice, no source)


def button_marks(
    closure: Closure, count: int, diameter_mm: float, top: Point, *, across: bool = True
) -> tuple[Mark, ...]:
    """Buttons on the centre line below ``top``, and their holes.

    Both are marked on the one pattern of both fronts. A hole lies across the front, towards
    the body from just beyond the centre line, or along it where a narrow placket asks for it.
    """
    long = buttonhole_mm(diameter_mm)
    marks: list[Mark] = []
    for down in respace(closure, count):
        x, y = top[0] + down, top[1]
        hole = (
            ((x, y - BEYOND_MM), (x, y - BEYOND_MM + long)) if across
            else ((x - BEYOND_MM, y), (x - BEYOND_MM + long, y))
        )
        marks += [Mark(MarkKind.BUTTON, ((x, y),)), Mark(MarkKind.BUTTONHOLE, hole)]
    return tuple(marks)
