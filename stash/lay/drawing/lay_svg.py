"""A lay drawn to scale as SVG text: pattern paper on cloth, one unit one millimetre.

The drawing stands alone (print, file) and takes its colours from CSS variables of the
page it is put into, with a dark scheme of its own.
"""

from __future__ import annotations

from collections.abc import Callable
from html import escape
from math import ceil, floor
from textwrap import wrap

from shapely import LineString, Polygon, box
from shapely.geometry.base import BaseGeometry
from shapely.ops import polylabel

from stash.lay.drawing.known_selvedges import BENEATH, draw_known
from stash.lay.drawing.on_table import CutOut, OnTable, on_table, selvedges_seen
from stash.lay.drawing.phone import PhonePieces, draw_told
from stash.lay.drawing.pieces import draw_match, draw_piece
from stash.lay.drawing.svg import ON_PAPER, ON_PHONE, Lettering, Sketch
from stash.lay.task import LayTask
from stash.model import Lay, Spread
from stash.sentences import METRIC, Reader
from stash.sentences.manner import apart
from stash.sentences.quantities import written

WIDTH_OF_LETTER = 0.56  # of its height, in the mean
WORD_SELVEDGE, WORD_ONE_WAY = 4.4, 8.2  # room along the edge, in units of lettering

STYLE = """
.lay{--ground:#f4efe4;--cloth:#fffdf8;--ink:#2d3a3f;--soft:#5f6c66;--paper:#e3d3ad;--paper2:#cfdcd3;
--rest:#b9ac93;--mark:#a8442a;background:var(--ground);
font-family:ui-rounded,"Avenir Next",Candara,"Segoe UI",sans-serif}
@media (prefers-color-scheme:dark){.lay{--ground:#1d2426;--cloth:#2a3335;--ink:#ebe4d3;
--soft:#8b9a98;--paper:#6d6142;--paper2:#41594e;--rest:#6a6351;--mark:#eb9a7b}}
.lay .cloth{fill:var(--cloth);stroke:var(--ink);stroke-linejoin:round}
.lay .piece{fill:var(--paper);stroke:var(--ink);stroke-linejoin:round}
.lay .piece.mirror{fill:var(--paper2)}
.lay .under{fill:url(#lay-under);stroke:none;display:none}
.lay .beneath{fill-opacity:.45;stroke-dasharray:1.5% .8%}
.lay .rest{fill:url(#lay-rest);stroke:none}
.lay.on-phone .under{fill:url(#lay-under-on-phone)}
.lay.on-phone .rest{fill:url(#lay-rest-on-phone)}
.lay .number{font-weight:700}
.lay .grain,.lay .edge{stroke:var(--ink);fill:none}
.lay .print{stroke:var(--soft);fill:none}
.lay .fold{stroke:var(--mark);fill:none}
.lay .selvedge{stroke:var(--ink);fill:none}
.lay text{fill:var(--ink);text-anchor:middle}
.lay text.row{text-anchor:start}
.lay .halo{paint-order:stroke;stroke:var(--cloth);stroke-width:.5em;stroke-linejoin:round}
.lay .faint{fill:var(--soft)}
.lay .folded{fill:var(--mark)}
.lay .tip{fill:var(--ink);stroke:none}
.lay .spot{fill:var(--mark);stroke:none}
.lay .bare{fill:var(--cloth);stroke:none}
.lay .beside{fill:var(--paper);fill-opacity:.3;stroke:var(--soft)}
.lay .tape{stroke:var(--mark);fill:none}
.lay .measure{fill:var(--mark);font-weight:600}
.lay a:hover .piece{fill:var(--mark);fill-opacity:.35}
@media print{.lay{--ground:#fff;--cloth:#fff;--ink:#000;--soft:#555;--paper:#eee;
--paper2:#fff;--rest:#999;--mark:#000}.lay .under{display:inline}}
"""


def draw(
    task: LayTask, lay: Lay, title: str = "", reader: Reader = METRIC, note: str = "",
    *, on_phone: bool = False,
) -> str:
    """The lay as a standalone SVG document (text), in millimetres, y up as on the table. Folded
    cloth is drawn folded: its upper layer is seen, what is cut double is drawn once.

    ``note`` is a sentence of its own below the caption, such as what matching costs. For a
    phone it has fewer and larger words.
    """
    if on_phone:
        drawn = PhonePieces(on_table(task, lay))
        return document(sketched(task, lay, reader, drawn, ON_PHONE), lay, title, (note, STYLE))
    return document(sketched(task, lay, reader, draw_piece), lay, title, (note, STYLE))


