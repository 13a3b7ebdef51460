"""Marks as they are drawn: each kind's lines, and the word that says what it is."""

from __future__ import annotations

from collections.abc import Iterable
from math import atan2, cos, degrees, hypot, pi, sin

import shapely
from shapely.geometry import LineString, Polygon

from stash.model import Mark, MarkKind, Piece, Point
from stash.pattern.lettering import ADVANCE, Style, Words, word

Polyline = tuple[Point, ...]
BAR_MM, BUTTON_MM, CROSS_MM, DRILL_MM = 6.0, 4.0, 6.0, 1.5
SAID = {
    MarkKind.FOLD: "fold", MarkKind.CENTRE: "centre", MarkKind.SIDE_SEAM: "side seam",
    MarkKind.OVERLAP: "overlap from here", MarkKind.POCKET: "pocket", MarkKind.ROLL: "roll line",
    MarkKind.CREASE: "crease", MarkKind.HIP: "hip line", MarkKind.CROTCH: "crotch line",
    MarkKind.WAIST: "waist", MarkKind.OPENING: "opening ends", MarkKind.SLIT: "slit",
    MarkKind.LENGTHEN: "lengthen or shorten here", MarkKind.PLEAT_FOLD: "fold the pleat",
    MarkKind.PLEAT_TO: "pleat to here", MarkKind.GATHER: "gather",
    MarkKind.BUST: "bust point",
}


def mark_lines(mark: Mark) -> Iterable[Polyline]:
    """The lines of one mark, in the piece's own frame."""
    points = mark.at_mm
    if mark.kind is MarkKind.BUTTON:
        yield from _button(points[0])
    elif mark.kind is MarkKind.BUTTONHOLE:
        yield points
        yield from (_bar(points, end) for end in points)
    elif mark.kind is MarkKind.DART:
        yield points
        yield _ring(points[1], DRILL_MM)
    elif len(points) == 1:
        (x, y), arm = points[0], CROSS_MM / 2
        yield (x - arm, y), (x + arm, y)
        yield (x, y - arm), (x, y + arm)
    else:
        yield points


def drill_points(piece: Piece) -> Iterable[Point]:
    """Where a mark is a single point in the cloth: buttons, tips of darts, places."""
    for mark in piece.marks:
        if mark.kind is MarkKind.DART:
            yield mark.at_mm[1]
        elif mark.kind in (MarkKind.BUTTON, MarkKind.PLACE, MarkKind.BUST):
            yield mark.at_mm[0]


def mark_words(piece: Piece, shape: Polygon, style: Style) -> list[Words]:
    """A small word beside each line that has one, where it is long enough to bear it."""
    letter = 0.55 * style.letter_mm
    words = []
    for mark in piece.marks:
        said = word(style, SAID[mark.kind]) if mark.kind in SAID else None
        line = [(y, x) for x, y in mark.at_mm]  # the page stands upright
        if said is not None and len(line) == 1 and shape.covers(shapely.Point(line[0])):
            words.append(_at_its_side(line[0], said, letter))
        if said is None or len(line) < 2:
            continue
        kept = shapely.intersection(LineString(line), shape)
        parts = [p for p in shapely.get_parts(kept) if isinstance(p, LineString)]
        longest = max(parts, key=lambda p: float(p.length), default=None)
        if longest is not None and longest.length > 1.15 * len(said) * ADVANCE * letter:
            words.append(_beside(longest, said, letter))
    return words


def _at_its_side(at: Point, said: str, letter: float) -> Words:
    """The word of a point, below its cross."""
    return Words(said, (at[0], at[1] + CROSS_MM), letter)


def _beside(line: LineString, said: str, letter: float) -> Words:
    """The word along the straightest middle of a line, a letter's height off it."""
    middle = 0.3 * line.length
    a, b = line.interpolate(middle - 1), line.interpolate(middle + 1)
    turn = degrees(atan2(b.y - a.y, b.x - a.x))
    turn = turn - 180 if turn > 90 else turn + 180 if turn <= -90 else turn
    off = turn * pi / 180 - pi / 2
    at = (a.x + b.x) / 2 + letter * cos(off), (a.y + b.y) / 2 + letter * sin(off)
    return Words(said, at, letter, turn)


def _button(at: Point) -> Iterable[Polyline]:
    x, y = at
    yield _ring(at, BUTTON_MM)
    arm = BUTTON_MM / 2
    yield (x - arm, y - arm), (x + arm, y + arm)
    yield (x - arm, y + arm), (x + arm, y - arm)


def _ring(at: Point, radius: float) -> Polyline:
    return tuple(
        (at[0] + radius * cos(k * pi / 8), at[1] + radius * sin(k * pi / 8)) for k in range(17)
    )


def _bar(line: Polyline, at: Point) -> Polyline:
    """A short stroke square to a line, at one of its ends."""
    (x0, y0), (x1, y1) = line[0], line[-1]
    size = hypot(x1 - x0, y1 - y0) or 1.0
    dx, dy = -(y1 - y0) / size * BAR_MM / 2, (x1 - x0) / size * BAR_MM / 2
    return (at[0] - dx, at[1] - dy), (at[0] + dx, at[1] + dy)
