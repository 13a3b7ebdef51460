"""The line at which a piece may be lengthened or shortened, and the piece so altered."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from shapely.geometry import LineString, Polygon

from stash.errors import InvalidInput
from stash.model import Mark, MarkKind, Pattern, Piece, Point
from stash.pattern.edge_marks import every_mark

MOST_MM = 60.0  # by how much a piece alters where its pattern does not say: chosen here
ROUNDED_MM = 0.01
LENGTHEN, LENGTH = "lengthen", "length"
BESIDE_MM = 10.0  # that much of the piece stays on either side of its line: chosen here


def lengthened(piece: Piece, mm: float) -> Piece:
    """The piece cut along its length line and spread, or folded up, by so much.

    Everything beyond the line moves along the grain; lines that cross it run on straight.
    A piece without such a line stays as it is.
    """
    line = line_of(piece)
    if line is None or not mm:
        return piece
    at = line.at_mm[0][0]
    longest = max(x for x, _ in piece.outline_mm)
    if mm < 0 and at - mm > longest - BESIDE_MM:
        raise InvalidInput(
            "too_much_shorter", piece=piece.name, most_measure_mm=longest - at - BESIDE_MM)
    spread = _Spread(at, at + max(0.0, -mm), mm)
    return replace(
        piece, outline_mm=spread.ring(piece.outline_mm), stitch_mm=spread.ring(piece.stitch_mm),
        notches_mm=spread.points(piece.notches_mm),
        marks_mm=tuple(map(spread.points, piece.marks_mm)),
        match_points_mm=spread.points(piece.match_points_mm), edges=(),
        marks=tuple(
            m if m.kind is MarkKind.LENGTHEN else replace(m, at_mm=spread.points(m.at_mm))
            for m in piece.marks
        ),
    )


@dataclass(frozen=True)
class _Spread:
    """A cut across the grain: what lies from ``low`` to ``high`` goes, what is beyond moves."""

    low: float
    high: float
    mm: float

    def points(self, points: Sequence[Point]) -> tuple[Point, ...]:
        """Points where they come to lie."""
        return tuple((self._down(x), y) for x, y in points)

    def ring(self, ring: Sequence[Point]) -> tuple[Point, ...]:
        """A ring, with a corner on both sides of the cut wherever it crosses it."""
        if not ring:
            return ()
        found: list[Point] = []
        for a, b in zip(ring, (*ring[1:], ring[0]), strict=True):
            if a[0] <= self.low or a[0] > self.high:
                found.append((self._down(a[0]), a[1]))
            beyond = self.low + max(0.0, self.mm)
            crossings = [
                (level, to) for level, to in ((self.low, self.low), (self.high, beyond))
                if (a[0] <= level) != (b[0] <= level)
            ]
            for level, to in crossings if a[0] < b[0] else crossings[::-1]:
                share = (level - a[0]) / (b[0] - a[0])
                found.append((to, a[1] + (b[1] - a[1]) * share))
        after = [*found[1:], found[0]]
        return tuple(p for p, q in zip(found, after, strict=True) if p != q)

    def _down(self, x: float) -> float:
        return x + self.mm if x > self.high else min(x, self.low)


def with_length_line(piece: Piece, at_mm: float, most_mm: float | None = None) -> Piece:
    """A line across where the piece may be altered, so far below its top, by at most so much."""
    top = min(x for x, _ in piece.outline_mm)
    long = max(x for x, _ in piece.outline_mm) - top
    if not BESIDE_MM <= at_mm <= long - BESIDE_MM:
        raise InvalidInput("line_off_piece", piece=piece.name, most_measure_mm=long - BESIDE_MM,
                           field="lengthen")
    ys = [y for _, y in piece.outline_mm]
    across = LineString([(top + at_mm, min(ys) - 1), (top + at_mm, max(ys) + 1)])
    _, low, _, high = across.intersection(Polygon(piece.outline_mm)).bounds
    line = Mark(MarkKind.LENGTHEN, ((top + at_mm, low), (top + at_mm, high)))
    bare = without_length_line(piece)
    return replace(
        bare, marks=(*every_mark(bare), line), marks_mm=(*bare.marks_mm, line.at_mm),
        length_most_mm=most_mm or piece.length_most_mm,
    )


def without_length_line(piece: Piece) -> Piece:
    """The piece as if it had never been said where it may be lengthened."""
    lines = {m.at_mm for m in piece.marks if m.kind is MarkKind.LENGTHEN}
    return replace(
        piece, marks=tuple(m for m in piece.marks if m.kind is not MarkKind.LENGTHEN),
        marks_mm=tuple(line for line in piece.marks_mm if line not in lines),
    )


def line_of(piece: Piece) -> Mark | None:
    """The line at which the piece may be lengthened or shortened."""
    return next((m for m in piece.marks if m.kind is MarkKind.LENGTHEN), None)


def alters_by_mm(pattern: Pattern) -> float:
    """By how much all its pieces with a line may be altered; 0 where none has one."""
    lined = [p for p in pattern.pieces if line_of(p)]
    return min((p.length_most_mm or MOST_MM for p in lined), default=0.0)


def long_mm(pattern: Pattern) -> float:
    """The length of its longest piece with a line, as cut; 0 where none has one."""
    return max((_long(p) for p in pattern.pieces if line_of(p)), default=0.0)


def altered_at_lines(pattern: Pattern, options: Mapping[str, object]) -> Pattern:
    """A pattern lengthened (or shortened) along its lines, as it is laid: over no photograph.

    By ``lengthen`` millimetres, or so that it is ``length`` millimetres long. InvalidInput where
    that is more than it says it may be altered by, or than may be offered where it does not say.
    """
    mm, most = _number(options, LENGTHEN), _said_most_mm(pattern)
    if length := _number(options, LENGTH):
        mm, most = length - long_mm(pattern), alters_by_mm(pattern)
    if most is not None and abs(mm) > most + ROUNDED_MM:
        raise InvalidInput("alters_no_further", most_measure_mm=most, field=LENGTHEN)
    return replace(pattern, pieces=tuple(
        replace(lengthened(p, mm), under=None) for p in pattern.pieces))


def _number(options: Mapping[str, object], name: str) -> float:
    value = options.get(name)
    return float(value) if isinstance(value, int | float) else 0.0


def _said_most_mm(pattern: Pattern) -> float | None:
    said = [p.length_most_mm for p in pattern.pieces if line_of(p) and p.length_most_mm]
    return min(said, default=None)


def _long(piece: Piece) -> float:
    xs = [x for x, _ in piece.outline_mm]
    return max(xs) - min(xs)
