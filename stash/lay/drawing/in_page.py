"""A lay drawn into a page: each piece leads to its own drawing, large, with its chalk marks.

The page takes the colours from :data:`stash.lay.drawing.lay_svg.STYLE` as a stylesheet.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from html import escape
from itertools import pairwise
from math import cos, radians, sin

import shapely
from shapely import box
from shapely.geometry.base import BaseGeometry
from shapely.ops import polylabel

from stash.lay.drawing.lay_svg import document, sketched
from stash.lay.drawing.on_table import CutOut, OnTable, on_table
from stash.lay.drawing.phone import PhonePieces, draw_named
from stash.lay.drawing.pieces import draw_arrow, draw_paper, draw_piece
from stash.lay.drawing.positions import Position, in_cutting_order
from stash.lay.drawing.svg import ON_PHONE, Sketch
from stash.lay.task import LayTask
from stash.model import Lay, Spread
from stash.quantity import Quantity
from stash.sentences import Reader
from stash.sentences.quantities import shown

MARGIN_SHARE = 0.16
"""Of the piece's larger side, how much of the cloth round it is shown."""
LEAST_MARGIN_MM = 60.0
LETTERS = 1.55
"""Height of the measures, in units: read at arm's length."""
SIDE_BY_SIDE = 13.0
"""Two measures stand side by side where their marks are so many units apart."""

PieceDrawn = Callable[[Sketch, CutOut], None]


@dataclass(frozen=True)
class InPage:
    """The whole lay, for a desk and for a phone, and each piece alone in cutting order, as SVG
    text."""

    lay: str
    on_phone: str
    alone: tuple[str, ...]


def draw_in_page(task: LayTask, lay: Lay, key: str, reader: Reader) -> InPage:
    """The lay whose pieces lead to ``#KEY-1``, ``#KEY-2``, in cutting order, and those pieces."""
    table = on_table(task, lay)
    rows = in_cutting_order(table)
    number = {cut.copies + (cut.piece.name,): n for n, (_row, cut) in enumerate(rows, 1)}

    def linked(drawn: PieceDrawn, sketch: Sketch, cut: CutOut) -> None:
        leads = f"#{key}-{number[cut.copies + (cut.piece.name,)]}"
        sketch.add(f'<a href="{escape(leads, quote=True)}" tabindex="-1" '
                   f'aria-label="{escape(sketch.cut(cut.piece.name, cut.numbers), quote=True)}">')
        drawn(sketch, cut)
        sketch.add("</a>")

    on_desk = sketched(task, lay, reader, partial(linked, draw_piece))
    on_phone = sketched(task, lay, reader, partial(linked, PhonePieces(table)), ON_PHONE)
    return InPage(
        lay=document(on_desk, lay, "", role="group"),
        on_phone=document(on_phone, lay, "", role="group"),
        alone=tuple(_alone(table, row, cut, reader) for row, cut in rows))


def _alone(table: OnTable, row: Position, cut: CutOut, reader: Reader) -> str:
    """One piece with the cloth round it, and a tape along the end and the selvedge."""
    x0, y0, x1, y1 = cut.shape.bounds
    margin = max(MARGIN_SHARE * max(x1 - x0, y1 - y0), LEAST_MARGIN_MM)
    seen = (x0 - margin, y0 - margin, x1 + margin, y1 + margin)
    sketch = Sketch(seen, reader, ON_PHONE)
    window = box(*seen)
    for layer in (table.lower, table.upper):
        if layer is not None:
            sketch.path(layer.intersection(window), "bare")
            _edges(sketch, layer.boundary.intersection(window))
    for other in table.cut_outs:
        if other is not cut and other.shape.intersects(window):
            sketch.path(other.shape.intersection(window), "beside", 0.08)
    draw_paper(sketch, cut)
    if not draw_named(sketch, cut, sketch.cut(cut.piece.name, cut.numbers)):
        draw_arrow(sketch, cut)
    _tape_along(sketch, row, (x0, x1), y0)
    _tape_across(sketch, row, (y0, y1), table.spread is Spread.LENGTHWISE)
    if row.turn_deg % 90:
        _grain_ends(sketch, table, cut)
    return _framed(sketch, cut)


