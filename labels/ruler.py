"""A ruler on the printed sheet: lay a real one against it to see whether the printer scaled."""

from __future__ import annotations

from labels.canvas import Canvas
from labels.face import Box
from labels.sheets import LabelSheet

STRIP_MM = 6.0
LENGTHS_MM = (100, 50, 20, 10)
UNPRINTABLE_MM = 4.0
"""Most desktop printers leave this much of the page's edge blank (common practice, no source)."""


def margin_strip(sheet: LabelSheet) -> Box | None:
    """Room for the ruler in the sheet's own margin, or None when the labels fill the page."""
    foot = sheet.corner_mm(sheet.per_page - 1)[1] + sheet.label_mm[1]
    width = sheet.page_mm[0] - 2 * UNPRINTABLE_MM
    top = sheet.corner_mm(0)[1]
    if top >= UNPRINTABLE_MM + STRIP_MM:
        return Box(UNPRINTABLE_MM, top - STRIP_MM, width, STRIP_MM)
    if sheet.page_mm[1] - foot >= UNPRINTABLE_MM + STRIP_MM:
        return Box(UNPRINTABLE_MM, foot, width, STRIP_MM)
    return None


def draw_ruler(canvas: Canvas, strip: Box) -> None:
    """The longest of 100, 50, 20 or 10 mm that the strip holds, ticked every millimetre."""
    length = next((n for n in LENGTHS_MM if n + 4 <= strip.width), LENGTHS_MM[-1])
    left = strip.x + (strip.width - length) / 2
    base = strip.y + 3.2
    canvas.rule(left, base, left + length, base, thick_mm=0.1)
    for mm in range(length + 1):
        tall = 2.6 if mm % 10 == 0 else 1.9 if mm % 5 == 0 else 1.2
        canvas.rule(left + mm, base, left + mm, base - tall, thick_mm=0.1)
    words = canvas.said("ruler_on_sheet", ruler_length=f"{length} mm")
    size = 5.0
    if canvas.width_mm(words, size) > strip.width:
        words = f"{length} mm"
    middle = strip.x + (strip.width - canvas.width_mm(words, size)) / 2
    canvas.words(words, (middle, base + 0.3), size)
