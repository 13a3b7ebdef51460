"""A page that SVG elements are collected on: cloth millimetres in, page positions out."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape

from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from stash.sentences import Reader
from stash.sentences.quantities import written
from stash.sentences.saying import piece_named
from stash.sentences.translations import translated


@dataclass(frozen=True)
class Lettering:
    """How large a drawing's letters are: ``across`` of their units make up the cloth, and none
    is smaller than ``least`` units. ``seen`` is the class of the drawing, which a page shows
    on a desk or on a phone only."""

    across: float
    least: float
    seen: str


ON_PAPER = Lettering(38, 0.0, "on-desk")
ON_PHONE = Lettering(24, 1.0, "on-phone")
"""With the margins a unit is a thirtieth of the width: 9 px on a card of a phone 360 px wide."""


class Sketch:
    """Collects SVG elements; ``unit`` is the height of its smallest readable lettering, and
    ``told`` what is said below the drawing of pieces that bear only a number."""

    def __init__(self, bounds: tuple[float, float, float, float], reader: Reader,
                 lettering: Lettering = ON_PAPER):
        self.left, self.low, self.right, self.high = bounds
        self.reader = reader
        self.lettering = lettering
        self.unit = max(self.right - self.left, 0.8 * (self.high - self.low)) / lettering.across
        self.parts: list[str] = []
        self.told: list[tuple[int, str]] = []

    def length(self, mm: float) -> str:
        """A length as the person reads it."""
        return written("_mm", mm, self.reader)

    def spare(self, mm: float) -> str:
        """What is left over, never more than the sentence beside the drawing promises."""
        return written("spare_mm", mm, self.reader)

    def turn(self, degrees: float) -> str:
        """How far a piece is turned."""
        return written("_deg", degrees, self.reader)

    def word(self, text: str, **values: str) -> str:
        """A word of the drawing in the reader's language."""
        return translated(text, self.reader.language).format(**values)

    def cut(self, name: str, numbers: str) -> str:
        """A piece and its copies: a draft's in the reader's language, her own as she named it."""
        return f"{piece_named(name, self.reader)} {numbers}".rstrip()

    def add(self, text: str) -> None:
        """Append one element."""
        self.parts.append(text)

    def path(self, shape: BaseGeometry, css: str, stroke: float = 0.12, extra: str = "") -> None:
        """Outline with holes; y runs up in the cloth and down on the page."""
        polygons = [g for g in getattr(shape, "geoms", [shape]) if isinstance(g, Polygon)]
        rings = [r for g in polygons for r in (g.exterior, *g.interiors)]
        d = " ".join(
            "M" + " ".join(f"{x:.1f},{self.y(y):.1f}" for x, y in r.coords[:-1]) + "Z"
            for r in rings
        )
        self.add(
            f'<path class="{css}" fill-rule="evenodd" stroke-width="{stroke * self.unit:.1f}" '
            f'd="{d}"{extra}/>'
        )

    def line(
        self, css: str, ends: tuple[float, float, float, float], width: float, dash: str = ""
    ) -> None:
        """A straight line; ``dash`` in units of lettering."""
        x0, y0, x1, y1 = ends
        pattern = " ".join(f"{float(v) * self.unit:.1f}" for v in dash.split())
        self.add(
            f'<line class="{css}" x1="{x0:.1f}" y1="{self.y(y0):.1f}" x2="{x1:.1f}" '
            f'y2="{self.y(y1):.1f}" stroke-width="{width * self.unit:.1f}"'
            + (f' stroke-dasharray="{pattern}"' if pattern else "") + "/>"
        )

    def text(self, at: tuple[float, float], words: str, size: float = 1.0, css: str = "",
             turn: float = 0.0) -> None:
        """Centred lettering, turned clockwise on the page by ``turn`` degrees."""
        x, y = at[0], self.y(at[1])
        size = max(size, self.lettering.least)
        turning = f' transform="rotate({turn:g} {x:.1f} {y:.1f})"' if turn else ""
        self.add(
            f'<text x="{x:.1f}" y="{y:.1f}" dy=".35em" font-size="{size * self.unit:.1f}"'
            f'{f" class={chr(34)}{css}{chr(34)}" if css else ""}{turning}>{escape(words)}</text>'
        )

    def y(self, y_mm: float) -> float:
        """Page height of a cloth height."""
        return self.high + self.low - y_mm
