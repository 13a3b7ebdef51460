"""Tags of card, cut out by hand: one hangs from a safety pin, one folds over a bolt's edge."""

from __future__ import annotations

from labels.canvas import GREY, Canvas
from labels.content import Label
from labels.face import Box, draw_face

HOLE_MM = 4.0
HOLE_STRIP_MM = 10.0
"""Kept free round the hole, so that a pin does not lie across the symbol or tear out."""


def draw_hanging_tag(canvas: Canvas, label: Label, box: Box, address: str | None) -> None:
    """A tag with a hole to punch at its narrow end; the face lies clear of the pin."""
    _cutting_line(canvas, box)
    if box.width >= box.height:
        hole = (box.x + HOLE_STRIP_MM / 2, box.y + box.height / 2)
        face = Box(box.x + HOLE_STRIP_MM, box.y, box.width - HOLE_STRIP_MM, box.height)
    else:
        hole = (box.x + box.width / 2, box.y + HOLE_STRIP_MM / 2)
        face = Box(box.x, box.y + HOLE_STRIP_MM, box.width, box.height - HOLE_STRIP_MM)
    _hole(canvas, *hole)
    draw_face(canvas, label, face, address)


def draw_fold_over(canvas: Canvas, label: Label, box: Box, address: str | None) -> None:
    """Two faces head to head: folded along the dashes, either side hangs the right way up."""
    _cutting_line(canvas, box)
    middle = box.y + box.height / 2
    canvas.set_dash_pattern(dash=1.5, gap=1.5)
    canvas.rule(box.x, middle, box.x + box.width, middle, thick_mm=0.15, grey=GREY)
    canvas.set_dash_pattern()
    front = Box(box.x, middle, box.width, box.height / 2)
    draw_face(canvas, label, front, address)
    with canvas.rotation(180, box.x + box.width / 2, middle):
        draw_face(canvas, label, front, address)


def _cutting_line(canvas: Canvas, box: Box) -> None:
    canvas.set_line_width(0.1)
    canvas.set_draw_color(GREY)
    canvas.rect(box.x, box.y, box.width, box.height)


def _hole(canvas: Canvas, x: float, y: float) -> None:
    canvas.set_line_width(0.15)
    canvas.set_draw_color(0)
    canvas.ellipse(x - HOLE_MM / 2, y - HOLE_MM / 2, HOLE_MM, HOLE_MM)
    for dx, dy in ((1, 0), (0, 1)):
        canvas.rule(x - dx, y - dy, x + dx, y + dy, thick_mm=0.1)
