"""Pieces on one sheet the full width of a roll, for a copy shop that prints A0."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stash.errors import InvalidInput
from stash.fonts import printable
from stash.fonts.document import FAMILY, Document
from stash.model import Pattern, Piece
from stash.pattern.arrange import Sheet, arrange
from stash.pattern.figure import draw_piece
from stash.pattern.lettering import Style, cutting_words, word
from stash.pattern.pieces_svg import INK, TEST_SQUARE_MM, line_of, pieces_of
from stash.pattern.print_pages import draw_figure, draw_test_square
from stash.pattern.seam_list import seam_lines
from stash.sentences import METRIC, Reader
from stash.sentences.saying import piece_named

WIDTH_MM = 841.0  # A0, ISO 216
EDGE_MM = 15.0  # what a plotter may leave unprinted; common practice, no source
HEAD_MM = 80.0
LISTS_MM = (EDGE_MM + TEST_SQUARE_MM + 12, 310.0, 570.0)  # where the three columns begin
LISTS_TOP_MM, ROW_MM, LEAST_ROWS = 42.0, 5.2, 6
LONGEST_MM = 5000.0  # a PDF page holds 200 in (5.08 m) at most


def full_sheet_pdf(
    pattern: Pattern | Sequence[Piece],
    *,
    title: str = "",
    reader: Reader = METRIC,
    drawn_on: str = "",
) -> bytes:
    """One page 841 mm wide and as long as the pieces need, all at full size."""
    says = line_of(pattern, title, drawn_on, reader)
    pieces, title = pieces_of(pattern, title, reader)
    style = Style(
        letter_mm=7.0, reader=reader, half_on_fold=True, dimensions=False, says=says,
        complete=True,
    )
    sheet = arrange(
        [draw_piece(p, style) for p in pieces], gap_mm=15.0, width_mm=WIDTH_MM - 2 * EDGE_MM
    )
    head = _Head(says, _listed(pieces, style), _sewn(pattern, style))
    size = _size(sheet, head.tall_mm)
    with Document(size) as pdf:
        pdf.set_title(title or "Pattern pieces")
        pdf.add_page()
        _draw_head(pdf, head, style)
        for figure in sheet.figures:
            draw_figure(pdf, figure.moved(EDGE_MM, EDGE_MM + head.tall_mm), style)
        return bytes(pdf.output())


@dataclass(frozen=True)
class _Head:
    """What the sheet says above the pieces: its title, the pieces in order, the seams in order."""

    title: str
    pieces: list[str]
    sewn: list[str]

    @property
    def columns(self) -> list[tuple[float, list[str]]]:
        """Lines and where their column begins: the pieces, then the seams in two columns."""
        first, *seams = self.sewn or [""]
        half = max(LEAST_ROWS, (len(seams) + 1) // 2)
        return [(LISTS_MM[0], self.pieces), (LISTS_MM[1], [first, *seams[:half]]),
                (LISTS_MM[2], ["", *seams[half:]])]

    @property
    def tall_mm(self) -> float:
        """From the edge down to the pieces."""
        rows = max(len(lines) for _, lines in self.columns)
        return max(HEAD_MM, LISTS_TOP_MM + ROW_MM * rows + 10)


def _listed(pieces: Sequence[Piece], style: Style) -> list[str]:
    """The pieces, numbered: what each is, and how it is cut."""
    lines = [
        f"{n}. {piece_named(piece.name, style.reader)}, "
        + ", ".join(cutting_words(piece, style.reader))
        for n, piece in enumerate(pieces, 1)]
    return [word(style, "Pattern pieces"), *lines]


def _sewn(pattern: Pattern | Sequence[Piece], style: Style) -> list[str]:
    """Every seam: what is sewn to what, how long it is, and how they meet."""
    seams = seam_lines(pattern, style.reader) if isinstance(pattern, Pattern) else ()
    lines = [seam.line for seam in seams]
    return [word(style, "What is sewn to what"), *lines] if lines else []


def _size(sheet: Sheet, head_mm: float) -> tuple[float, float]:
    width = max(WIDTH_MM, sheet.width_mm + 2 * EDGE_MM)
    long = sheet.height_mm + head_mm + 2 * EDGE_MM
    if width > WIDTH_MM + 1e-6 or long > LONGEST_MM:
        raise InvalidInput("sheet_too_large", long_mm=long, most_mm=LONGEST_MM)
    return width, long


def _draw_head(pdf: Document, head: _Head, style: Style) -> None:
    """The square to measure first, what the sheet is, its pieces and its seams."""
    draw_test_square(pdf, EDGE_MM, EDGE_MM, style)
    pdf.set_text_color(INK)
    pdf.set_font(FAMILY, "B", 28)
    named = head.title or word(style, "Pattern pieces")
    pdf.text(EDGE_MM + TEST_SQUARE_MM + 12, EDGE_MM + 18, printable(named))
    pdf.set_font(FAMILY, "", 14)
    pdf.text(
        EDGE_MM + TEST_SQUARE_MM + 12, EDGE_MM + 30,
        printable(word(style, "Print at 100 % (actual size), and measure the square first.")),
    )
    for left, lines in head.columns:
        for row, said in enumerate(lines):
            pdf.set_font(FAMILY, "B" if row == 0 else "", 12 if row == 0 else 10)
            pdf.text(left, EDGE_MM + LISTS_TOP_MM + ROW_MM * row, printable(said))
