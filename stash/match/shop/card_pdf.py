"""The shop card as a PDF of A6 pages, drawings true to the millimetre."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import UTC, datetime

from fpdf.enums import Align, XPos, YPos

from stash.eye.colour.difference import is_colour
from stash.fact import fact
from stash.fonts import printable
from stash.fonts.document import FAMILY, Document
from stash.match.shop.card import (
    Card,
    ClothToBuy,
    NotionToBuy,
    cost_text,
    length_text,
    swatch_said,
    width_text,
)
from stash.match.shop.card_html import DRAWN_MOST_MM
from stash.sentences import Reader, say
from stash.sentences.quantities import written

PAGE_MM = (105.0, 148.0)
MARGIN_MM = 8.0
ROW_MM = 8.0
# A fixed date: the file says nothing of when it was made, and equal cards are equal bytes.
NO_DATE = datetime(2000, 1, 1, tzinfo=UTC)
ROUND = {"button", "snap"}


def card_pdf(card: Card, reader: Reader) -> bytes:
    """The whole file as bytes; the same card always gives the same bytes."""
    reader = replace(reader, unbroken=True)
    with Document(PAGE_MM) as pdf:
        pdf.set_creation_date(NO_DATE)
        pdf.set_title(card.title)
        pdf.set_margin(MARGIN_MM)
        pdf.set_auto_page_break(True, MARGIN_MM)
        pdf.add_page()
        _line(pdf, card.title, TITLE)
        for cloth in card.cloths:
            _cloth(pdf, cloth, card, reader)
        if card.notions:
            _line(pdf, say(fact("card_notions"), reader), HEADING)
        for notion in card.notions:
            _notion(pdf, notion, reader)
        if not card.cloths and not card.notions:
            _line(pdf, say(fact("nothing_to_buy"), reader))
        return bytes(pdf.output())


def _cloth(pdf: Document, cloth: ClothToBuy, card: Card, reader: Reader) -> None:
    _keep_together(pdf, 9 + ROW_MM * (len(cloth.lengths) + 1))
    _line(pdf, say(fact("cloth_for", what=cloth.what), reader), HEADING)
    pdf.set_font(FAMILY, size=9)
    pdf.set_text_color(90)
    columns = ("bolt_width", "length_to_buy")
    _cells(pdf, (*(say(fact(column), reader) for column in columns), ""), 5)
    pdf.set_text_color(0)
    for length in cloth.lengths:
        pdf.set_font(FAMILY, size=11)
        words = (
            say(fact("label_so_wide", size=width_text(length, reader)), reader),
            length_text(length, reader), cost_text(length, card.currency, reader),
        )
        _cells(pdf, words, ROW_MM, strong=True)
    for note in cloth.notes:
        _line(pdf, say(note, reader), NOTE)
    for name, colour in cloth.colours:
        if is_colour(colour):
            _swatch(pdf, name, colour, reader)


def _notion(pdf: Document, notion: NotionToBuy, reader: Reader) -> None:
    size = notion.size_mm if notion.size_mm and notion.size_mm <= DRAWN_MOST_MM else None
    _keep_together(pdf, 16 + (size if size and notion.kind in ROUND else 4))
    pdf.rect(pdf.l_margin, pdf.get_y() + 1, 4, 4)
    _line(pdf, say(notion.what, reader), ITEM)
    if size:
        _true_size(pdf, size, notion.kind, reader)
    if notion.colour and is_colour(notion.colour):
        _swatch(pdf, say(fact("card_to_match"), reader), notion.colour, reader)
    if notion.nearest:
        _line(pdf, " ".join(say(one, reader) for one in notion.nearest), ITEM_NOTE)
    pdf.ln(1.5)


def _true_size(pdf: Document, size: float, kind: str, reader: Reader) -> None:
    """A circle as wide as the button, or a bar as long as the elastic is wide."""
    left, top = pdf.l_margin + 6, pdf.get_y() + 1
    pdf.set_line_width(0.2)
    if kind in ROUND:
        pdf.circle(left + size / 2, top + size / 2, size / 2)
        high, text = size, say(fact("round_drawn_true", diameter_mm=size), reader)
    else:
        pdf.set_fill_color(40)
        pdf.rect(left, top + 1, size, 2, style="F")
        wide = written("_mm", size, reader)
        high, text = 4.0, say(fact("band_drawn_true", size=wide), reader)
    pdf.set_xy(left + size + 3, top + max(high / 2 - 2, 0))
    pdf.set_font(FAMILY, size=8.5)
    pdf.cell(0, 4, printable(text))
    pdf.set_xy(pdf.l_margin, top + max(high, 5) + 1)


def _swatch(pdf: Document, name: str, colour: str, reader: Reader) -> None:
    _keep_together(pdf, 9)
    digits = colour.strip().lstrip("#")
    digits = digits if len(digits) == 6 else "".join(d * 2 for d in digits)
    pdf.set_fill_color(*(int(digits[i : i + 2], 16) for i in (0, 2, 4)))
    pdf.rect(pdf.l_margin + 6, pdf.get_y() + 0.5, 14, 7, style="DF")
    pdf.set_xy(pdf.l_margin + 22, pdf.get_y() + 1.5)
    pdf.set_font(FAMILY, size=9)
    said = printable(swatch_said(name, colour, reader))
    pdf.cell(0, 5, said, new_x=XPos.LMARGIN, new_y=YPos.NEXT)
    pdf.ln(2)


def _cells(pdf: Document, words: tuple[str, ...], row: float, *, strong: bool = False) -> None:
    left, middle, right = map(printable, words)
    top = pdf.get_y()
    pdf.cell(36, row, left)
    if strong:
        pdf.set_font(FAMILY, style="B", size=14)
    pdf.cell(28, row, middle)
    if strong:
        pdf.set_font(FAMILY, size=10)
    pdf.cell(0, row, right, align=Align.R, new_x=XPos.LMARGIN, new_y=YPos.NEXT)
    pdf.set_draw_color(190)
    pdf.line(pdf.l_margin, top + row, pdf.w - pdf.r_margin, top + row)
    pdf.set_draw_color(0)


@dataclass(frozen=True)
class TextStyle:
    """How a paragraph is set: size in points, row, space above and indent in mm."""

    size: float = 10
    bold: bool = False
    row: float = 5
    above: float = 0
    indent: float = 0


TITLE = TextStyle(size=15, bold=True, row=8)
HEADING = TextStyle(size=12, bold=True, row=6, above=3)
PLAIN = TextStyle()
NOTE = TextStyle(size=9, row=4.2)
ITEM = TextStyle(indent=6)
ITEM_NOTE = TextStyle(size=8.5, row=4, indent=6)


def _line(pdf: Document, text: str, setting: TextStyle = PLAIN) -> None:
    pdf.ln(setting.above)
    pdf.set_font(FAMILY, style="B" if setting.bold else "", size=setting.size)
    pdf.set_x(pdf.l_margin + setting.indent)
    pdf.multi_cell(
        0, setting.row, printable(text), align=Align.L, new_x=XPos.LMARGIN, new_y=YPos.NEXT
    )


def _keep_together(pdf: Document, high_mm: float) -> None:
    if pdf.get_y() + high_mm > pdf.h - MARGIN_MM and pdf.get_y() > MARGIN_MM + 1:
        pdf.add_page()
