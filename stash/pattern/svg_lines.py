"""The lines and words of an SVG file in millimetres, y upwards, every transform applied."""

from __future__ import annotations

import io
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import acos, ceil, isfinite, sqrt

import svgelements as svg

from stash.errors import InvalidInput
from stash.model import Point
from stash.pattern.rings import MOST_POINTS, Polyline
from stash.pattern.sizes import size_named
from stash.pattern.xml_guard import root_attributes

MOST_BYTES = 10_000_000
FLATTEN_MM = 0.1
UNIT_MM = {"mm": 1.0, "cm": 10.0, "in": 25.4}
PAPER_UNIT_MM = {**UNIT_MM, "pt": 25.4 / 72, "pc": 25.4 / 6, "q": 0.25}  # CSS Values and Units
PHYSICAL = re.compile(
    r"\s*\+?((?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*(mm|cm|in|pt|pc|q)\s*", re.I
)
MEANINGLESS = re.compile(r"(?:path|rect|poly\w*|shape|layer|group|circle|ellipse|g)?[-_\d]*", re.I)
LABEL = re.compile(r"(?:.*[}:])?label")


@dataclass(frozen=True)
class SvgLine:
    """One line of the drawing; ``facts`` are its data attributes, those of its group included.

    ``layer`` is the name of the nearest group that speaks of a size, ``style`` its colour and
    dashes.
    """

    points: Polyline
    name: str
    kind: str
    facts: Mapping[str, str]
    layer: str = ""
    style: str = ""

    @property
    def piece(self) -> str | None:
        """The piece it belongs to, in a drawing of our own."""
        return self.facts.get("piece")


@dataclass(frozen=True)
class Drawing:
    """Everything an SVG file shows that matters for pieces."""

    lines: tuple[SvgLine, ...]
    texts: tuple[tuple[str, Point], ...]
    page_mm2: float


def read_lines(data: bytes, units: str | None) -> Drawing:
    """The lines and texts of the file; InvalidInput when it is no sound SVG of known size."""
    if len(data) > MOST_BYTES:
        raise InvalidInput("svg_too_large")
    root = root_attributes(data)
    if units is not None and units not in UNIT_MM:
        raise InvalidInput("not_a_file_unit", typed=units, field="units")
    width_mm = None if units else _stated_width_mm(root)
    document = _document(data)
    placing = _placing(document, width_mm, units)
    lines, texts, count = [], [], 0
    for element, label, layer in _elements(document, "", ""):
        if isinstance(element, svg.Text):
            at = svg.Point(element.x, element.y) * element.transform * placing
            texts.append((str(element.text or ""), (float(at.x), -float(at.y))))
            continue
        for points in _flattened(element, placing):
            count += len(points)
            if count > MOST_POINTS:
                raise InvalidInput("svg_too_many_points")
            lines.append(_line(element, points, label, layer))
    page_mm2 = float(document.width) * float(document.height) * abs(placing.determinant)
    return Drawing(tuple(lines), tuple(texts), page_mm2)


def _stated_width_mm(root: Mapping[str, str]) -> float:
    """The width of the page; a drawing that does not state its size is refused, saying why."""
    sizes = [root.get("width", ""), root.get("height", "")]
    stated = [PHYSICAL.fullmatch(size) for size in sizes]
    known = [size for size in stated if size is not None and float(size.group(1)) > 0]
    if len(known) == len(stated):
        return float(known[0].group(1)) * PAPER_UNIT_MM[known[0].group(2).lower()]
    said = " and ".join(s for s in sizes if s)
    raise InvalidInput("svg_size_unknown", said=said or '—', field="units")


def _placing(document: svg.SVG, width_mm: float | None, units: str | None) -> svg.Matrix:
    """From the drawing's own units to mm; InvalidInput where its sizes make no sense."""
    try:
        if width_mm is not None:
            return svg.Matrix.scale(width_mm / float(document.width))
        placing = ~svg.Matrix(document.viewbox_transform) if document.viewbox else svg.Matrix()
        return placing * svg.Matrix.scale(UNIT_MM[units or "mm"])
    except (ArithmeticError, TypeError, ValueError) as error:
        raise InvalidInput("svg_damaged") from error


