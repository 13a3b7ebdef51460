"""A pattern as a file: drawn on a page, saved for other programs, printed full size."""

from __future__ import annotations

from stash.model import Pattern
from stash.units import System

FORMS = ("svg", "dxf", "a4.pdf", "letter.pdf")


def preview(pattern: Pattern, title: str, system: System) -> str:
    """SVG of all the pieces, small, for a page."""
    from stash.pattern.drawing import preview_svg

    return preview_svg(pattern, title=title, system=system)


def content(pattern: Pattern, form: str, title: str, system: System) -> bytes:
    """The file in one of FORMS: a full-size drawing, an exchange file, or pages to print."""
    if form == "svg":
        from stash.pattern.drawing import write_svg

        return write_svg(pattern, title=title, system=system).encode()
    if form == "dxf":
        from stash.pattern.dxf_writing import write_dxf

        return write_dxf(pattern)
    from stash.pattern.print_pages import tiled_pdf

    return tiled_pdf(pattern, form.removesuffix(".pdf"), title=title, system=system)
