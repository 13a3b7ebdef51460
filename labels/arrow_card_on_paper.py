"""The arrow card on paper: cut out, and laid on a cloth along its grain for a photograph."""

from __future__ import annotations

from labels.canvas import Canvas
from labels.printed import fill, line, marker_boxes, paper_mm
from stash.model.arrow_card import ARROW, ArrowCard
from stash.sentences import METRIC, Reader

TOP_MM = 20.0
HEAD_MM = 8.0
STEPS = ("cut_out_arrow_card", "lay_arrow_along_grain", "photograph_arrow_card")


def arrow_card_pdf(
    paper: str = "a4", card: ArrowCard = ARROW, reader: Reader = METRIC
) -> bytes:
    """A PDF of one page with one card."""
    page = paper_mm(paper)
    canvas = Canvas(page, reader)
    canvas.set_title(canvas.said("arrow_card"))
    canvas.add_page()
    left = (page[0] - card.width_mm) / 2
    right, foot = left + card.width_mm, TOP_MM + card.height_mm
    for ends in ((left, TOP_MM, right, TOP_MM), (right, TOP_MM, right, foot),
                 (right, foot, left, foot), (left, foot, left, TOP_MM)):
        canvas.rule(*ends, thick_mm=0.1, grey=150)
    fill(canvas, [
        box
        for index in range(card.markers)
        for (x, y) in card.marker_corners(index)[:1]
        for box in marker_boxes(
            card.dictionary, card.first_id + index, (left + x, TOP_MM + y), card.marker_mm)
    ])
    middle = TOP_MM + card.inset_mm + card.marker_mm + (
        card.height_mm - card.inset_mm - card.marker_mm) / 2
    tail, tip = left + card.inset_mm, right - card.inset_mm
    canvas.rule(tail, middle, tip, middle, thick_mm=0.8)
    for end, way in ((tail, 1), (tip, -1)):
        for side in (-1, 1):
            canvas.rule(end, middle, end + way * HEAD_MM, middle + side * HEAD_MM / 2, thick_mm=0.8)
    for row, step in enumerate(STEPS):
        line(canvas, canvas.said(step), (left, foot + 8 + 5 * row), 9)
    return bytes(canvas.output())
