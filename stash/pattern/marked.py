"""Marks as they are drawn: each kind's lines, and the word that says what it is."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from math import atan2, cos, degrees, hypot, pi, radians, sin

import shapely
from shapely.geometry import LineString, Polygon

from stash.model import Mark, MarkKind, Piece, Point
from stash.pattern.lettering import COVERED, NUMBER, Style, Words, covers, word, words_wide

Polyline = tuple[Point, ...]
BAR_MM, BUTTON_MM, CROSS_MM, DRILL_MM = 6.0, 4.0, 6.0, 1.5
SAID = {
    MarkKind.FOLD: "fold here", MarkKind.CENTRE: "centre", MarkKind.SIDE_SEAM: "side seam",
    MarkKind.OVERLAP: "overlap from here", MarkKind.POCKET: "pocket", MarkKind.ROLL: "roll line",
    MarkKind.CREASE: "crease", MarkKind.HIP: "hip line", MarkKind.CROTCH: "crotch line",
    MarkKind.WAIST: "waist", MarkKind.OPENING: "opening ends", MarkKind.SLIT: "slit",
    MarkKind.LENGTHEN: "lengthen or shorten here", MarkKind.PLEAT_FOLD: "fold the pleat",
    MarkKind.PLEAT_TO: "pleat to here", MarkKind.GATHER: "gather",
    MarkKind.BUST: "bust point", MarkKind.PLACE: "sew on here",
}
LETTERS = (0.55, 0.45, 0.36)  # of the letters in a piece
SHARES = (0.3, 0.5, 0.7, 0.15, 0.85, 0.25, 0.75)  # of a line, from its start
ENDED = {MarkKind.SLIT, MarkKind.OPENING}  # lines that end where something is cut or left open
APART = (1.0, 3.0)  # letters between a line and a word square to it; more where one runs along it
# Lines across a band, too short for their words, which then run along the band.
SHORT = ENDED | {MarkKind.OVERLAP, MarkKind.SIDE_SEAM, MarkKind.CENTRE}


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
        if mark.kind in ENDED:
            yield from (_bar(points, end) for end in (points[0], points[-1]))


def drill_points(piece: Piece) -> Iterable[Point]:
    """Where a mark is a single point in the cloth: buttons, tips of darts, places."""
    for mark in piece.marks:
        if mark.kind is MarkKind.DART:
            yield mark.at_mm[1]
        elif mark.kind in (MarkKind.BUTTON, MarkKind.PLACE, MarkKind.BUST):
            yield mark.at_mm[0]


def mark_words(
    piece: Piece, shape: Polygon, style: Style,
    there: tuple[shapely.Geometry, Sequence[Words]] = (Polygon(), ()),
) -> list[Words]:
    """A small word beside each mark that has one, where it covers nothing; else its number, in a
    drawing that has a key.

    ``there`` is what is drawn already: lines and words.
    """
    lines, words = there
    taken = [lines, *(w.spot for w in words)]
    found: list[Words] = []
    told: set[tuple[MarkKind, frozenset[Point]]] = set()
    for mark in piece.marks:
        if mark.kind not in SAID or _either_side(mark) in told:
            continue
        best = _best(mark, word(style, SAID[mark.kind]), shape, style, shapely.union_all(taken))
        if best:
            found.append(best)
            taken.append(best.spot)
            if len(mark.at_mm) > 1:
                told.add(_either_side(mark))
    return found


def _either_side(mark: Mark) -> tuple[MarkKind, frozenset[Point]]:
    """The same for a line and for its mirror image on the other half, which is told once."""
    return mark.kind, frozenset((round(x), round(abs(y))) for x, y in mark.at_mm)


def _best(
    mark: Mark, said: str, shape: Polygon, style: Style, drawn: shapely.Geometry
) -> Words | None:
    """The words where they cover least, or their number where all of it would cover too much."""
    def cost(words: Words) -> float:
        return covers(words, drawn, shape)

    spots = list(_spots(mark, said, shape, style))
    best = min(spots, key=cost, default=None)
    if style.least_mm and (best is None or cost(best) > COVERED):
        numbers = (replace(w, strong=True, stands_for=said, turn_deg=0.0)
                   for w in _spots(mark, NUMBER, shape, style))
        return min(numbers, key=cost, default=best)
    return best


def _spots(mark: Mark, said: str, shape: Polygon, style: Style) -> Iterable[Words]:
    """Where the word of a mark may stand, best first: beside it, smaller where need be."""
    line = [(y, x) for x, y in mark.at_mm]  # the page stands upright
    if len(line) == 1:
        if shape.covers(shapely.Point(line[0])):
            yield from (spot for letter in style.heights(LETTERS)
                        for spot in _round(line[0], said, letter))
        return
    kept = shapely.intersection(LineString(line), shape)
    parts = [p for p in shapely.get_parts(kept) if isinstance(p, LineString)]
    longest = max(parts, key=lambda p: float(p.length), default=LineString())
    if longest.is_empty:
        return
    for letter in style.heights(LETTERS):
        if longest.length > 1.05 * words_wide(said) * letter:
            yield from (_beside(longest, said, letter, share, side)
                        for share in SHARES for side in (1, -1))
    if mark.kind in SHORT:
        yield from (_across(longest, said, letter, at, apart)
                    for off in APART for letter in style.heights(LETTERS) for at in SHARES
                    for apart in (off, -off))


def _round(at: Point, said: str, letter: float) -> Iterable[Words]:
    """The word of a point below it, above it, and at either side."""
    x, y = at
    wide = words_wide(said) * letter / 2 + CROSS_MM
    for spot in ((x, y + CROSS_MM), (x, y - CROSS_MM), (x + wide, y), (x - wide, y)):
        yield Words(said, spot, letter)


def _beside(line: LineString, said: str, letter: float, share: float, side: int) -> Words:
    """The word along a line, a letter's height off it."""
    at, along = _off(line, share, side * letter)
    return Words(said, at, letter, _upright(along))


def _across(line: LineString, said: str, letter: float, share: float, apart: float) -> Words:
    """The word square to a line, beginning so many letters off it; negative on its other side."""
    half = words_wide(said) * letter / 2
    at, along = _off(line, share, apart * letter + (half if apart > 0 else -half))
    return Words(said, at, letter, _upright(along + 90))


def _off(line: LineString, share: float, off_mm: float) -> tuple[Point, float]:
    """A point beside a line at this share of its length, and the line's direction there."""
    middle = share * line.length
    a, b = line.interpolate(middle - 1), line.interpolate(middle + 1)
    along = degrees(atan2(b.y - a.y, b.x - a.x))
    off = radians(along - 90)
    return ((a.x + b.x) / 2 + off_mm * cos(off), (a.y + b.y) / 2 + off_mm * sin(off)), along


def _upright(turn_deg: float) -> float:
    """A direction of reading that never stands on its head."""
    if turn_deg > 90:
        return turn_deg - 180
    return turn_deg + 180 if turn_deg <= -90 else turn_deg


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
