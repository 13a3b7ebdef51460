"""The front of a bin: what is inside drawn at its true size, to hold one against it."""

from __future__ import annotations

from labels.canvas import Canvas
from labels.content import Label
from labels.face import Box, choose_symbol, draw_face, draw_words, is_wide
from labels.notion_drawing import draw_notion

ROOM_FOR_DRAWING_MM = 30.0


def draw_bin_front(canvas: Canvas, label: Label, box: Box, address: str | None) -> None:
    """The drawing on the left, words in the middle, the symbol on the right.

    A label without a notion (or too narrow for a drawing) keeps its words and symbol; a
    tall label has the plain face.
    """
    if not is_wide(box):
        draw_face(canvas, label, box, address)
        return
    inner = box.inset(min(2.0, 0.06 * min(box.width, box.height)))
    symbol, module = choose_symbol(label.code, address, min(inner.height, 0.36 * inner.width))
    taken = module * symbol.side
    at = (inner.x + inner.width - taken, inner.y + (inner.height - taken) / 2)
    canvas.symbol(symbol, at, module)
    left = Box(inner.x, inner.y, inner.width - taken - 1, inner.height)
    drawn = 0.0
    if label.notion is not None and left.width >= ROOM_FOR_DRAWING_MM:
        room = Box(left.x, left.y, 0.45 * left.width, left.height)
        drawn = draw_notion(canvas, label.notion, room)
    words = Box(left.x + drawn, left.y, left.width - drawn, left.height)
    draw_words(canvas, label, words)
