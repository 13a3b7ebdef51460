"""The face of an ordinary label: the symbol, the words beside or under it, the code to type."""

from __future__ import annotations

from dataclasses import dataclass

from labels.canvas import GREY, Canvas, runs_right_to_left
from labels.content import Label, LabelKind
from labels.payload import compose
from labels.qr import Symbol, symbol
from labels.words_in_box import fit
from stash.errors import InvalidInput
from stash.fonts import printable
from stash.fonts.document import POINT_MM, line_mm
from stash.sentences.unbroken import NO_BREAK

DOT_MM = 25.4 / 300
"""Modules are whole dots of a 300 dpi printer, so their edges stay sharp."""
SMALLEST_ADDRESS_MODULE_MM = 0.5
SMALLEST_MODULE_MM = 0.3
LARGEST_MODULE_MM = 1.2
SMALLEST_PT = 4.5
READABLE_PT = 6.5
A_LINE_LESS = 0.85
"""One line less is worth letters this much smaller: what stands below has its room."""
FOR_DETAILS = 0.5
"""Of the room of the words, what the name leaves at most to size, fibre and place."""


@dataclass(frozen=True)
class Box:
    """A rectangle on the page, in mm from its top left corner."""

    x: float
    y: float
    width: float
    height: float

    def inset(self, by_mm: float) -> Box:
        """The box less a margin all round."""
        return Box(self.x + by_mm, self.y + by_mm, self.width - 2 * by_mm, self.height - 2 * by_mm)


def draw_face(canvas: Canvas, label: Label, box: Box, address: str | None) -> None:
    """Draw one label inside ``box``; nothing of it lies outside.

    Wide labels have the words to the right of the symbol, tall ones below it.
    """
    inner = box.inset(min(1.5, 0.05 * min(box.width, box.height)))
    wide = is_wide(inner)
    side = min(inner.height, 0.56 * inner.width) if wide else min(inner.width, 0.75 * inner.height)
    code_symbol, module = choose_symbol(label.code, address, side)
    taken = module * code_symbol.side
    if wide:
        at = (inner.x, inner.y + (inner.height - taken) / 2)
        words = Box(inner.x + taken + 0.5, inner.y, inner.width - taken - 0.5, inner.height)
    else:
        at = (inner.x + (inner.width - taken) / 2, inner.y)
        words = Box(inner.x, inner.y + taken, inner.width, inner.height - taken)
    canvas.symbol(code_symbol, at, module)
    draw_words(canvas, label, words)


def is_wide(box: Box) -> bool:
    """True when words have more room beside a symbol than below it."""
    return box.width >= 1.25 * box.height


def choose_symbol(code: str, address: str | None, side_mm: float) -> tuple[Symbol, float]:
    """The address where its modules stay readable by a phone, else the bare code.

    Returns the symbol and the module size, in whole printer dots, that fills ``side_mm``;
    InvalidInput when even the bare code would be too fine.
    """
    if address:
        addressed = symbol(compose(code, address))
        module = _whole_dots(side_mm / addressed.side)
        if module >= SMALLEST_ADDRESS_MODULE_MM:
            return addressed, module
    bare = symbol(compose(code, None))
    module = _whole_dots(side_mm / bare.side)
    if module < SMALLEST_MODULE_MM:
        raise InvalidInput("label_too_small", field="sheet")
    return bare, module


def draw_words(canvas: Canvas, label: Label, box: Box) -> None:
    """Name, size, fibre, place and care from the top down, the code at the foot."""
    code_pt = _size_for(canvas, label.code, box, largest=13.0)
    foot = box.y + box.height - line_mm(code_pt)
    canvas.words(label.code, (box.x, foot), code_pt, bold=True)
    room = Box(box.x, box.y, box.width, foot - box.y)
    if label.kind is LabelKind.BLANK:
        _writing_lines(canvas, room)
    else:
        _lines(canvas, label, room)


def _lines(canvas: Canvas, label: Label, room: Box) -> None:
    """The name as large as leaves size, fibre and place a line each; care while there is room."""
    most = 13.0 + max(0.0, room.height - 30.0) / 5
    name_pt = max(SMALLEST_PT, min(most, room.height / 3.2 / POINT_MM))
    wanted = sum(map(bool, (label.size, label.fibre, label.place)))
    kept_free = min(line_mm(READABLE_PT) * wanted, FOR_DETAILS * room.height)
    name = Box(room.x, room.y, room.width, max(line_mm(SMALLEST_PT), room.height - kept_free))
    y, detail_pt = room.y, min(0.7 * most, 0.8 * name_pt)
    if label.name:
        y += draw_fitted(canvas, label.name, name, (3, name_pt, True))[0]
    fibre = label.fibre.replace("% ", "%" + NO_BREAK)
    for text, lines in ((label.size, 1), (fibre, 2), (label.place, 1), (label.care, 2)):
        left = room.y + room.height - y
        if wanted > 1:  # a line of this size for each that is still to come
            detail_pt = max(SMALLEST_PT, min(detail_pt, left / wanted / line_mm(1.0)))
            left = max(left - (wanted - 1) * line_mm(detail_pt), line_mm(SMALLEST_PT))
        lines = min(lines, int((room.y + room.height - y + 1e-6) // line_mm(SMALLEST_PT)))
        if text and lines >= 1:
            used, detail_pt = draw_fitted(
                canvas, text, Box(room.x, y, room.width, left), (lines, detail_pt, False)
            )
            y += used
            wanted -= 1


def draw_fitted(
    canvas: Canvas, text: str, box: Box, style: tuple[int, float, bool]
) -> tuple[float, float]:
    """Words at the top of ``box`` in at most (lines, largest size in points, bold).

    Returns the height used and the size in points.
    """
    most, largest, bold = style
    rooms = [(n, max(SMALLEST_PT, min(largest, box.height / n / line_mm(1.0))))
             for n in range(1, most + 1) if n == 1 or n * line_mm(SMALLEST_PT) <= box.height + 1e-6]
    fitted = max((fit(printable(text), box.width, n, (pt, SMALLEST_PT),
                      lambda line: canvas.width_mm(line, 1.0, bold)) for n, pt in rooms),
                 key=lambda one: ("…" not in "".join(one.lines),
                                  one.size_pt * A_LINE_LESS ** len(one.lines)))
    for n, line in enumerate(fitted.lines):
        shift = box.width - canvas.width_mm(line, fitted.size_pt, bold)
        x = box.x + (max(0.0, shift) if runs_right_to_left(line) else 0.0)
        canvas.words(line, (x, box.y + n * line_mm(fitted.size_pt)), fitted.size_pt, bold)
    return len(fitted.lines) * line_mm(fitted.size_pt), fitted.size_pt


def _writing_lines(canvas: Canvas, room: Box) -> None:
    """Rules to write on by hand until the label is scanned and printed again."""
    count = min(3, int(room.height // 6))
    for n in range(count):
        y = room.y + (n + 1) * room.height / (count + 0.4)
        canvas.rule(room.x, y, room.x + room.width, y, thick_mm=0.15, grey=GREY)


def _size_for(canvas: Canvas, text: str, box: Box, largest: float) -> float:
    by_width = box.width / canvas.width_mm(text, 1.0, bold=True)
    by_height = 0.4 * box.height / line_mm(1.0)
    return min(largest, by_width, max(5.0, by_height))


def _whole_dots(module_mm: float) -> float:
    return min(LARGEST_MODULE_MM, max(1, int(module_mm / DOT_MM + 1e-9)) * DOT_MM)