def sketched(
    task: LayTask, lay: Lay, reader: Reader, piece_drawn: Callable[[Sketch, CutOut], None],
    lettering: Lettering = ON_PAPER,
) -> Sketch:
    """The cloth as it lies and everything on it, each piece drawn as one is told."""
    table = on_table(task, lay)
    sketch = Sketch(table.cloth.bounds, reader, lettering)
    for layer in (table.lower, table.upper):
        if layer is not None:
            sketch.path(layer, "cloth", 0.2)
    _draw_rest(sketch, table, lay)
    _draw_print(sketch, task, table)
    for cut in table.cut_outs:
        piece_drawn(sketch, cut)
        if task.repeat is not None:
            draw_match(sketch, cut)
    _draw_edges(sketch, task, table, lay)
    _draw_fold(sketch, table)
    return sketch


def _draw_rest(sketch: Sketch, table: OnTable, lay: Lay) -> None:
    """What is left beyond the length used, hatched and measured."""
    cloth = table.cloth
    left, low, right, high = cloth.bounds
    spare = right - lay.length_mm
    if spare < 1 or table.spread is Spread.CROSSWISE:
        return
    rest = cloth.intersection(box(lay.length_mm, low, right, high))
    sketch.path(rest, "rest", 0.1)
    end = cloth.intersection(LineString([(lay.length_mm, low), (lay.length_mm, high)]))
    for run in getattr(end, "geoms", [end]):
        if run.length > 0:
            (_, start), (_, stop) = run.coords[0], run.coords[-1]
            sketch.line("edge", (lay.length_mm, start, lay.length_mm, stop), 0.12, "0.6 0.4")
    words = sketch.word("left over {length}", length=sketch.spare(spare))
    parts = [g for g in getattr(rest, "geoms", [rest]) if isinstance(g, Polygon)]
    part = max(parts, key=lambda g: g.area)
    middle = part.centroid if part.convex_hull.area < 1.01 * part.area else polylabel(part, 2.0)
    if part.exterior.distance(middle) > 1.5 * sketch.unit:
        x0, y0, x1, y1 = part.bounds
        upright = x1 - x0 < 0.7 * len(words) * sketch.unit and y1 - y0 > x1 - x0
        if 1.2 * WIDTH_OF_LETTER * len(words) * sketch.unit < (y1 - y0 if upright else x1 - x0):
            sketch.text((middle.x, middle.y), words, 1.2, "halo", -90 if upright else 0)


def _draw_print(sketch: Sketch, task: LayTask, table: OnTable) -> None:
    """Lines of the repeat, lightly, across the whole cloth as it is seen."""
    if task.repeat is None:
        return
    left, low, right, high = table.cloth.bounds
    along, across = task.repeat.lengthwise_mm, task.repeat.crosswise_mm
    aside = table.shift_mm
    for y in _multiples(across, low - aside, high - aside):
        sketch.line("print", (left, y + aside, right, y + aside), 0.05)
    if not (task.repeat.half_drop and along and across):
        for x in _multiples(along, left, right):
            sketch.line("print", (x, low, x, high), 0.05)
        return
    for y in _multiples(across, low - aside - across, high - aside + across):
        drop = along / 2 if round(y / across) % 2 else 0.0
        ends = max(low, y + aside - across / 2), min(high, y + aside + across / 2)
        for x in _multiples(along, left - drop, right - drop):
            if ends[0] < ends[1]:
                sketch.line("print", (x + drop, ends[0], x + drop, ends[1]), 0.05)


def _multiples(pitch: float | None, start: float, end: float) -> list[float]:
    """Where the print recurs between two edges; nothing when too fine to be told apart."""
    if not pitch or (end - start) / pitch > 400:
        return []
    return [k * pitch for k in range(ceil(start / pitch), floor(end / pitch) + 1)]


