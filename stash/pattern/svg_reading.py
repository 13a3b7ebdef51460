"""Pieces out of an SVG drawing that states its physical size."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace

import shapely
from shapely.geometry import LineString, Polygon

from stash.fact import Fact, fact
from stash.model import Role
from stash.pattern.annotation import read_annotation
from stash.pattern.drawn import UNNAMED, Drawn, Reading, reading_of
from stash.pattern.rings import Polyline, closed_rings, is_closed, outermost
from stash.pattern.sizes import SizeInDrawing, size_named, the_one
from stash.pattern.svg_lines import Drawing, SvgLine, read_lines

GRAIN = re.compile(r"grain|fadenlauf|droit.?fil", re.I)
GRAIN_DOWN_THE_PAGE_DEG = -90.0
PAGE_SHARE = 0.9
NESTED = 0.6  # two sizes of one piece share at least so much of their paper: chosen here


def read_svg(
    data: bytes, units: str | None = None, grain_deg: float | None = None,
    size: str | None = None,
) -> Reading:
    """The pieces of an SVG file: one for each closed line that lies in no other.

    Its width and height must be in mm, cm, in, pt, pc or Q; ``units`` (mm, cm, in)
    says instead what one unit of the drawing is. Transforms are applied, curves
    flattened to 0.1 mm. The grain is taken to run down the page, as pieces are drawn,
    unless ``grain_deg`` says otherwise (counter-clockwise from the reading direction).
    Of several sizes ``size`` is read; InvalidInput names them where none was chosen.
    """
    drawing = read_lines(data, units)
    own = [line for line in drawing.lines if line.piece is not None]
    if own:
        return reading_of(_own_pieces(own), GRAIN_DOWN_THE_PAGE_DEG)
    pieces, notes = _foreign_pieces(_of_one_size(drawing, size))
    if grain_deg is not None:
        return reading_of(pieces, grain_deg, notes)
    notes.append(fact("grain_taken_down_page"))
    return reading_of(pieces, GRAIN_DOWN_THE_PAGE_DEG, notes)


def sizes_of_svg(data: bytes, units: str | None = None) -> tuple[SizeInDrawing, ...]:
    """The sizes that a drawing holds, in order; none where it holds one."""
    return tuple(size for size, _ in _sized(read_lines(data, units)))


def _of_one_size(drawing: Drawing, asked: str | None) -> Drawing:
    """The drawing with the lines of one size, and those that are of none."""
    sized = _sized(drawing)
    chosen = the_one((size.name for size, _ in sized), asked)
    if chosen is None:
        return drawing
    others = {id(line) for size, lines in sized if size.name != chosen for line in lines}
    return replace(drawing, lines=tuple(x for x in drawing.lines if id(x) not in others))


def _sized(drawing: Drawing) -> list[tuple[SizeInDrawing, list[SvgLine]]]:
    """The lines of each size, by the names of layers, else by the style of nested lines."""
    layers: dict[str, list[SvgLine]] = defaultdict(list)
    found: dict[str, SizeInDrawing] = {}
    for line in drawing.lines:
        if line.layer and (size := size_named(line.layer)):
            found.setdefault(size.name, size)
            layers[size.name].append(line)
    if len(found) > 1:
        return [(found[name], lines) for name, lines in layers.items()]
    styles: dict[str, list[SvgLine]] = defaultdict(list)
    for line in drawing.lines:
        if is_closed(line.points):
            styles[line.style].append(line)
    return _nested(styles)


def _nested(styles: dict[str, list[SvgLine]]) -> list[tuple[SizeInDrawing, list[SvgLine]]]:
    """Styles that draw the same pieces one within another, the smallest first."""
    if len(styles) < 2 or len({len(lines) for lines in styles.values()}) > 1:
        return []
    shapes = {
        style: [Polygon(line.points).buffer(0) for line in lines]
        for style, lines in styles.items()
    }
    first = next(iter(shapes.values()))
    for others in shapes.values():
        if not all(any(_overlap(a, b) > NESTED for b in others) for a in first):
            return []
    ordered = sorted(styles, key=lambda style: sum(s.area for s in shapes[style]))
    return [(SizeInDrawing(str(n)), styles[s]) for n, s in enumerate(ordered, 1)]


def _overlap(one: Polygon, other: Polygon) -> float:
    """How much of two shapes is common to both."""
    both = one.union(other).area
    return float(one.intersection(other).area / both) if both else 0.0


def _own_pieces(lines: Sequence[SvgLine]) -> list[Drawn]:
    """Pieces from a drawing of our own, whose lines say what they are."""
    groups: dict[str, dict[str, list[SvgLine]]] = defaultdict(lambda: defaultdict(list))
    for line in lines:
        groups[line.piece or ""][line.kind].append(line)
    return [_own_piece(name, kinds) for name, kinds in groups.items() if kinds.get("cut")]


def _own_piece(name: str, kinds: dict[str, list[SvgLine]]) -> Drawn:
    cut = kinds["cut"][0]
    facts = cut.facts
    quantity, role = facts.get("quantity", "1"), facts.get("role", "main")
    folds = [line.points for line in kinds.get("fold", ())]
    return Drawn(
        name=name,
        ring=cut.points,
        fold=(folds[0][0], folds[-1][-1]) if folds and facts.get("on-fold") == "true" else None,
        grain=((0.0, 0.0), (0.0, -1.0)),
        stitch=max((line.points for line in kinds.get("stitch", ())), key=len, default=()),
        marks=tuple(line.points for line in kinds.get("mark", ())),
        notches=tuple(line.points[0] for line in kinds.get("notch", ())),
        quantity=int(quantity) if quantity.isdecimal() and 0 < int(quantity) <= 200 else 1,
        mirrored_pair=facts.get("mirrored-pair") == "true",
        role=Role(role) if role in set(Role) else Role.MAIN,
    )


def _foreign_pieces(drawing: Drawing) -> tuple[list[Drawn], list[Fact]]:
    """Pieces from any other drawing: outer closed lines, and what lies within each."""
    lines = drawing.lines
    rings = closed_rings([line.points for line in lines])
    names = {line.points: line.name for line in lines}
    tops = outermost(rings)
    notes: list[Fact] = []
    if len(tops) == 1 and tops[0][1] and _is_page(tops[0][0], drawing):
        notes.append(fact("page_frame_left_out"))
        rings = [rings[i] for i in tops[0][1]]
        tops = outermost(rings)
    open_lines = [line.points for line in lines if not is_closed(line.points)]
    pieces = []
    for ring, inner in tops:
        shape = shapely.make_valid(Polygon(ring))
        shapely.prepare(shape)
        said = read_annotation(t for t, at in drawing.texts if shape.contains(shapely.Point(at)))
        inside = [m for m in open_lines if len(m) > 1 and shape.contains(LineString(m))]
        grain = next((m for m in inside if GRAIN.search(names.get(m, ""))), None)
        pieces.append(
            Drawn(
                name=said.name or names.get(ring) or UNNAMED,
                ring=ring,
                grain=(grain[0], grain[-1]) if grain else None,
                marks=tuple([rings[i] for i in inner] + [m for m in inside if m is not grain]),
                quantity=said.quantity,
                mirrored_pair=said.mirrored_pair,
                says_fold=said.on_fold,
                role=said.role,
            )
        )
    return pieces, notes


def _is_page(ring: Polyline, drawing: Drawing) -> bool:
    """True for a rectangle about as large as the page: a background or a frame."""
    shape = Polygon(ring)
    left, low, right, high = shape.bounds
    box_area = (right - left) * (high - low)
    return shape.area > 0.999 * box_area and box_area > PAGE_SHARE * drawing.page_mm2

