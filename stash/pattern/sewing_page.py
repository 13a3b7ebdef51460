"""The page after the first: in what order the garment is sewn, and what is sewn to what."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stash.fonts import printable
from stash.fonts.document import FAMILY, Document
from stash.pattern.lettering import Style, word
from stash.pattern.pieces_svg import INK, QUIET
from stash.pattern.seam_list import SeamLine

LEFT_MM, TOP_MM, FOOT_MM = 16.0, 24.0, 16.0
LINE_MM, SEAM_MM, HEAD_PT, TEXT_PT, SEAM_PT = 4.9, 4.6, 14, 9.5, 8.5
SHARES = (0.52, 0.2, 0.28)  # of the width: edges, length, how they meet


@dataclass(frozen=True)
class Sewing:
    """The steps in order, and the seams, in the reader's words; ``says`` is the line of the whole
    pattern: garment, wearer, day.
    """

    says: str = ""
    steps: Sequence[str] = ()
    seams: Sequence[SeamLine] = ()


def sewing_pages(pdf: Document, sewing: Sewing, style: Style) -> None:
    """As many pages as the steps and the seams need; none where there are neither."""
    if not sewing.steps and not sewing.seams:
        return
    y = _begin(pdf, sewing)
    if sewing.steps:
        y = _head(pdf, y, word(style, "The order of sewing"))
        for number, step in enumerate(sewing.steps, start=1):
            y = _room(pdf, sewing, y, 3 * LINE_MM)
            y = _step(pdf, y, number, step)
    if sewing.seams:
        y = _room(pdf, sewing, y + 4, 5 * SEAM_MM)
        y = _head(pdf, y, word(style, "What is sewn to what"))
        for seam in sewing.seams:
            y = _room(pdf, sewing, y, 2 * SEAM_MM)
            y = _seam(pdf, y, seam)


def _begin(pdf: Document, sewing: Sewing) -> float:
    pdf.add_page()
    pdf.set_text_color(QUIET)
    pdf.set_font(FAMILY, "", TEXT_PT)
    pdf.text(LEFT_MM, TOP_MM - 8, printable(sewing.says))
    pdf.set_text_color(INK)
    return TOP_MM


def _room(pdf: Document, sewing: Sewing, y: float, wanted_mm: float) -> float:
    """On this page, or at the top of a new one."""
    return y if y + wanted_mm < pdf.h - FOOT_MM else _begin(pdf, sewing)


def _head(pdf: Document, y: float, said: str) -> float:
    pdf.set_font(FAMILY, "B", HEAD_PT)
    pdf.text(LEFT_MM, y + 2, printable(said))
    return y + 7


def _step(pdf: Document, y: float, number: int, said: str) -> float:
    pdf.set_font(FAMILY, "B", TEXT_PT)
    pdf.text(LEFT_MM, y + 3.4, f"{number}.")
    pdf.set_font(FAMILY, "", TEXT_PT)
    return _wrapped(pdf, (LEFT_MM + 8, y), pdf.w - 2 * LEFT_MM - 8, LINE_MM, said) + 1.2


def _seam(pdf: Document, y: float, seam: SeamLine) -> float:
    """One row of three columns, ruled off below."""
    pdf.set_font(FAMILY, "", SEAM_PT)
    whole, x, ends = pdf.w - 2 * LEFT_MM, LEFT_MM, []
    for said, share in zip((seam.edges, seam.long, seam.how), SHARES, strict=True):
        ends.append(_wrapped(pdf, (x, y), share * whole - 3, SEAM_MM, said))
        x += share * whole
    y = max(ends)
    pdf.set_draw_color("#d5dadd")
    pdf.set_line_width(0.1)
    pdf.line(LEFT_MM, y, pdf.w - LEFT_MM, y)
    return y + 0.4


def _wrapped(
    pdf: Document, corner: tuple[float, float], wide_mm: float, tall_mm: float, said: str
) -> float:
    """Text in lines of a width; where the next line would begin."""
    x, y = corner
    row = ""
    for one in printable(said).split():
        longer = f"{row} {one}".strip()
        if row and pdf.get_string_width(longer) > wide_mm:
            pdf.text(x, y + 0.7 * tall_mm, row)
            y, row = y + tall_mm, one
        else:
            row = longer
    if row:
        pdf.text(x, y + 0.7 * tall_mm, row)
    return y + tall_mm