def _draw_fold(sketch: Sketch, table: OnTable) -> None:
    """The fold is an edge of the cloth as it lies."""
    u = sketch.unit
    if table.spread is Spread.LENGTHWISE:
        ends = (sketch.left, 0.0, sketch.right, 0.0)
        sketch.text((sketch.left - 1.1 * u, 0.0), "fold", 1.0, "folded", turn=-90)
    elif table.spread is Spread.CROSSWISE:
        ends = (sketch.right, sketch.low, sketch.right, sketch.high)
        sketch.text((sketch.right, sketch.high + 0.9 * u), "fold", 1.0, "folded")
    else:
        return
    sketch.line("fold", ends, 0.22, "1.2 0.4 0.25 0.4")


def _draw_edges(sketch: Sketch, task: LayTask, table: OnTable, lay: Lay) -> None:
    """Selvedges, the length used and the width, and the way the cloth runs."""
    left, low, right, high = table.cloth.bounds
    u = sketch.unit
    used = min(lay.length_mm, right)
    if task.selvedges_mm:
        draw_known(sketch, table, selvedges_seen(task, lay))
    else:
        _draw_selvedges(sketch, table, task)
    y = low - 1.1 * u
    sketch.line("edge", (left, y, used, y), 0.09)
    for x in (left, used):
        sketch.line("edge", (x, y - 0.4 * u, x, y + 0.4 * u), 0.09)
    words = sketch.word("{length} used", length=sketch.length(used - left))
    if table.spread is Spread.CROSSWISE:
        words = sketch.word(
            "{folded} folded, {length} used", folded=sketch.length(used - left),
            length=sketch.length(lay.length_mm - left))
    sketch.text(((left + used) / 2, y - 1.1 * u), words, 1.25)
    x = right + 1.1 * u
    sketch.line("edge", (x, low, x, high), 0.09)
    for y in (low, high):
        sketch.line("edge", (x - 0.4 * u, y, x + 0.4 * u, y), 0.09)
    wide = sketch.word("{width} wide", width=sketch.length(high - low))
    if table.spread is Spread.LENGTHWISE:
        wide = sketch.word("{width} folded", width=sketch.length(high - low))
    sketch.text((x + 1.1 * u, (low + high) / 2), wide, 1.25, turn=-90)
    if task.one_way:
        _draw_direction(sketch, right, high)


def _draw_selvedges(sketch: Sketch, table: OnTable, task: LayTask) -> None:
    """Of cloth folded lengthwise both lie on the far side from the fold, one over the other
    where it is folded in the middle; else one on each side."""
    room = WORD_SELVEDGE + WORD_ONE_WAY * task.one_way
    if table.spread is not Spread.LENGTHWISE or table.lower is None:
        _draw_selvedge(sketch, table.cloth, table.cloth.bounds[1], 0.0)
        _draw_selvedge(sketch, table.cloth, table.cloth.bounds[3], room)
        return
    upper, lower = table.upper.bounds[3], table.lower.bounds[3]
    if abs(upper - lower) < 1:
        _draw_selvedge(sketch, table.upper, upper, room, "both selvedges")
    else:
        _draw_selvedge(sketch, table.upper, upper, room, "selvedge")
        _draw_selvedge(sketch, table.lower, lower, room, BENEATH)


def _draw_selvedge(
    sketch: Sketch, cloth: BaseGeometry, y: float, room: float, word: str = "selvedge"
) -> None:
    """Only where an edge of the cloth really lies there: a remnant may have lost its own.
    Named where the edge has ``room`` for the word, in units of lettering (0: not here)."""
    x0, _, x1, _ = cloth.bounds
    kept = cloth.boundary.intersection(LineString([(x0, y), (x1, y)]))
    said = sketch.word(word)
    for run in getattr(kept, "geoms", [kept]):
        if run.length > 0:
            (start, _), (end, _) = run.coords[0], run.coords[-1]
            sketch.line("selvedge", (start, y, end, y), 0.32, "0.3 0.3")
            if room and run.length > (room + 0.5 * (len(said) - 8)) * sketch.unit:
                aside = (0.24 * len(said) + 0.3) * sketch.unit
                if word == BENEATH:  # clear of the upper one's word
                    at = (max(start, end) - aside, y - 0.9 * sketch.unit)
                    sketch.text(at, said, 0.85, "faint halo")
                else:
                    at = (min(start, end) + aside, y + 0.9 * sketch.unit)
                    sketch.text(at, said, 0.85, "faint")


