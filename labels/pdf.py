"""Labels on paper: a PDF in true millimetres."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from labels.bin_front import draw_bin_front
from labels.canvas import Canvas
from labels.content import Label
from labels.face import Box, draw_face
from labels.place_front import draw_place_front
from labels.ruler import STRIP_MM, UNPRINTABLE_MM, draw_ruler, margin_strip
from labels.sheets import LabelSheet
from labels.tags import draw_fold_over, draw_hanging_tag
from stash.errors import InvalidInput
from stash.sentences import METRIC, Reader

MOST_LABELS = 10_000


class Layout(StrEnum):
    """What is drawn on each label."""

    PLAIN = "plain"
    HANGING_TAG = "hanging-tag"
    FOLD_OVER = "fold-over"
    BIN_FRONT = "bin-front"
    PLACE_FRONT = "place-front"


Draw = Callable[[Canvas, Label, Box, str | None], None]
_DRAW: dict[Layout, Draw] = {
    Layout.PLAIN: draw_face,
    Layout.HANGING_TAG: draw_hanging_tag,
    Layout.FOLD_OVER: draw_fold_over,
    Layout.BIN_FRONT: draw_bin_front,
    Layout.PLACE_FRONT: draw_place_front,
}


@dataclass(frozen=True, kw_only=True)
class Printing:
    """On what labels are printed and for whom: the sheet, its 1-based first free place, the layout.

    ``address`` is this instance's ``host:port`` for the symbols; without it, or where a
    label is too small for it, the symbol holds the bare code.
    """

    sheet: LabelSheet
    start: int = 1
    layout: Layout = Layout.PLAIN
    address: str | None = None
    reader: Reader = METRIC


def sheet_pdf(labels: Sequence[Label], printing: Printing) -> bytes:
    """A PDF of ``labels``.

    Each page has a ruler, in the margin if there is one, else at the foot of the first label.
    """
    if not labels:
        raise InvalidInput("nothing_to_print")
    if len(labels) > MOST_LABELS:
        raise InvalidInput("too_many_labels", most=MOST_LABELS)
    draw = _DRAW[printing.layout]
    with Canvas(printing.sheet.page_mm, printing.reader) as canvas:
        _draw_all(canvas, labels, printing, lambda label, box: draw(
            canvas, label, box, printing.address
        ))
        return bytes(canvas.output())


def _draw_all(
    canvas: Canvas,
    labels: Sequence[Label],
    printing: Printing,
    draw: Callable[[Label, Box], None],
) -> None:
    sheet = printing.sheet
    margin = margin_strip(sheet)
    page_open = -1
    for label, (page, position) in zip(
        labels, sheet.positions(len(labels), printing.start), strict=True
    ):
        box = _printable(Box(*sheet.corner_mm(position), *sheet.label_mm), sheet)
        if page != page_open:
            page_open = page
            canvas.add_page()
            box = _with_ruler(canvas, box, margin, first=page == 0)
        draw(label, box)


def _printable(box: Box, sheet: LabelSheet) -> Box:
    """What a desktop printer can print of a label; a roll's printer can print all of it."""
    if sheet.per_page == 1:
        return box
    left, top = max(box.x, UNPRINTABLE_MM), max(box.y, UNPRINTABLE_MM)
    right = min(box.x + box.width, sheet.page_mm[0] - UNPRINTABLE_MM)
    foot = min(box.y + box.height, sheet.page_mm[1] - UNPRINTABLE_MM)
    return Box(left, top, right - left, foot - top)


def _with_ruler(canvas: Canvas, box: Box, margin: Box | None, *, first: bool) -> Box:
    """Draw the ruler; the box that is left for the label."""
    if margin is not None:
        draw_ruler(canvas, margin)
        return box
    if not first:
        return box
    left = box.height - STRIP_MM
    draw_ruler(canvas, replace(box, y=box.y + left, height=STRIP_MM))
    return replace(box, height=left)
