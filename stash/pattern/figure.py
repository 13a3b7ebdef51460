"""How one piece is drawn: its lines and words on paper, in millimetres, whatever the medium.

Pieces stand upright as they do on a paper pattern: the grain runs down the page,
so a point (x along the grain, y across) of the piece lies at (y, x) of the page,
whose Y runs downwards. That is a turn, not a mirror image.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum
from math import atan2, cos, sin

import shapely
from shapely.geometry import LineString, Polygon, box

from stash.model import MarkKind, Piece, Point
from stash.pattern.edge_names import edge_words
from stash.pattern.grain_arrow import grain_arrow
from stash.pattern.lettering import Style, Words, caption, fold_words, largest, size_square
from stash.pattern.marked import mark_lines, mark_words
from stash.sentences.quantities import written
from stash.units import System

NOTCH_MM = 6.0
SQUARE_MM = {System.METRIC: 50.0, System.INCHES: 50.8}  # 5 cm, 2 in: a ruler shows either


class Ink(StrEnum):
    """What a line stands for; each medium gives it a weight and a colour."""

    CUT = "cut"
    STITCH = "stitch"
    GRAIN = "grain"
    NOTCH = "notch"
    FOLD = "fold"
    MARK = "mark"
    DIMENSION = "dimension"


@dataclass(frozen=True)
class Stroke:
    """A line on the page; closed ones return to their first point."""

    ink: Ink
    points_mm: tuple[Point, ...]
    closed: bool = False


@dataclass(frozen=True)
class Figure:
    """One drawn piece: everything lies inside (0, 0) to (width_mm, height_mm)."""

    piece: Piece
    shape: Polygon
    strokes: tuple[Stroke, ...]
    words: tuple[Words, ...]
    width_mm: float
    height_mm: float

    def moved(self, right_mm: float, down_mm: float) -> Figure:
        """The same figure further right and down the page."""
        return replace(
            self,
            shape=shapely.transform(self.shape, lambda p: p + (right_mm, down_mm)),
            strokes=tuple(
                replace(s, points_mm=tuple((x + right_mm, y + down_mm) for x, y in s.points_mm))
                for s in self.strokes
            ),
            words=tuple(
                replace(w, at_mm=(w.at_mm[0] + right_mm, w.at_mm[1] + down_mm))
                for w in self.words
            ),
        )


def draw_piece(piece: Piece, style: Style) -> Figure:
    """The figure of one piece, shifted so that nothing lies left of or above the origin."""
    shape = Polygon(upright(piece.outline_mm))
    if style.half_on_fold and piece.on_fold:
        shape = largest(shape.intersection(half_plane(shape)))
    lines, snips = list(inner_lines(piece, shape)), list(notches(piece, shape))
    edges = shapely.union_all([LineString(s.points_mm).buffer(0.5) for s in [*lines, *snips]]
                              + [shape.exterior.buffer(0.5)])
    words = fold_words(shape, style, edges) if piece.on_fold else []
    fold = list(fold_line(piece, shape))
    folded = shapely.union_all([edges, *(LineString(s.points_mm).buffer(0.5) for s in fold)])
    words += mark_words(piece, shape, style, (folded, words))
    kept = drawn([*lines, *snips, *fold], words)
    sewn = _stitched(piece, shape)
    named = edge_words(piece, shape, style) if style.edge_names else []
    words += caption(piece, sewn.difference(kept), shape, style, named)
    kept = drawn([*lines, *snips, *fold], words)
    rooms = (sewn.difference(kept), sewn.difference(drawn([*_points(piece), *snips], words)),
             shape.difference(drawn((), words)), shape)
    grain = [Stroke(Ink.GRAIN, line)
             for line in grain_arrow(rooms, piece.grain_turn_deg, style.letter_mm)]
    strokes = [Stroke(Ink.CUT, ring(shape), closed=True), *lines, *snips, *grain,
               *fold]
    words += named
    if style.complete:
        side = SQUARE_MM[style.reader.system]
        square = size_square(sewn.difference(drawn([*lines, *snips, *grain], words)), side)
        strokes += [Stroke(Ink.DIMENSION, ring(square), closed=True)] if square else []
        words += [_square_words(square, style)] if square else []
    if style.dimensions:
        strokes += dimension_lines(shape, style)
        words += dimension_words(shape, style)
    return boxed(piece, shape, strokes, words)


def drawn(strokes: Iterable[Stroke], words: Iterable[Words] = ()) -> shapely.Geometry:
    """The paper that marks and words on a piece take up."""
    lines = [LineString(s.points_mm).buffer(2.0) for s in strokes if s.ink is not Ink.STITCH]
    return shapely.union_all([*lines, *(w.spot.buffer(0.3 * w.height_mm) for w in words)])


def _stitched(piece: Piece, shape: Polygon) -> Polygon:
    """The drawn part inside the stitching; all of it where there is none."""
    if len(piece.stitch_mm) < 3:
        return shape
    inside = Polygon(upright(piece.stitch_mm)).buffer(0)
    return largest(shape.intersection(inside).buffer(-0.5), shape)


def _points(piece: Piece) -> Iterable[Stroke]:
    """The marks that no arrow may cross, whatever else it crosses."""
    for mark in piece.marks:
        if len(mark.at_mm) == 1 or mark.kind in (MarkKind.DART, MarkKind.BUTTONHOLE):
            yield from (Stroke(Ink.MARK, upright(line)) for line in mark_lines(mark))


def _square_words(square: Polygon, style: Style) -> Words:
    """How large the square in a piece must come out."""
    left, top, right, foot = square.bounds
    side = written("measure_mm", right - left, style.reader)
    return Words(f"{side} × {side}", ((left + right) / 2, (top + foot) / 2), 5.0)


def upright(points: Iterable[Point]) -> tuple[Point, ...]:
    """Points of a piece as points of the page."""
    return tuple((y, x) for x, y in points)


def ring(shape: Polygon) -> tuple[Point, ...]:
    """The outer ring of a polygon, not closed."""
    return tuple((float(x), float(y)) for x, y in shape.exterior.coords[:-1])


def half_plane(shape: Polygon) -> Polygon:
    """Everything on the right of the fold, which is the page's X = 0."""
    _, top, right, foot = shape.bounds
    return box(0, top - 1, right + 1, foot + 1)