def _draw_direction(sketch: Sketch, right: float, high: float) -> None:
    u = sketch.unit
    y = high + 0.9 * u
    sketch.line("fold", (right - 3.6 * u, y, right - 0.6 * u, y), 0.16)
    tip = [(right, y), (right - 0.9 * u, y + 0.45 * u), (right - 0.9 * u, y - 0.45 * u)]
    points = " ".join(f"{x:.1f},{sketch.y(v):.1f}" for x, v in tip)
    sketch.add(f'<polygon class="spot" points="{points}"/>')
    said = sketch.word("one way")
    half = WIDTH_OF_LETTER / 2 * len(said) * max(0.95, sketch.lettering.least) * u
    sketch.text((right - 3.9 * u - half, y), said, 0.95, "folded")


_SPREAD_WORDS = {
    Spread.OPEN: "open, single layer",
    Spread.LENGTHWISE: "folded lengthwise, as it lies on the table",
    Spread.CROSSWISE: "folded crosswise, as it lies on the table",
}


def document(sketch: Sketch, lay: Lay, title: str, extra: tuple[str, str] = ("", ""),
             role: str = "img") -> str:
    """What was sketched with its caption as one SVG; ``extra`` is a further note, and a style
    of its own where it stands alone. Its ``role`` is "group" where something in it is tapped."""
    note, style = extra
    u = sketch.unit
    caption = (
        sketch.word(_SPREAD_WORDS[lay.spread]),
        sketch.word("{share} of the cloth used is in pieces",
                    share=written("share_pct", round(100 * lay.utilisation), sketch.reader)),
        note,
    )
    middle, y = (sketch.left + sketch.right) / 2, sketch.low - 3.7 * u
    wide = sketch.right - sketch.left + 5.4 * u
    room = (wide - 1.2 * u) / (WIDTH_OF_LETTER * u)  # letters that stay inside on both sides
    lines = _lines([words for words in caption if words], room / max(0.9, sketch.lettering.least),
                   sketch.reader)
    for k, line in enumerate(lines):
        sketch.text((middle, y - 1.25 * k * u), line, 0.9, "faint")
    headed = title and sketch.lettering is not ON_PHONE  # there the page says it, just above
    if headed:
        size = min(1.5, room / len(title))
        sketch.text((middle, sketch.high + 3.1 * u), title, size)
    above = (4.2 if headed else 2.6) * u
    left, top = sketch.left - 2.2 * u, sketch.low - above
    below = (3.4 + 1.25 * len(lines)) * u
    below += draw_told(sketch, left, wide, sketch.low - below + 0.3 * u)
    tall = sketch.high - sketch.low + above + below
    said = apart((words for words in caption if words), sketch.reader)
    called = escape(title or sketch.word("lay"), quote=True)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="lay {sketch.lettering.seen}" '
        f'role="{role}" viewBox="{left:.1f} {top:.1f} {wide:.1f} {tall:.1f}" '
        f'aria-label="{called}: {escape(said, quote=True)}">'
        f"<title>{called}</title>{f'<style>{style}</style>' if style else ''}"
        + _hatching(sketch)
        + "".join(sketch.parts)
        + "</svg>"
    )


def _hatching(sketch: Sketch) -> str:
    """What is left over, and what lies face down in print; each drawing of a page has its own."""
    u, ids = sketch.unit, f"-{sketch.lettering.seen}" if sketch.lettering is ON_PHONE else ""
    return (
        f'<defs><pattern id="lay-rest{ids}" width="{1.1 * u:.1f}" height="{1.1 * u:.1f}" '
        f'patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line x1="0" y1="0" x2="0" '
        f'y2="{1.1 * u:.1f}" stroke="var(--rest)" stroke-width="{0.3 * u:.1f}"/></pattern>'
        f'<pattern id="lay-under{ids}" width="{0.7 * u:.1f}" height="{0.7 * u:.1f}" '
        f'patternUnits="userSpaceOnUse"><circle cx="{0.3 * u:.1f}" cy="{0.3 * u:.1f}" '
        f'r="{0.07 * u:.2f}" fill="var(--soft)"/></pattern></defs>'
    )


def _lines(sayings: list[str], most_letters: float, reader: Reader) -> list[str]:
    """Sayings joined on lines of so many letters, broken between words where one is longer."""
    lines: list[str] = []
    for saying in sayings:
        for line in wrap(saying, max(12, int(most_letters))):
            if lines and line == saying and len(lines[-1]) + 2 + len(line) <= most_letters:
                lines[-1] = apart((lines[-1], line), reader)
            else:
                lines.append(line)
    return lines
