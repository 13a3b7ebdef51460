"""A lay drawn to scale as SVG text: pattern paper on cloth, one unit one millimetre.

The drawing stands alone (print, file) and takes its colours from CSS variables of the
page it is put into, with a dark scheme of its own.
"""

from __future__ import annotations

from html import escape
from math import cos, radians, sin

from shapely import LineString, Point, Polygon, affinity, box
from shapely.geometry.base import BaseGeometry
from shapely.ops import polylabel

from stash.lay.check import placed_polygon
from stash.lay.task import LayTask
from stash.model import Lay, Piece, Placement, Spread
from stash.units import System, format_length

STYLE = """
.lay{--ground:#f4efe4;--cloth:#fffdf8;--ink:#2d3a3f;--soft:#8d9a94;--paper:#e3d3ad;--paper2:#cfdcd3;
--rest:#b9ac93;--mark:#a8442a;background:var(--ground);
font-family:ui-rounded,"Avenir Next",Candara,"Segoe UI",sans-serif}
@media (prefers-color-scheme:dark){.lay{--ground:#1d2426;--cloth:#2a3335;--ink:#ebe4d3;
--soft:#8b9a98;--paper:#6d6142;--paper2:#41594e;--rest:#6a6351;--mark:#eb9a7b}}
@media print{.lay{--ground:#fff;--cloth:#fff;--ink:#000;--soft:#555;--paper:#eee;
--paper2:#ddd;--rest:#999;--mark:#000}}
.lay .cloth{fill:var(--cloth);stroke:var(--ink)}
.lay .piece{fill:var(--paper);stroke:var(--ink);stroke-linejoin:round}
.lay .piece.mirror{fill:var(--paper2)}
.lay .rest{fill:url(#lay-rest);stroke:none}
.lay .grain,.lay .edge{stroke:var(--ink);fill:none}
.lay .print{stroke:var(--soft);fill:none}
.lay .fold{stroke:var(--mark);fill:none}
.lay .selvedge{stroke:var(--ink);fill:none}
.lay text{fill:var(--ink);text-anchor:middle}
.lay .halo{paint-order:stroke;stroke:var(--cloth);stroke-width:.5em;stroke-linejoin:round}
.lay .quiet{fill:var(--soft)}
.lay .folded{fill:var(--mark)}
.lay .tip{fill:var(--ink);stroke:none}
.lay .spot{fill:var(--mark);stroke:none}
"""


class Sketch:
    """Collects SVG elements; ``unit`` is the height of its smallest readable lettering."""

    def __init__(self, bounds: tuple[float, float, float, float], system: System):
        self.left, self.low, self.right, self.high = bounds
        self.system = system
        self.unit = max(self.right - self.left, 0.8 * (self.high - self.low)) / 38
        self.parts: list[str] = []

    def length(self, mm: float) -> str:
        """A length as the person reads it."""
        return format_length(mm, self.system)

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
        turning = f' transform="rotate({turn:g} {x:.1f} {y:.1f})"' if turn else ""
        self.add(
            f'<text x="{x:.1f}" y="{y:.1f}" dy=".35em" font-size="{size * self.unit:.1f}"'
            f'{f" class={chr(34)}{css}{chr(34)}" if css else ""}{turning}>{escape(words)}</text>'
        )

    def y(self, y_mm: float) -> float:
        """Page height of a cloth height."""
        return self.high + self.low - y_mm


def draw(task: LayTask, lay: Lay, title: str = "", system: System = System.METRIC) -> str:
    """The lay as a standalone SVG document (text), in millimetres, y up as on the table."""
    cloth = _cloth(task, lay)
    sketch = Sketch(cloth.bounds, system)
    pieces = {p.name: p for p in task.pieces}
    laid = [
        (p, pieces[p.piece.rpartition("#")[0]]) for p in lay.placements
    ]
    shapes = [placed_polygon(piece, p) for p, piece in laid]
    sketch.path(cloth, "cloth", 0.2)
    _draw_rest(sketch, cloth, lay)
    _draw_print(sketch, task, cloth)
    for (p, piece), shape in zip(laid, shapes, strict=True):
        _draw_piece(sketch, p, piece, shape)
        if task.repeat is not None and piece.match_points_mm:
            _draw_match(sketch, p, piece)
    _draw_fold(sketch, lay)
    _draw_edges(sketch, task, lay, cloth)
    return _document(sketch, task, lay, title)