def _document(data: bytes) -> svg.SVG:
    """The parsed drawing; a parser fed with anything may fail in any way."""
    try:
        document = svg.SVG.parse(io.BytesIO(data))
    except Exception as error:
        raise InvalidInput("svg_damaged") from error
    if not isinstance(document, svg.SVG):
        raise InvalidInput("svg_empty")
    return document


def _elements(
    group: Iterable[svg.SVGElement], label: str, layer: str
) -> Iterable[tuple[svg.SVGElement, str, str]]:
    """Every drawn shape and text with its own name, or that of the nearest named group, and the
    nearest name that speaks of a size.
    """
    for element in group:
        own, written = _name(element), _written(element)
        sized = written if size_named(written) else layer
        if isinstance(element, (svg.Group, svg.Use)):
            yield from _elements(element, own or label, sized)
        elif isinstance(element, svg.Text) or (
            isinstance(element, svg.Shape) and not isinstance(element, svg.Image)
        ):
            yield element, own or label, sized


def _written(element: svg.SVGElement) -> str:
    """The label of an element, or its id without what an id may not begin without."""
    attributes = element.values.get("attributes") or {}
    label = next((str(v) for k, v in attributes.items() if LABEL.fullmatch(str(k))), "")
    return label or str(attributes.get("id") or "").strip("_").replace("_", " ")


def _name(element: svg.SVGElement) -> str:
    attributes = element.values.get("attributes") or {}
    for key, value in attributes.items():
        if LABEL.fullmatch(str(key)):
            return str(value)
    given = str(attributes.get("id") or "")
    return "" if MEANINGLESS.fullmatch(given) else given


def _line(element: svg.SVGElement, points: Polyline, label: str, layer: str) -> SvgLine:
    facts = {k[5:]: str(v) for k, v in element.values.items() if str(k).startswith("data-")}
    kind = str(element.values.get("class") or "")
    return SvgLine(points, label, kind, facts, layer, _style(element))


def _style(element: svg.SVGElement) -> str:
    """Colour and dashes, however they are written."""
    written = dict(
        part.split(":", 1) for part in str(element.values.get("style") or "").split(";")
        if ":" in part
    )
    said = {k.strip(): v.strip() for k, v in written.items()}
    colour = said.get("stroke") or str(element.values.get("stroke") or "")
    dashes = said.get("stroke-dasharray") or str(element.values.get("stroke-dasharray") or "")
    return f"{colour.lower()} {' '.join(dashes.replace(',', ' ').split())}".strip()


def _flattened(shape: svg.Shape, placing: svg.Matrix) -> Iterable[Polyline]:
    """Each continuous line of a shape, in mm with y upwards, within 0.1 mm of its curves."""
    try:
        path = svg.Path(shape) * placing
        path.reify()
        parts = [list(part) for part in path.as_subpaths()]
    except (TypeError, ValueError, ArithmeticError, AttributeError):
        return
    for part in parts:
        points = [p for segment in part for p in _points(segment)]
        line = tuple((float(p.x), -float(p.y)) for p in points)
        if len(line) > 1 and all(isfinite(x) and isfinite(y) for x, y in line):
            yield line


def _points(segment: svg.PathSegment) -> list[svg.Point]:
    """The points a segment adds to a line, its end included."""
    if segment.end is None:
        return []
    if isinstance(segment, (svg.Move, svg.Line, svg.Close)):
        return [segment.end]
    steps = _steps(segment)
    return [segment.point(i / steps) for i in range(1, steps)] + [segment.end]


def _steps(segment: svg.PathSegment) -> int:
    """Enough chords that none strays further than the tolerance from the curve."""
    if isinstance(segment, svg.Arc):
        radius = max(segment.rx, segment.ry, FLATTEN_MM)
        chord = 2 * acos(max(0.0, 1 - FLATTEN_MM / radius))
        wanted = abs(segment.sweep) / chord
    else:
        knots = [segment.start, *_controls(segment), segment.end]
        bend = max(abs(a - 2 * b + c) for a, b, c in zip(knots, knots[1:], knots[2:], strict=False))
        wanted = sqrt(len(knots) * (len(knots) - 1) * bend / (8 * FLATTEN_MM))
    return min(2000, max(2, ceil(wanted))) if isfinite(wanted) else 2


def _controls(segment: svg.PathSegment) -> list[svg.Point]:
    if isinstance(segment, svg.CubicBezier):
        return [segment.control1, segment.control2]
    return [segment.control]
