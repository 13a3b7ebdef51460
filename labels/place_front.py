"""The label on a shelf, box or drawer: its name to be read across the room, its symbol close by."""

from __future__ import annotations

from labels.canvas import Canvas
from labels.content import Label
from labels.face import Box, choose_symbol, draw_face, draw_fitted, is_wide
from stash.fonts.document import POINT_MM, line_mm

LARGEST_NAME_PT = 40.0


def draw_place_front(canvas: Canvas, label: Label, box: Box, address: str | None) -> None:
    """The name as large as it fits, the symbol at the right edge, the code under the name.

    A tall label has the plain face.
    """
    if not is_wide(box):
        draw_face(canvas, label, box, address)
        return
    inner = box.inset(min(2.0, 0.06 * min(box.width, box.height)))
    side = min(inner.height, 0.42 * inner.width)
    symbol, module = choose_symbol(label.code, address, side)
    taken = module * symbol.side
    at = (inner.x + inner.width - taken, inner.y + (inner.height - taken) / 2)
    canvas.symbol(symbol, at, module)
    code_pt = max(5.0, min(12.0, inner.height / 6 / POINT_MM))
    words = Box(inner.x, inner.y, inner.width - taken - 1, inner.height - line_mm(code_pt))
    draw_fitted(canvas, label.name or label.code, words, (3, LARGEST_NAME_PT, True))
    canvas.words(label.code, (inner.x, inner.y + words.height), code_pt, bold=True)
