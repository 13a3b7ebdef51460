"""A PDF document in millimetres whose words may be in any script the fonts here have."""

from __future__ import annotations

from typing import Self

from fpdf import FPDF
from fpdf.fonts import TTFFont

from stash.fonts import BOLD, REGULAR, font_path, script_font

FAMILY = "words"
POINT_MM = 25.4 / 72
FIRST_COMBINING = "\u0300"
PUNCTUATION = frozenset("–—‘’“”…×−≈·")


class Document(FPDF):
    """An fpdf2 document with embedded subset fonts and no page breaks of its own making.

    Use it as a context manager, so that the font files are let go of.
    """

    def __init__(self, page_mm: tuple[float, float]):
        super().__init__(unit="mm", format=page_mm)
        self.set_auto_page_break(False)
        self.set_margin(0)
        self.c_margin = 0
        self.add_font(FAMILY, "", font_path(REGULAR))
        self.add_font(FAMILY, "B", font_path(BOLD))
        self.set_text_shaping(True)
        self.set_creator("Lengthwise")

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        """Let go of the font files, also when nothing was printed."""
        for font in self.fonts.values():
            if isinstance(font, TTFFont):
                font.close()

    def get_fallback_font(self, char: str, style: str = "") -> str | None:
        """The font of the character's own script, opened when first needed."""
        name = script_font(char)
        if name is None:
            return None
        key = name.removesuffix(".ttf").lower()
        if key not in self.fonts:
            self.add_font(key, "", font_path(name))
        return key

    def text(self, x: float, y: float, text: str = "") -> None:
        """One line of text, its baseline beginning at (x, y)."""
        if is_plain(text):
            super().text(x, y, text)
            return
        # cell() shapes the script, which costs; this is where it would put the baseline.
        size = self.font_size_pt
        self.set_xy(x, y - 0.5 * line_mm(size) - 0.3 * size * POINT_MM)
        self.cell(w=self.get_string_width(text), h=line_mm(size), text=text)


def is_plain(text: str) -> bool:
    """True for text that needs no shaping: each letter stands by itself, left to right."""
    return all(" " <= c < FIRST_COMBINING or c in PUNCTUATION for c in text)


def line_mm(size_pt: float) -> float:
    """Height of a line of text: ascent and descent of the main font with a little air."""
    return 1.18 * size_pt * POINT_MM
