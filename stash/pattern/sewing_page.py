"""The pages after the first: for whom the pieces are drawn, what they take, in what order they are
sewn, and what is sewn to what.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stash.fonts import printable
from stash.fonts.document import FAMILY, Document
from stash.pattern.lettering import Style, word
from stash.pattern.pieces_svg import INK, QUIET
from stash.pattern.seam_list import SeamLine
from stash.sentences.unbroken import units_kept

LEFT_MM, TOP_MM, FOOT_MM = 16.0, 24.0, 16.0
BETWEEN_MM = 6.0  # between a list and the heading of the next
LINE_MM, SEAM_MM, HEAD_PT, TEXT_PT, SEAM_PT = 4.9, 4.6, 14, 9.5, 8.5
SHARES = (0.52, 0.2, 0.28)  # of the width: edges, length, how they meet


@dataclass(frozen=True)
class Sewing:
    """What is said of the sewing, in the reader's words; ``says`` is the line of the whole
    pattern: garment, wearer, day. ``told`` is what to know before cutting, ``wanted`` the cloth
    and the notions, ``steps`` the order of sewing.
    """

    says: str = ""
    told: Sequence[str] = ()
    wanted: Sequence[str] = ()
    steps: Sequence[str] = ()
    seams: Sequence[SeamLine] = ()

    def listed(self, style: Style) -> list[tuple[str, list[str]]]:
        """Each list under its heading, in the order they are read; empty ones are left out."""
        lists = (
            (word(style, "Before you cut"), list(self.told)),
            (word(style, "What it takes"), list(self.wanted)),
            (word(style, "The order of sewing"),
             [f"{number}.  {step}" for number, step in enumerate(self.steps, start=1)]),
        )
        return [(head, lines) for head, lines in lists if lines]


def sewing_pages(pdf: Document, sewing: Sewing, style: Style) -> None:
    """As many pages as the lists and the seams need; none where there are neither."""
    lists = sewing.listed(style)
    if not lists and not sewing.seams:
        return
    y = _begin(pdf, sewing)
    for head, lines in lists:
        y = _room(pdf, sewing, y, 4 * LINE_MM)
        y = _head(pdf, y, head)
        for line in lines:
            y = _room(pdf, sewing, y, 2 * LINE_MM)
            y = _line(pdf, y, line)
        y += BETWEEN_MM
    if sewing.seams:
        y = _room(pdf, sewing, y + 1, 5 * SEAM_MM)
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


def _line(pdf: Document, y: float, said: str) -> float:
    """A line of a list; its number, where it has one, stands apart before it."""
    number, apart, rest = said.partition(".  ")
    pdf.set_font(FAMILY, "B", TEXT_PT)
    if apart:
        pdf.text(LEFT_MM, y + 3.4, f"{number}.")
    pdf.set_font(FAMILY, "", TEXT_PT)
    corner = (LEFT_MM + 8, y) if apart else (LEFT_MM, y)
    wide = pdf.w - LEFT_MM - corner[0]
    return wrapped(pdf, corner, wide, LINE_MM, rest if apart else said) + 1.0


def _seam(pdf: Document, y: float, seam: SeamLine) -> float:
    """One row of three columns, ruled off below."""
    pdf.set_font(FAMILY, "", SEAM_PT)
    whole, x, ends = pdf.w - 2 * LEFT_MM, LEFT_MM, []
    for said, share in zip((seam.edges, seam.long, seam.how), SHARES, strict=True):
        ends.append(wrapped(pdf, (x, y), share * whole - 3, SEAM_MM, said))
        x += share * whole
    y = max(ends)
    pdf.set_draw_color("#d5dadd")
    pdf.set_line_width(0.1)
    pdf.line(LEFT_MM, y, pdf.w - LEFT_MM, y)
    return y + 0.4


def wrapped(
    pdf: Document, corner: tuple[float, float], wide_mm: float, tall_mm: float, said: str
) -> float:
    """Text in lines of a width; where the next line would begin."""
    x, y = corner
    for row in rows_of(pdf, wide_mm, said):
        pdf.text(x, y + 0.7 * tall_mm, row)
        y += tall_mm
    return y


def rows_of(pdf: Document, wide_mm: float, said: str) -> list[str]:
    """A text broken between words, each row no wider than this in the font that is set."""
    rows = [""]
    for one in printable(units_kept(said)).split(" "):
        longer = f"{rows[-1]} {one}".strip()
        if rows[-1] and pdf.get_string_width(longer) > wide_mm:
            rows.append(one)
        else:
            rows[-1] = longer
    return rows
