"""Pieces on one sheet the full width of a roll, for a copy shop that prints A0."""

from __future__ import annotations

from collections.abc import Sequence

from stash.errors import InvalidInput
from stash.fonts import printable
from stash.fonts.document import FAMILY, Document
from stash.model import Pattern, Piece
from stash.pattern.arrange import Sheet, arrange
from stash.pattern.figure import draw_piece
from stash.pattern.lettering import Style, word
from stash.pattern.pieces_svg import INK, TEST_SQUARE_MM, line_of, pieces_of
from stash.pattern.print_pages import draw_figure, draw_test_square
from stash.sentences import METRIC, Reader

WIDTH_MM = 841.0  # A0, ISO 216
EDGE_MM = 15.0  # what a plotter may leave unprinted; common practice, no source
HEAD_MM = 80.0
LONGEST_MM = 5000.0  # a PDF page holds 200 in (5.08 m) at most


def full_sheet_pdf(
    pattern: Pattern | Sequence[Piece],
    *,
    title: str = "",
    reader: Reader = METRIC,
    drawn_on: str = "",
) -> bytes:
    """One page 841 mm wide and as long as the pieces need, all at full size."""
    says = line_of(pattern, title, drawn_on)
    pieces, title = pieces_of(pattern, title)
    style = Style(
        letter_mm=7.0, reader=reader, half_on_fold=True, dimensions=False, says=says,
        complete=True,
    )
    sheet = arrange(
        [draw_piece(p, style) for p in pieces], gap_mm=15.0, width_mm=WIDTH_MM - 2 * EDGE_MM
    )
    size = _size(sheet)
    with Document(size) as pdf:
        pdf.set_title(title or "Pattern pieces")
        pdf.add_page()
        _head(pdf, says, style)
        for figure in sheet.figures:
            draw_figure(pdf, figure.moved(EDGE_MM, EDGE_MM + HEAD_MM), style)
        return bytes(pdf.output())


def _size(sheet: Sheet) -> tuple[float, float]:
    width = max(WIDTH_MM, sheet.width_mm + 2 * EDGE_MM)
    long = sheet.height_mm + HEAD_MM + 2 * EDGE_MM
    if width > WIDTH_MM + 1e-6 or long > LONGEST_MM:
        raise InvalidInput("sheet_too_large", long_mm=long, most_mm=LONGEST_MM)
    return width, long


def _head(pdf: Document, says: str, style: Style) -> None:
    """The square to measure first, and what the sheet is."""
    draw_test_square(pdf, EDGE_MM, EDGE_MM, style)
    pdf.set_text_color(INK)
    pdf.set_font(FAMILY, "B", 28)
    named = says or word(style, "Pattern pieces")
    pdf.text(EDGE_MM + TEST_SQUARE_MM + 12, EDGE_MM + 18, printable(named))
    pdf.set_font(FAMILY, "", 14)
    pdf.text(
        EDGE_MM + TEST_SQUARE_MM + 12, EDGE_MM + 30,
        printable(word(style, "Print at 100 % (actual size), and measure the square first.")),
    )