def _edges(sketch: Sketch, edges: BaseGeometry) -> None:
    """The cloth's own edges, as far as they are seen."""
    for run in shapely.get_parts(edges):
        if isinstance(run, shapely.LineString):
            for (x0, y0), (x1, y1) in pairwise(run.coords):
                sketch.line("selvedge", (x0, y0, x1, y1), 0.2)


def _framed(sketch: Sketch, cut: CutOut) -> str:
    u = sketch.unit
    left, top = sketch.left - 5.5 * u, sketch.low - u
    wide = sketch.right - left + u
    tall = sketch.high - sketch.low + 7.5 * u
    label = escape(sketch.cut(cut.piece.name, cut.numbers), quote=True)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="lay" role="img" aria-label="{label}" '
        f'viewBox="{left:.1f} {top:.1f} {wide:.1f} {tall:.1f}">' + "".join(sketch.parts)
        + "</svg>")


def _tape_along(sketch: Sketch, row: Position, ends: tuple[float, float], foot: float) -> None:
    """Along the cloth: how far from its near end the piece begins and ends."""
    u, at = sketch.unit, sketch.low - 1.2 * sketch.unit
    sketch.line("tape", (sketch.left, at, sketch.right, at), 0.12)
    apart = ends[1] - ends[0] > SIDE_BY_SIDE * u
    for n, (x, mm) in enumerate(zip(
            ends, (row.from_end_mm, row.from_end_mm + row.length_mm), strict=True)):
        sketch.line("tape", (x, at - 0.4 * u, x, foot), 0.12, "0.5 0.35")
        below = at - (1.6 if apart or not n else 3.4) * u
        sketch.text((x, below), _tape(sketch, mm), LETTERS, "measure")
    said = sketch.word("from the near end")
    below = at - (3.3 if apart else 5.1) * u
    sketch.text(((ends[0] + ends[1]) / 2, below), said, 1.15, "faint")


def _tape_across(
    sketch: Sketch, row: Position, ends: tuple[float, float], from_above: bool
) -> None:
    """Across the cloth: how far from the selvedge, which lies above on cloth folded lengthwise."""
    u, at = sketch.unit, sketch.left - 1.2 * sketch.unit
    sketch.line("tape", (at, sketch.low, at, sketch.high), 0.12)
    apart = ends[1] - ends[0] > SIDE_BY_SIDE * u
    near, far = row.from_selvedge_mm, row.from_selvedge_mm + row.width_mm
    marks = (far, near) if from_above else (near, far)
    for n, (y, mm) in enumerate(zip(ends, marks, strict=True)):
        sketch.line("tape", (at - 0.4 * u, y, sketch.left + 1.5 * u, y), 0.12, "0.5 0.35")
        aside = at - (1.6 if apart or not n else 3.2) * u
        sketch.text((aside, y), _tape(sketch, mm), LETTERS, "measure", turn=-90)
    if ends[1] - ends[0] > 2 * SIDE_BY_SIDE * u:
        said = sketch.word("from the selvedge")
        sketch.text((at - 1.5 * u, (ends[0] + ends[1]) / 2), said, 1.15, "faint", turn=-90)


def _tape(sketch: Sketch, mm: float) -> str:
    """As it is read off a tape."""
    return shown(mm, Quantity.PATTERN, sketch.reader)


def _grain_ends(sketch: Sketch, table: OnTable, cut: CutOut) -> None:
    """Of a piece that lies askew, two points of its grain line, each from end and selvedge."""
    left, low, _, high = table.upper.bounds
    middle = polylabel(cut.shape, 2.0)
    way = radians(cut.seen.turn_deg)
    for share in (-1, 1):
        reach = share * 0.8 * cut.shape.exterior.distance(middle)
        x, y = middle.x + reach * cos(way), middle.y + reach * sin(way)
        across = high - y if table.spread is Spread.LENGTHWISE else y - low
        sketch.add(f'<circle class="spot" cx="{x:.1f}" cy="{sketch.y(y):.1f}" '
                   f'r="{0.35 * sketch.unit:.1f}"/>')
        said = f"{_tape(sketch, x - left)} / {_tape(sketch, across)}"
        sketch.text((x, y + 1.2 * sketch.unit), said, 1.1, "measure halo")
