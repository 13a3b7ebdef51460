"""A pattern as a file: drawn on a page, saved for other programs, printed full size."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from stash.model import Pattern, Role
from stash.pattern.pointing import OutlineView, PointingView
from stash.sentences import Reader

__all__ = ["FORMS", "OutlineView", "PointingView", "content", "preview", "preview_pair",
           "sizes_content"]

FORMS = ("svg", "dxf", "a4.pdf", "letter.pdf", "a0.pdf")


PHONE_LETTERS = 27.0
"""A phone's page is so many heights of a letter wide that can be read on it."""
HALF_LETTERS = 52.0
"""And so many half a desk's page, where two drawings stand side by side."""


def preview(pattern: Pattern, title: str, reader: Reader) -> tuple[str, str]:
    """SVG of all the pieces, small, for a page: as wide as a desk's, and as a phone's."""
    from stash.pattern.pieces_svg import preview_svg

    return (preview_svg(pattern, title=title, reader=reader),
            preview_svg(pattern, title=title, reader=reader, letters_wide=PHONE_LETTERS))


def preview_pair(
    before: Pattern, after: Pattern, titles: tuple[str, str], reader: Reader
) -> tuple[tuple[str, str], tuple[str, str]]:
    """What differs between two patterns, drawn at one scale; everything where nothing does.

    The two as a desk shows them, and as a phone does.
    """
    from stash.pattern.pieces_svg import preview_pair as drawn

    was = [p for p in before.pieces if p not in after.pieces]
    new = [p for p in after.pieces if p not in before.pieces]
    if not new:
        was = new = [p for p in before.pieces if p.role is Role.MAIN]
    return (drawn(was or new, new, titles, reader, HALF_LETTERS),
            drawn(was or new, new, titles, reader, PHONE_LETTERS))


def content(
    pattern: Pattern, form: str, title: str, reader: Reader, drawn_on: str | None = None
) -> bytes:
    """The file in one of FORMS: a drawing, an exchange file, pages to print, a full sheet.

    Every piece says its garment, its wearer and the day it was drawn: today, unless given.
    """
    day = date.today().isoformat() if drawn_on is None else drawn_on
    if form == "svg":
        from stash.pattern.pieces_svg import write_svg

        return write_svg(pattern, title=title, reader=reader, drawn_on=day).encode()
    if form == "dxf":
        from stash.pattern.dxf_writing import write_dxf

        return write_dxf(pattern, title=title, reader=reader, drawn_on=day)
    from stash.workroom.sewing_words import sewing_words

    sewing = sewing_words(pattern, reader)
    if form == "a0.pdf":
        from stash.pattern.full_sheet import full_sheet_pdf

        return full_sheet_pdf(pattern, title=title, reader=reader, drawn_on=day, sewing=sewing)
    from stash.pattern.print_pages import tiled_pdf

    paper = form.removesuffix(".pdf")
    return tiled_pdf(pattern, paper, title=title, reader=reader, drawn_on=day, sewing=sewing)


def sizes_content(
    sizes: Sequence[tuple[str, Pattern]], title: str, reader: Reader, drawn_on: str | None = None
) -> bytes:
    """Several sizes of one pattern, (name, pattern) each, as one exchange file."""
    from stash.pattern.dxf_writing import write_dxf_sizes

    day = date.today().isoformat() if drawn_on is None else drawn_on
    return write_dxf_sizes(sizes, title=title, reader=reader, drawn_on=day)
