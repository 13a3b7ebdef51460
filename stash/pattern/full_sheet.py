"""Pieces on one sheet the full width of a roll, for a copy shop that prints A0."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from stash.errors import InvalidInput
from stash.fonts import printable
from stash.fonts.document import FAMILY, Document
from stash.model import Pattern, Piece
from stash.pattern.arrange import Sheet, arrange
from stash.pattern.figure import Figure, draw_piece
from stash.pattern.lettering import Style, cutting_words, word
from stash.pattern.pieces_svg import INK, TEST_SQUARE_MM, line_of, pieces_of
from stash.pattern.print_pages import NO_WORDS, draw_figure, draw_test_square
from stash.pattern.roll_strips import fitted
from stash.pattern.seam_list import seam_lines
from stash.pattern.sewing_page import Sewing, rows_of
from stash.sentences import METRIC, Reader
from stash.sentences.saying import piece_named

WIDTH_MM = 841.0  # A0, ISO 216
EDGE_MM = 15.0  # what a plotter may leave unprinted; common practice, no source
HEAD_MM, GAP_MM = 80.0, 15.0
COLUMNS = 3
LISTS_MM, BETWEEN_MM = EDGE_MM + TEST_SQUARE_MM + 12, 10.0  # where the columns begin
COLUMN_MM = (WIDTH_MM - EDGE_MM - LISTS_MM - (COLUMNS - 1) * BETWEEN_MM) / COLUMNS
LISTS_TOP_MM, ROW_MM, HEAD_PT, TEXT_PT = 42.0, 5.2, 12, 10
LONGEST_MM = 5000.0  # a PDF page holds 200 in (5.08 m) at most
SheetRow = tuple[str, bool]


def full_sheet_pdf(
    pattern: Pattern | Sequence[Piece],
    *,
    title: str = "",
    reader: Reader = METRIC,
    drawn_on: str = "",
    sewing: Sewing = NO_WORDS,
) -> bytes:
    """A page 841 mm wide and as long as the pieces need, all at full size; another where they
    need more than a page may hold.

    Above them stands what is said of the ``sewing``. A piece wider than the roll is turned, or
    printed in strips with the lines on which they are joined.
    """
    says = line_of(pattern, title, drawn_on, reader)
    pieces, title = pieces_of(pattern, title, reader)
    style = Style(
        letter_mm=7.0, reader=replace(reader, unbroken=True), half_on_fold=True,
        dimensions=False, says=says, complete=True,
    )
    room = WIDTH_MM - 2 * EDGE_MM
    figures = [part for p in pieces for part in fitted(draw_piece(p, style), room, style)]
    seams = seam_lines(pattern, reader) if isinstance(pattern, Pattern) else ()
    with Document((WIDTH_MM, LONGEST_MM)) as measured:
        measured.add_page()
        head = _head(measured, says, pieces, replace(sewing, seams=seams), style)
    sheets = _sheets(figures, room, LONGEST_MM - head.tall_mm - 2 * EDGE_MM)
    with Document((WIDTH_MM, LONGEST_MM)) as pdf:
        pdf.set_title(title or "Pattern pieces")
        for sheet in sheets:
            pdf.add_page(format=(WIDTH_MM, sheet.height_mm + head.tall_mm + 2 * EDGE_MM))
            _draw_head(pdf, head, style)
            for figure in sheet.figures:
                draw_figure(pdf, figure.moved(EDGE_MM, EDGE_MM + head.tall_mm), style)
        return bytes(pdf.output())


def _sheets(figures: Sequence[Figure], wide_mm: float, tall_mm: float) -> list[Sheet]:
    """The figures on as few sheets as hold them, each with as many of the next as it bears."""
    sheets, first = [], 0
    while first < len(figures):
        last = len(figures)
        sheet = arrange(figures[first:], gap_mm=GAP_MM, width_mm=wide_mm)
        while sheet.height_mm > tall_mm and last - first > 1:
            last -= 1
            sheet = arrange(figures[first:last], gap_mm=GAP_MM, width_mm=wide_mm)
        if sheet.height_mm > tall_mm:
            raise InvalidInput("sheet_too_large", long_mm=sheet.height_mm, most_mm=tall_mm)
        sheets.append(sheet)
        first = last
    return sheets


@dataclass(frozen=True)
class _Head:
    """What the sheet says above the pieces: its title, and its lists in columns of rows."""

    title: str
    columns: Sequence[Sequence[SheetRow]]

    @property
    def tall_mm(self) -> float:
        """From the edge down to the pieces."""
        rows = max((len(rows) for rows in self.columns), default=0)
        return max(HEAD_MM, LISTS_TOP_MM + ROW_MM * rows + 10)


def _head(
    pdf: Document, says: str, pieces: Sequence[Piece], sewing: Sewing, style: Style
) -> _Head:
    """The lists in three columns: what to know and to have, the order of sewing, the seams."""
    told, wanted, steps = (
        next((one for one in sewing.listed(style) if one[0] == word(style, head)), ("", []))
        for head in ("Before you cut", "What it takes", "The order of sewing"))
    seams = (word(style, "What is sewn to what"), [seam.line for seam in sewing.seams])
    pieces_said = (word(style, "Pattern pieces"), _listed(pieces, style))
    columns = [
        [row for head, lines in lists if lines for row in _rows(pdf, head, lines)]
        for lists in ((pieces_said, wanted), (told, steps), (seams,))]
    return _Head(says, columns)


def _rows(pdf: Document, head: str, lines: Sequence[str]) -> Iterable[SheetRow]:
    """A list under its heading, broken into rows no wider than a column, a free row after it."""
    yield head, True
    pdf.set_font(FAMILY, "", TEXT_PT)
    for line in lines:
        first, *more = rows_of(pdf, COLUMN_MM, line)
        yield first, False
        yield from ((f"    {row}", False) for row in more)
    yield "", False


def _listed(pieces: Sequence[Piece], style: Style) -> list[str]:
    """The pieces, numbered: what each is, and how it is cut."""
    return [
        f"{n}. {piece_named(piece.name, style.reader)}, "
        + ", ".join(cutting_words(piece, style.reader))
        for n, piece in enumerate(pieces, 1)]


def _draw_head(pdf: Document, head: _Head, style: Style) -> None:
    """The square to measure first, what the sheet is, its pieces and its seams."""
    draw_test_square(pdf, EDGE_MM, EDGE_MM, style)
    pdf.set_text_color(INK)
    pdf.set_font(FAMILY, "B", 28)
    named = head.title or word(style, "Pattern pieces")
    pdf.text(LISTS_MM, EDGE_MM + 18, printable(named))
    pdf.set_font(FAMILY, "", 14)
    pdf.text(
        LISTS_MM, EDGE_MM + 30,
        printable(word(style, "Print at 100 % (actual size), and measure the square first.")),
    )
    for column, rows in enumerate(head.columns):
        left = LISTS_MM + column * (COLUMN_MM + BETWEEN_MM)
        for row, (said, strong) in enumerate(rows):
            pdf.set_font(FAMILY, "B" if strong else "", HEAD_PT if strong else TEXT_PT)
            pdf.text(left, EDGE_MM + LISTS_TOP_MM + ROW_MM * row, printable(said))
