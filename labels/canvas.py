"""A PDF page in millimetres from its top left corner: words, rules, circles and QR symbols."""

from __future__ import annotations

import unicodedata

import numpy as np
from fpdf import FPDF, ViewerPreferences

from labels.fonts import BOLD, REGULAR, font_path, script_font
from labels.qr import QUIET_MODULES, Symbol

FAMILY = "label"
POINT_MM = 25.4 / 72
GREY = 140
FIRST_COMBINING = "\u0300"
PUNCTUATION = frozenset("–—‘’“”…×−≈·")


class Canvas(FPDF):
    """An fpdf2 document set up for labels: embedded subset fonts, no margins, no page breaks."""

    def __init__(self, page_mm: tuple[float, float]):
        super().__init__(unit="mm", format=page_mm)
        self.set_auto_page_break(False)
        self.set_margin(0)
        self.c_margin = 0
        self.add_font(FAMILY, "", font_path(REGULAR))
        self.add_font(FAMILY, "B", font_path(BOLD))
        self.set_text_shaping(True)
        self.set_creator("Lengthwise")
        # A printer dialogue that honours it will not scale the page (ISO 32000-1, 12.2).
        self.viewer_preferences = ViewerPreferences(print_scaling="None")
        self._widths: dict[tuple[str, bool], float] = {}

    def __enter__(self) -> Canvas:
        return self

    def __exit__(self, *_: object) -> None:
        """Let go of the font files, also when nothing was printed."""
        for font in self.fonts.values():
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

    def width_mm(self, text: str, size_pt: float, bold: bool = False) -> float:
        """How wide a line of text comes out."""
        parts = text if is_plain(text) else (text,)
        return size_pt * sum(self._unit_width(part, bold) for part in parts)

    def _unit_width(self, part: str, bold: bool) -> float:
        key = (part, bold)
        if key not in self._widths:
            self.set_font(FAMILY, "B" if bold else "", 100)
            self._widths[key] = self.get_string_width(part) / 100
        return self._widths[key]

    def words(self, text: str, at_mm: tuple[float, float], size_pt: float, bold=False) -> None:
        """One line of text, the top left corner of its line box at ``at_mm``."""
        wide = self.width_mm(text, size_pt, bold)
        self.set_font(FAMILY, "B" if bold else "", size_pt)
        if is_plain(text):
            # Where fpdf2's cell() would put the baseline, without its costly shaping.
            baseline = at_mm[1] + 0.5 * line_mm(size_pt) + 0.3 * size_pt * POINT_MM
            self.text(at_mm[0], baseline, text)
        else:
            self.set_xy(*at_mm)
            self.cell(w=wide, h=line_mm(size_pt), text=text)

    def symbol(self, symbol: Symbol, at_mm: tuple[float, float], module_mm: float) -> None:
        """A vector QR symbol; ``at_mm`` is the corner of its quiet zone.

        Each row's dark runs join one path that is filled once, so no hairline shows
        between modules however it is rendered.
        """
        left = at_mm[0] + QUIET_MODULES * module_mm
        top = at_mm[1] + QUIET_MODULES * module_mm
        x0, y0, module = left * self.k, (self.h - top) * self.k, module_mm * self.k
        boxes = [
            f"{x0 + start * module:.3f} {y0 - (row + 1) * module:.3f} "
            f"{(end - start) * module:.3f} {module:.3f} re"
            for row, start, end in _dark_runs(symbol.modules)
        ]
        self._out("q 0 g " + " ".join(boxes) + " f Q")

    def rule(self, x0: float, y0: float, x1: float, y1: float, *, thick_mm=0.2, grey=0) -> None:
        """A straight line."""
        self.set_line_width(thick_mm)
        self.set_draw_color(grey)
        self.line(x0, y0, x1, y1)


    def disc(self, x: float, y: float, across_mm: float, *, grey: int) -> None:
        """A filled circle round (x, y)."""
        self.set_fill_color(grey)
        self.ellipse(x - across_mm / 2, y - across_mm / 2, across_mm, across_mm, style="F")

    def bar(self, x: float, y: float, width: float, height: float, *, grey: int) -> None:
        """A filled rectangle from its top left corner."""
        self.set_fill_color(grey)
        self.rect(x, y, width, height, style="F")


def is_plain(text: str) -> bool:
    """True for text that needs no shaping: each letter stands by itself, left to right."""
    return all(" " <= c < FIRST_COMBINING or c in PUNCTUATION for c in text)


def line_mm(size_pt: float) -> float:
    """Height of a line of text: ascent and descent of the main font with a little air."""
    return 1.18 * size_pt * POINT_MM


def runs_right_to_left(text: str) -> bool:
    """True when the first letter with a direction is written from the right."""
    for character in text:
        direction = unicodedata.bidirectional(character)
        if direction in {"R", "AL", "L"}:
            return direction != "L"
    return False


def _dark_runs(modules: np.ndarray) -> list[tuple[int, int, int]]:
    edges = np.diff(np.pad(modules.astype(np.int8), ((0, 0), (1, 1))), axis=1)
    rows, starts = np.nonzero(edges == 1)
    _, ends = np.nonzero(edges == -1)
    return list(zip(rows.tolist(), starts.tolist(), ends.tolist(), strict=True))