def _cloth(task: LayTask, lay: Lay) -> Polygon:
    if task.cloth is not None:
        return Polygon(task.cloth.ring_mm, task.cloth.holes_mm)
    return box(0, 0, lay.length_mm, task.width_mm)


def _draw_rest(sketch: Sketch, cloth: Polygon, lay: Lay) -> None:
    """What is left beyond the length used, hatched and measured."""
    left, low, right, high = cloth.bounds
    spare = right - lay.length_mm
    if spare < 1:
        return
    sketch.path(cloth.intersection(box(lay.length_mm, low, right, high)), "rest", 0.1)
    sketch.line("edge", (lay.length_mm, low, lay.length_mm, high), 0.12, "0.6 0.4")
    if spare > 5 * sketch.unit:
        middle = ((lay.length_mm + right) / 2, (low + high) / 2)
        sketch.text(middle, f"left over {sketch.length(spare)}", 1.2, "halo", -90)


def _draw_print(sketch: Sketch, task: LayTask, cloth: Polygon) -> None:
    """Lines of the repeat, lightly, across the whole cloth."""
    if task.repeat is None:
        return
    left, low, right, high = cloth.bounds
    for pitch, vertical in (
        (task.repeat.lengthwise_mm, True), (task.repeat.crosswise_mm, False)
    ):
        start, end = (left, right) if vertical else (low, high)
        if not pitch or (end - start) / pitch > 400:
            continue
        at = -(-start // pitch) * pitch
        while at <= end:
            ends = (at, low, at, high) if vertical else (left, at, right, at)
            sketch.line("print", ends, 0.05)
            at += pitch


def _draw_piece(sketch: Sketch, p: Placement, piece: Piece, shape: Polygon) -> None:
    sketch.path(shape, "piece mirror" if p.mirrored else "piece", 0.14)
    x0, y0, x1, y1 = shape.bounds
    upright = (y1 - y0) > 1.6 * (x1 - x0)
    at = _label_point(shape, upright)
    words = Words(p, piece, upright)
    if upright and not 45 < p.turn_deg % 180 < 135:  # the arrow would cross the lettering
        ahead = _room(shape, at, 0.0, 1.0)
        behind = _room(shape, at, 0.0, -1.0)
        _draw_grain(sketch, p, shape, Point(at.x, at.y - 0.6 * behind))
        middle = Point(at.x, at.y + 0.5 * (ahead - 0.4 * behind))
        _draw_name(sketch, words, shape, middle, 0.8 * (ahead + 0.4 * behind))
    else:
        _draw_grain(sketch, p, shape, at)
        along = 2 * min(_room(shape, at, *words.way), _room(shape, at, *(-v for v in words.way)))
        _draw_name(sketch, words, shape, at, along)


def _label_point(shape: Polygon, upright: bool) -> Point:
    """Where lettering has most room both ways; the middle when that is nearly as good."""
    x0, y0, x1, y1 = shape.bounds
    way = (0.0, 1.0) if upright else (1.0, 0.0)

    def worth(at: Point) -> float:
        if not shape.contains(at):
            return 0.0
        along = min(_room(shape, at, *way), _room(shape, at, -way[0], -way[1]))
        return min(shape.exterior.distance(at), along / 3)

    steps = [k / 10 for k in range(1, 10)]
    grid = [Point(x0 + a * (x1 - x0), y0 + b * (y1 - y0)) for a in steps for b in steps]
    best = max([*grid, polylabel(shape, 2.0)], key=worth)
    return shape.centroid if worth(shape.centroid) >= 0.85 * worth(best) else best


class Words:
    """What is written on a piece: its name and copy, and how it lies."""

    def __init__(self, p: Placement, piece: Piece, upright: bool):
        name, _, number = p.piece.rpartition("#")
        self.name = f"{name} {number}" if piece.quantity > 1 else name
        self.notes = _notes(p, piece)
        self.upright = upright
        self.way = (0.0, 1.0) if upright else (1.0, 0.0)


def _draw_name(
    sketch: Sketch, words: Words, shape: Polygon, at: Point, along_mm: float
) -> None:
    """Name on one side of the line through ``at``, how the piece lies on the other."""
    room = 2 * shape.exterior.distance(at) / sketch.unit
    letters = max(len(words.name), 0.72 * len(words.notes))
    size = min(1.15, room / (3.4 if words.notes else 2.6), along_mm / sketch.unit / (0.6 * letters))
    size = max(0.3, size)
    turn = -90 if words.upright else 0
    lift = 0.66 * size * sketch.unit
    dx, dy = (-lift, 0) if words.upright else (0, lift)
    sketch.text((at.x + dx, at.y + dy), words.name, size, turn=turn)
    if words.notes:
        sketch.text((at.x - 1.05 * dx, at.y - 1.05 * dy), words.notes, 0.72 * size, turn=turn)


def _notes(p: Placement, piece: Piece) -> str:
    words = []
    if p.turn_deg % 360:
        words.append(f"turned {p.turn_deg:g}°")
    if p.mirrored:
        words.append("face down")
    if piece.grain_turn_deg:
        words.append("bias")
    return ", ".join(words)


def _draw_match(sketch: Sketch, p: Placement, piece: Piece) -> None:
    """The point that lies on the print."""
    x, y = piece.match_points_mm[0]
    spot = affinity.rotate(Point(x, -y if p.mirrored else y), p.turn_deg, origin=(0, 0))
    sketch.add(
        f'<circle class="spot" cx="{spot.x + p.x_mm:.1f}" '
        f'cy="{sketch.y(spot.y + p.y_mm):.1f}" r="{0.3 * sketch.unit:.1f}"/>'
    )


def _draw_grain(sketch: Sketch, p: Placement, shape: Polygon, at: Point) -> None:
    """The piece's own grain arrow: its head shows which way up the piece lies."""
    angle = radians(p.turn_deg)
    c, s = cos(angle), sin(angle)
    room = min(_room(shape, at, c, s), _room(shape, at, -c, -s))
    reach = min(0.8 * room, 4.5 * sketch.unit)
    x0, y0, x1, y1 = at.x - c * reach, at.y - s * reach, at.x + c * reach, at.y + s * reach
    sketch.line("grain", (x0, y0, x1, y1), 0.09)
    h = min(0.55 * sketch.unit, reach)
    tip = [(x1, y1), (x1 - h * (c + 0.45 * s), y1 - h * (s - 0.45 * c)),
           (x1 - h * (c - 0.45 * s), y1 - h * (s + 0.45 * c))]
    points = " ".join(f"{x:.1f},{sketch.y(y):.1f}" for x, y in tip)
    sketch.add(f'<polygon class="tip" points="{points}"/>')


def _room(shape: Polygon, at: Point, c: float, s: float) -> float:
    """How far the piece reaches from a point in a direction, before its edge."""
    x0, y0, x1, y1 = shape.bounds
    far = (x1 - x0) + (y1 - y0)
    ray = LineString([(at.x, at.y), (at.x + c * far, at.y + s * far)])
    cut = shape.intersection(ray)
    runs = [g for g in getattr(cut, "geoms", [cut]) if g.length and g.distance(at) < 1e-6]
    return max((g.length for g in runs), default=0.0)


def _draw_fold(sketch: Sketch, lay: Lay) -> None:
    if lay.fold_mm is None:
        return
    u = sketch.unit
    if lay.spread is Spread.LENGTHWISE:
        ends = (sketch.left, lay.fold_mm, sketch.right, lay.fold_mm)
        sketch.text((sketch.left - 1.1 * u, lay.fold_mm), "fold", 1.0, "folded", turn=-90)
    else:
        ends = (lay.fold_mm, sketch.low, lay.fold_mm, sketch.high)
        sketch.text((lay.fold_mm, sketch.high + 0.9 * u), "fold", 1.0, "folded")
    sketch.line("fold", ends, 0.22, "1.2 0.4 0.25 0.4")


def _draw_edges(sketch: Sketch, task: LayTask, lay: Lay, cloth: Polygon) -> None:
    """Selvedges, the length used and the width, and the way the cloth runs."""
    left, low, right, high = cloth.bounds
    u = sketch.unit
    used = min(lay.length_mm, right)
    for y in (low, high):
        sketch.line("selvedge", (left, y, right, y), 0.32, "0.3 0.3")
    y = low - 1.1 * u
    sketch.line("edge", (left, y, used, y), 0.09)
    for x in (left, used):
        sketch.line("edge", (x, y - 0.4 * u, x, y + 0.4 * u), 0.09)
    sketch.text(((left + used) / 2, y - 1.1 * u), f"{sketch.length(used - left)} used", 1.25)
    x = right + 1.1 * u
    sketch.line("edge", (x, low, x, high), 0.09)
    for y in (low, high):
        sketch.line("edge", (x - 0.4 * u, y, x + 0.4 * u, y), 0.09)
    wide = f"{sketch.length(high - low)} wide"
    sketch.text((x + 1.1 * u, (low + high) / 2), wide, 1.25, turn=-90)
    sketch.text((left + 4.4 * u, high + 0.9 * u), "selvedge", 0.85, "quiet")
    if task.one_way:
        _draw_direction(sketch, right, high)


def _draw_direction(sketch: Sketch, right: float, high: float) -> None:
    u = sketch.unit
    y = high + 0.9 * u
    sketch.line("fold", (right - 5 * u, y, right - 0.6 * u, y), 0.16)
    tip = [(right, y), (right - 0.9 * u, y + 0.45 * u), (right - 0.9 * u, y - 0.45 * u)]
    points = " ".join(f"{x:.1f},{sketch.y(v):.1f}" for x, v in tip)
    sketch.add(f'<polygon class="spot" points="{points}"/>')
    sketch.text((right - 7.6 * u, y), "one way", 0.95, "folded")


_SPREAD_WORDS = {
    Spread.OPEN: "open, single layer",
    Spread.LENGTHWISE: "folded lengthwise, shown opened out",
    Spread.CROSSWISE: "folded crosswise, shown opened out",
}


def _document(sketch: Sketch, task: LayTask, lay: Lay, title: str) -> str:
    u = sketch.unit
    above = (4.2 if title else 2.6) * u
    left, top = sketch.left - 2.2 * u, sketch.low - above
    wide = sketch.right - sketch.left + 5.4 * u
    tall = sketch.high - sketch.low + above + 4.6 * u
    caption = f"{_SPREAD_WORDS[lay.spread]}; {lay.utilisation:.0%} of the cloth used is in pieces"
    if title:
        sketch.text(((sketch.left + sketch.right) / 2, sketch.high + 3.1 * u), title, 1.5)
    sketch.text(
        ((sketch.left + sketch.right) / 2, sketch.low - 3.7 * u), caption, 0.9, "quiet"
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="lay" role="img" '
        f'viewBox="{left:.1f} {top:.1f} {wide:.1f} {tall:.1f}" '
        f'aria-label="{escape(title or "lay", quote=True)}: {escape(caption, quote=True)}">'
        f"<title>{escape(title or 'lay')}</title><style>{STYLE}</style>"
        f'<defs><pattern id="lay-rest" width="{1.1 * u:.1f}" height="{1.1 * u:.1f}" '
        f'patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line x1="0" y1="0" x2="0" '
        f'y2="{1.1 * u:.1f}" stroke="var(--rest)" stroke-width="{0.3 * u:.1f}"/></pattern></defs>'
        + "".join(sketch.parts)
        + "</svg>"
    )
