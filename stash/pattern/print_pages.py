"""Pieces as a PDF for a home printer: pages with marks to join them, and a page to check first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import shapely
from shapely.geometry import box

from stash.fact import fact
from stash.fonts import printable
from stash.fonts.document import FAMILY, Document
from stash.model import Outline, Pattern, Piece
from stash.pattern.figure import Figure, Ink
from stash.pattern.legend import allowance_words
from stash.pattern.lettering import Style, Words, cutting_words, word
from stash.pattern.pieces_svg import INK, PENS, QUIET, TEST_SQUARE_MM, line_of, pieces_of
from stash.pattern.seam_list import seam_lines
from stash.pattern.sewing_page import Sewing, sewing_pages
from stash.pattern.tiles import GLUE_MM, PRINTER_MARGIN_MM, Tile, Tiling, row_name, tile
from stash.sentences import METRIC, Reader, say
from stash.sentences.manner import apart
from stash.sentences.saying import piece_named

POINTS_PER_MM = 72 / 25.4
STEPS = (
    "Print at 100 % (actual size), never “fit to page”, and measure the square below first.",
    "Cut each page off along its frame on the left and above, where another page lies there.",
    "Glue it over the shaded strip of the page before it, so that the crosses meet.",
    "The map shows where each page goes: row letter, then column number.",
)
NO_WORDS = Sewing()
RECTANGLES = (
    "A piece whose size is listed is a rectangle: it may be chalked on the cloth without its pages."
)
SEWING_NEXT = "The order of sewing and the seams are on the next page."
MOST_LISTED, LIST_PT, LIST_MM = 24, 8.5, 4.2


def tiled_pdf(
    pattern: Pattern | Sequence[Piece],
    sheet: str = "a4",
    *,
    title: str = "",
    reader: Reader = METRIC,
    drawn_on: str = "",
    sewing: Sewing = NO_WORDS,
) -> bytes:
    """A PDF of the pieces at full size on "a4" or "letter" pages.

    The first page holds a 50 mm test square, a ruler, the map of the pages and
    the list of pieces; the next what is said of the ``sewing``, and the seams. Pages that
    would show nothing are left out. Pieces cut on the fold are printed as their half, with
    the fold marked.
    """
    says = line_of(pattern, title, drawn_on, reader)
    pieces, title = pieces_of(pattern, title, reader)
    style = Style(
        letter_mm=7.0, reader=replace(reader, unbroken=True), half_on_fold=True,
        dimensions=False, says=says, complete=True,
    )
    tiling = tile(pieces, sheet, style)
    seams = seam_lines(pattern, reader) if isinstance(pattern, Pattern) else ()
    sewing = replace(sewing, says=says, seams=seams)
    with Document(tiling.paper_mm) as pdf:
        pdf.set_title(title or "Pattern pieces")
        _check_page(pdf, tiling, pieces, (title, sewing), style)
        sewing_pages(pdf, sewing, style)
        for page in tiling.tiles:
            _page(pdf, tiling, page, style)
        return bytes(pdf.output())


def _page(pdf: Document, tiling: Tiling, page: Tile, style: Style) -> None:
    """One tile: the drawing, clipped, and the marks that join it to its neighbours."""
    pdf.add_page()
    margin = PRINTER_MARGIN_MM
    width, height = tiling.step_mm
    _glue_strips(pdf, tiling, page, style)
    pdf.set_font(FAMILY, "B", 20)
    pdf.text(margin + 7, margin + 14, page.name)
    shown = box(page.left_mm, page.top_mm, page.left_mm + width, page.top_mm + height)
    shown = box(*(shown.bounds[:2]), shown.bounds[2] + GLUE_MM, shown.bounds[3] + GLUE_MM)
    with pdf.rect_clip(margin, margin, width + GLUE_MM, height + GLUE_MM):
        for figure in tiling.sheet.figures:
            reach = box(*figure.shape.bounds).buffer(8 * style.letter_mm)
            if shapely.intersects(reach, shown):
                draw_figure(pdf, figure.moved(margin - page.left_mm, margin - page.top_mm), style)
    _frame(pdf, tiling)


def draw_figure(pdf: Document, figure: Figure, style: Style) -> None:
    """One piece in its place on the page, its lines with the pens of their kinds."""
    for stroke in figure.strokes:
        weight, colour, dashes = PENS[stroke.ink]
        pdf.set_draw_color(colour)
        pdf.set_line_width(weight * style.letter_mm * (0.6 if stroke.ink is Ink.CUT else 1))
        dash = [d * style.letter_mm for d in dashes]
        pdf.set_dash_pattern(*(dash[:2] if dash else ()))
        pdf.polyline(list(stroke.points_mm), polygon=stroke.closed)
    pdf.set_dash_pattern()
    for words in figure.words:
        _words(pdf, words)


def _words(pdf: Document, words: Words) -> None:
    x, y = words.at_mm
    pdf.set_text_color(INK)
    pdf.set_font(FAMILY, "B" if words.strong else "", words.height_mm * POINTS_PER_MM)
    said = printable(words.text)
    with pdf.rotation(-words.turn_deg, x, y):
        pdf.text(x - pdf.get_string_width(said) / 2, y + 0.35 * words.height_mm, said)


def _glue_strips(pdf: Document, tiling: Tiling, page: Tile, style: Style) -> None:
    """Shade what the next page will cover, and say which page that is."""
    margin, (width, height) = PRINTER_MARGIN_MM, tiling.step_mm
    pdf.set_fill_color("#eceff0")
    pdf.set_text_color(QUIET)
    pdf.set_font(FAMILY, "", 9)
    right, below = tiling.at(page.row, page.column + 1), tiling.at(page.row + 1, page.column)
    if right:
        pdf.rect(margin + width, margin, GLUE_MM, height, style="F")
        x, y = margin + width + GLUE_MM / 2, margin + 0.3 * height
        with pdf.rotation(90, x, y):
            pdf.text(x - 10, y + 1.2, word(style, "glue {page} here", page=right.name))
    if below:
        pdf.rect(margin, margin + height, width, GLUE_MM, style="F")
        said = word(style, "glue {page} here", page=below.name)
        pdf.text(margin + 0.3 * width, margin + height + GLUE_MM / 2 + 1, said)


def _frame(pdf: Document, tiling: Tiling) -> None:
    """The frame, and the crosses that must meet."""
    margin, (width, height) = PRINTER_MARGIN_MM, tiling.step_mm
    pdf.set_draw_color(QUIET)
    pdf.set_line_width(0.12)
    pdf.rect(margin, margin, width, height)
    pdf.set_draw_color(INK)
    pdf.set_line_width(0.18)
    for across in (0.0, 0.5, 1.0):
        for down in (0.0, 0.5, 1.0):
            if (across, down) != (0.5, 0.5):
                _cross(pdf, margin + across * width, margin + down * height)


def _cross(pdf: Document, x: float, y: float) -> None:
    arm = 4.0
    pdf.line(x - arm, y, x + arm, y)
    pdf.line(x, y - arm, x, y + arm)
    pdf.circle(x, y, 1.5)


def _check_page(
    pdf: Document, tiling: Tiling, pieces: Sequence[Piece], said: tuple[str, Sewing],
    style: Style,
) -> None:
    """The page to print and measure before all the others; ``said`` is its title, and what the
    next page says.
    """
    title, sewing = said
    pdf.add_page()
    left, width = 16.0, tiling.paper_mm[0] - 32.0
    pdf.set_text_color(INK)
    pdf.set_font(FAMILY, "B", 18)
    pdf.text(left, 20, printable(title or word(style, "Pattern pieces")))
    pdf.set_font(FAMILY, "", 9.5)
    pdf.text(left, 26.5, printable(sewing.says.removeprefix(title).strip(" ·")))
    steps = [word(style, step) for step in STEPS]
    if sewing.steps or sewing.seams:
        steps.append(word(style, SEWING_NEXT))
    if any(map(_is_rectangle, pieces)):
        steps.append(word(style, RECTANGLES))
    for row, step in enumerate(steps):
        pdf.text(left, 34 + 5.2 * row, printable(f"{row + 1}.  {step}"))
    top = 34 + 5.2 * len(steps)
    draw_test_square(pdf, left, top, style)
    _ruler(pdf, left + TEST_SQUARE_MM + 12, top + 2, min(100.0, width - TEST_SQUARE_MM - 12), style)
    foot = _piece_list(pdf, pieces, (left, top + TEST_SQUARE_MM + 10), style)
    _map(pdf, tiling, (left, foot + 4.0), width, style)


def draw_test_square(pdf: Document, x: float, y: float, style: Style) -> None:
    """The square to measure before anything is cut, its corner at (x, y)."""
    pdf.set_draw_color(INK)
    pdf.set_line_width(0.25)
    pdf.rect(x, y, TEST_SQUARE_MM, TEST_SQUARE_MM)
    pdf.set_font(FAMILY, "", 9.5)
    pdf.text(x + 8, y + 24, word(style, "This square must be"))
    pdf.text(x + 8, y + 29, word(style, "50 mm (1.97 in) wide"))
    pdf.text(x + 8, y + 34, word(style, "and 50 mm high."))


def _ruler(pdf: Document, x: float, y: float, length_mm: float, style: Style) -> None:
    """Millimetres above the line, inches below it."""
    pdf.set_line_width(0.18)
    pdf.set_font(FAMILY, "", 7)
    pdf.line(x, y + 8, x + length_mm, y + 8)
    for mm in range(int(length_mm) + 1):
        tall = 5.0 if mm % 10 == 0 else 3.5 if mm % 5 == 0 else 2.0
        pdf.line(x + mm, y + 8, x + mm, y + 8 - tall)
        if mm % 10 == 0:
            pdf.text(x + mm - 1, y + 2, str(mm // 10))
    for eighth in range(int(length_mm / 25.4 * 8) + 1):
        tall = 5.0 if eighth % 8 == 0 else 2.0
        pdf.line(x + eighth * 3.175, y + 8, x + eighth * 3.175, y + 8 + tall)
        if eighth % 8 == 0:
            pdf.text(x + eighth * 3.175 - 0.6, y + 16.5, str(eighth // 8))
    pdf.text(x, y + 22, word(style, "centimetres above, inches below"))


def _piece_list(
    pdf: Document, pieces: Sequence[Piece], corner: tuple[float, float], style: Style
) -> float:
    """Every piece: how many to cut of which cloth, and its allowances; where the list ends."""
    x, y = corner
    shown = pieces[: MOST_LISTED - 1] if len(pieces) > MOST_LISTED else pieces
    for row, piece in enumerate(shown):
        pdf.set_font(FAMILY, "B", LIST_PT)
        name = printable(piece_named(piece.name, style.reader))
        pdf.text(x, y + LIST_MM * row, name)
        beside = x + pdf.get_string_width(name) + 3
        pdf.set_font(FAMILY, "", LIST_PT)
        said = [*cutting_words(piece, style.reader), allowance_words(piece, style.reader),
                _size(piece, style)]
        pdf.text(beside, y + LIST_MM * row, printable(apart((s for s in said if s), style.reader)))
    if len(shown) < len(pieces):
        more = word(style, "and {n} more", n=str(len(pieces) - len(shown)))
        pdf.text(x, y + LIST_MM * len(shown), more)
    return y + LIST_MM * min(len(pieces), MOST_LISTED)


def _is_rectangle(piece: Piece) -> bool:
    """Cut along the thread on all four sides."""
    outline = Outline(piece.outline_mm)
    corners_mm2 = outline.length_mm * outline.width_mm - outline.area_mm2
    return not piece.grain_turn_deg and abs(corners_mm2) < 1.0


def _size(piece: Piece, style: Style) -> str:
    """How large a rectangle is cut, along the grain and across, opened out; nothing of others."""
    if not _is_rectangle(piece):
        return ""
    outline = Outline(piece.outline_mm)
    return say(fact("cut_rectangle", along_measure_mm=outline.length_mm,
                    across_measure_mm=outline.width_mm), style.reader)


def _map(
    pdf: Document, tiling: Tiling, corner: tuple[float, float], width_mm: float, style: Style
) -> None:
    """The pages in their places, with the pieces drawn small across them."""
    (x, y), (step_x, step_y) = corner, tiling.step_mm
    room = tiling.paper_mm[1] - y - 18
    scale = min(width_mm / (tiling.columns * step_x), room / (tiling.rows * step_y), 0.2)
    pdf.set_line_width(0.2)
    pdf.set_font(FAMILY, "", max(5.0, min(10.0, 90 * scale)))
    for row in range(tiling.rows):
        for column in range(tiling.columns):
            if tiling.at(row, column):
                left, top = x + column * step_x * scale, y + row * step_y * scale
                pdf.set_draw_color(QUIET)
                pdf.set_text_color(QUIET)
                pdf.rect(left, top, step_x * scale, step_y * scale)
                pdf.text(left + 1, top + 3.4, row_name(row) + str(column + 1))
    pdf.set_draw_color(INK)
    for figure in tiling.sheet.figures:
        ring = [(x + px * scale, y + py * scale) for px, py in figure.shape.exterior.coords]
        pdf.polyline(ring, polygon=True)
    pdf.set_text_color(INK)
    pdf.set_font(FAMILY, "", 9.5)
    pages = len(tiling.tiles)
    below = y + tiling.rows * step_y * scale + 6
    pdf.text(x, below, word(style, "Pages to join: {n}", n=str(pages)))
