"""A PDF page in millimetres from its top left corner: words, rules, circles and QR symbols."""

from __future__ import annotations

import unicodedata
from dataclasses import replace

import numpy as np
from fpdf import ViewerPreferences

from labels.qr import QUIET_MODULES, Symbol
from stash.fact import Value, fact
from stash.fonts import printable
from stash.fonts.document import FAMILY, POINT_MM, Document, is_plain, line_mm
from stash.sentences import METRIC, Reader, say

GREY = 140


class Canvas(Document):
    """A document set up for labels: printed as it is, words measured once, in one language."""

    def __init__(self, page_mm: tuple[float, float], reader: Reader = METRIC):
        super().__init__(page_mm)
        self.reader = replace(reader, unbroken=True)
        # A printer dialogue that honours it will not scale the page (ISO 32000-1, 12.2).
        self.viewer_preferences = ViewerPreferences(print_scaling="None")
        self._widths: dict[tuple[str, bool], float] = {}

    def said(self, kind: str, /, **values: Value) -> str:
        """The wording of a fact, as it can be printed."""
        return printable(say(fact(kind, **values), self.reader))

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

    def words(
        self, text: str, at_mm: tuple[float, float], size_pt: float, bold: bool = False
    ) -> None:
        """One line of text, the top left corner of its line box at ``at_mm``."""
        self.set_font(FAMILY, "B" if bold else "", size_pt)
        baseline = at_mm[1] + 0.5 * line_mm(size_pt) + 0.3 * size_pt * POINT_MM
        self.text(at_mm[0], baseline, text)

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

    def rule(
        self, x0: float, y0: float, x1: float, y1: float, *,
        thick_mm: float = 0.2, grey: int = 0,
    ) -> None:
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