def inner_lines(piece: Piece, shape: Polygon) -> Iterable[Stroke]:
    """Stitching line and marks, as far as they lie on the drawn part."""
    if len(piece.stitch_mm) > 2:
        line = LineString(upright((*piece.stitch_mm, piece.stitch_mm[0])))
        yield from clipped(line, shape, Ink.STITCH)
    if piece.marks:
        yield from _typed_marks(piece, shape)
        return
    for mark in piece.marks_mm:
        if len(mark) > 1:
            yield from clipped(LineString(upright(mark)), shape, Ink.MARK)
        elif mark:
            ((x, y),) = upright(mark)
            yield Stroke(Ink.MARK, ((x - 3, y), (x + 3, y)))
            yield Stroke(Ink.MARK, ((x, y - 3), (x, y + 3)))


def _typed_marks(piece: Piece, shape: Polygon) -> Iterable[Stroke]:
    """The lines of every mark whose kind is known."""
    for mark in piece.marks:
        if mark.kind in (MarkKind.NOTCH, MarkKind.DOUBLE_NOTCH):
            continue
        ink = Ink.FOLD if mark.kind is MarkKind.FOLD else Ink.MARK
        for points in mark_lines(mark):
            yield from clipped(LineString(upright(points)), shape, ink)


def clipped(line: LineString, shape: Polygon, ink: Ink) -> Iterable[Stroke]:
    """The parts of a line that lie on the piece."""
    kept = line.intersection(shape.buffer(0.05))
    for part in shapely.get_parts(shapely.line_merge(kept)):
        if isinstance(part, LineString) and part.length > 0.1:
            yield Stroke(ink, tuple((float(x), float(y)) for x, y in part.coords))


def fold_line(piece: Piece, shape: Polygon) -> Iterable[Stroke]:
    """The line that lies on the fold of the cloth."""
    if piece.on_fold:
        _, top, _, foot = shape.bounds
        yield from clipped(LineString([(0, top), (0, foot)]), shape, Ink.FOLD)


def notches(piece: Piece, shape: Polygon) -> Iterable[Stroke]:
    """A short stroke from the cutting edge inwards at each notch."""
    edge = shape.exterior
    for point in upright(piece.notches_mm):
        spot = shapely.Point(point)
        if shape.distance(spot) > NOTCH_MM:
            continue
        along = edge.project(spot)
        start = edge.interpolate(along)
        before, after = edge.interpolate(along - 0.5), edge.interpolate(along + 0.5)
        turn = atan2(after.y - before.y, after.x - before.x)
        for side in (1, -1):
            end = (start.x - side * sin(turn) * NOTCH_MM, start.y + side * cos(turn) * NOTCH_MM)
            middle = (start.x + end[0]) / 2, (start.y + end[1]) / 2
            if shape.contains(shapely.Point(middle)):
                yield Stroke(Ink.NOTCH, ((start.x, start.y), end))
                break


def dimension_lines(shape: Polygon, style: Style) -> list[Stroke]:
    """A line over the width and one beside the length, with end strokes."""
    left, top, right, foot = shape.bounds
    gap, tick = 1.6 * style.letter_mm, 0.5 * style.letter_mm
    over, beside = top - gap, left - gap
    pairs = [
        ((left, over), (right, over)),
        ((left, over - tick), (left, over + tick)),
        ((right, over - tick), (right, over + tick)),
        ((beside, top), (beside, foot)),
        ((beside - tick, top), (beside + tick, top)),
        ((beside - tick, foot), (beside + tick, foot)),
    ]
    return [Stroke(Ink.DIMENSION, pair) for pair in pairs]


def dimension_words(shape: Polygon, style: Style) -> list[Words]:
    """The width and the length of the drawn shape."""
    left, top, right, foot = shape.bounds
    gap, (size,) = 2.5 * style.letter_mm, style.heights([0.9])
    across, along = (written("measure_mm", mm, style.reader) for mm in (right - left, foot - top))
    return [
        Words(across, ((left + right) / 2, top - gap), size),
        Words(along, (left - gap, (top + foot) / 2), size, -90.0),
    ]


def boxed(piece: Piece, shape: Polygon, strokes: list[Stroke], words: list[Words]) -> Figure:
    """Shift everything so that the figure starts at the origin of the page."""
    xs = [x for s in strokes for x, _ in s.points_mm]
    ys = [y for s in strokes for _, y in s.points_mm]
    for said in words:
        left, top, right, foot = said.spot.bounds
        xs += [left, right]
        ys += [top, foot]
    whole = Figure(piece, shape, tuple(strokes), tuple(words), max(xs) - min(xs), max(ys) - min(ys))
    return whole.moved(-min(xs), -min(ys))
