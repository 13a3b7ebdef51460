"""A figure wider than a roll of paper: turned, else parted into strips that are glued together."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from math import ceil

import shapely
from shapely.affinity import rotate, translate
from shapely.geometry import LineString, box

from stash.model import Point
from stash.pattern.figure import Figure, Ink, Stroke
from stash.pattern.lettering import Style, Words, largest, word
from stash.sentences.saying import piece_named

LAP_MM = 20.0  # of paper, glued under the next strip; chosen here
CROSS_EVERY_MM, CROSS_MM = 200.0, 6.0


def fitted(figure: Figure, width_mm: float, style: Style) -> tuple[Figure, ...]:
    """The figure as it goes on paper of this width: as it is, turned a quarter, or in strips from
    left to right, each ending in a line named alike on both and lapping over it.
    """
    if figure.width_mm <= width_mm:
        return (figure,)
    if figure.height_mm <= width_mm:
        return (_turned(figure),)
    step = width_mm - LAP_MM - 2 * style.letter_mm
    count = ceil(figure.width_mm / step)
    return tuple(_strip(figure, (n, count), step, style) for n in range(count))


def _turned(figure: Figure) -> Figure:
    """A quarter turn clockwise; words that would stand on their heads are turned again."""
    def point(at: Point) -> Point:
        return figure.height_mm - at[1], at[0]

    return replace(
        figure,
        shape=translate(rotate(figure.shape, 90, origin=(0, 0)), figure.height_mm),
        strokes=tuple(replace(s, points_mm=tuple(map(point, s.points_mm)))
                      for s in figure.strokes),
        words=tuple(replace(w, at_mm=point(w.at_mm), turn_deg=_upright(w.turn_deg + 90))
                    for w in figure.words),
        width_mm=figure.height_mm, height_mm=figure.width_mm,
    )


def _upright(turn_deg: float) -> float:
    return turn_deg - 180 if turn_deg > 90 else turn_deg


def _strip(figure: Figure, which: tuple[int, int], step: float, style: Style) -> Figure:
    """The ``which`` of so many strips, ``step`` wide and a lap more where another follows."""
    number, count = which
    left, last = number * step, number == count - 1
    right = figure.width_mm if last else left + step
    band = box(left - 0.01, -1, right + (0 if last else LAP_MM), figure.height_mm + 1)
    strokes = [part for s in figure.strokes for part in _within(s, band)]
    words = [w for w in figure.words if left <= w.at_mm[0] < right]
    if number:
        strokes += _seam(left, figure.height_mm)
        words.append(_named(figure, (left, 1), number, style))
    if not last:
        strokes += _seam(right, figure.height_mm)
        words.append(_named(figure, (right, -1), number + 1, style))
    shape = largest(shapely.intersection(figure.shape, band), figure.shape)
    ends = [x for w in words for x in w.spot.bounds[::2]] + [left, right + (0 if last else LAP_MM)]
    whole = replace(figure, shape=shape, strokes=tuple(strokes), words=tuple(words),
                    width_mm=max(ends) - min(ends), height_mm=figure.height_mm)
    return whole.moved(-min(ends), 0.0)


def _within(stroke: Stroke, band: shapely.Geometry) -> Iterable[Stroke]:
    """The parts of a line on a strip."""
    points = (*stroke.points_mm, stroke.points_mm[0]) if stroke.closed else stroke.points_mm
    for part in shapely.get_parts(shapely.line_merge(
            shapely.intersection(LineString(points), band))):
        if isinstance(part, LineString) and part.length > 0.1:
            yield Stroke(stroke.ink, tuple((float(x), float(y)) for x, y in part.coords))


def _seam(x: float, tall_mm: float) -> Sequence[Stroke]:
    """The line where two strips meet, and the crosses that must lie on one another."""
    ups = [k * CROSS_EVERY_MM for k in range(1, int(tall_mm / CROSS_EVERY_MM) + 1)]
    crosses = [Stroke(Ink.DIMENSION, ((x - CROSS_MM, y), (x + CROSS_MM, y))) for y in ups]
    return [Stroke(Ink.DIMENSION, ((x, 0.0), (x, tall_mm))), *crosses]


def _named(figure: Figure, beside: tuple[float, int], number: int, style: Style) -> Words:
    """What a joining line is called: the same on both strips."""
    x, side = beside
    name = piece_named(figure.piece.name, style.reader)
    said = word(style, "{piece}: join on line {number}", piece=name, number=str(number))
    letter = 0.6 * style.letter_mm
    return Words(said, (x + side * 1.2 * letter, 0.5 * figure.height_mm), letter, 90.0)
