"""Corrections of a pattern of her own: what a piece is, and how it lies on the cloth.

A half that was drawn as a half is opened out about its fold, a piece that lies turned is
turned upright, an allowance is added or found inside, a line is drawn where the piece may
be lengthened. Each correction is exact and leaves the rest as it was.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import hypot

from shapely.geometry import JOIN_STYLE, LineString, Polygon
from shapely.geometry import Point as Place

from stash.errors import InvalidInput
from stash.model import Mark, MarkKind, Part, Piece, Point, Role
from stash.pattern.drawn import Drawn, direction_deg, is_level, opened_out, shifted, turned
from stash.pattern.pointing import edge_near, on_outline, placed

MITRE = 2.5
NEAR_MM = 0.5
SIDES = ("fold", "fold left", "fold right")


@dataclass(frozen=True, kw_only=True)
class PieceChange:
    """What is to be different about one piece; None leaves it as it is.

    ``fold`` opens a half out about its longest edge along the grain, or about the "fold left"
    or "fold right" one. ``grain_deg`` is which way the grain runs in the piece as it lies now,
    counter-clockwise from its length. ``allowance_mm`` is added all round, ``included_mm`` is
    what the outline already holds. ``one_way`` keeps it pointing one way on the cloth.
    What is pointed at lies so far down from the top and across from the left side: the edge
    nearest to it is the fold, or runs along the grain; a notch is snipped there, a mark made.
    """

    name: str | None = None
    part: Part | None = None
    role: Role | None = None
    quantity: int | None = None
    pair: bool | None = None
    fold: str | None = None
    grain_deg: float | None = None
    allowance_mm: float | None = None
    included_mm: float | None = None
    lengthen_at_mm: float | None = None
    one_way: bool | None = None
    fold_at_mm: Point | None = None
    grain_at_mm: Point | None = None
    notch_at_mm: Point | None = None
    mark_at_mm: Point | None = None


def corrected(piece: Piece, change: PieceChange) -> Piece:
    """The piece with the change made; InvalidInput for what cannot be."""
    if change.grain_deg is not None:
        piece = _turned(piece, change.grain_deg)
    if change.grain_at_mm is not None:
        piece = _along_edge(piece, placed(piece, change.grain_at_mm))
    if change.fold_at_mm is not None:
        piece = _folded_at(piece, placed(piece, change.fold_at_mm))
    if change.notch_at_mm is not None:
        piece = _notched(piece, placed(piece, change.notch_at_mm))
    if change.mark_at_mm is not None:
        piece = _marked(piece, placed(piece, change.mark_at_mm))
    if change.fold is not None:
        piece = _folded(piece, change.fold)
    piece = _counted(piece, change)
    if change.included_mm is not None:
        piece = _with_stitching(piece, change.included_mm)
    if change.allowance_mm is not None:
        piece = _with_allowance(piece, change.allowance_mm)
    if change.lengthen_at_mm is not None:
        piece = _with_length_line(piece, change.lengthen_at_mm)
    return piece


def lengthened(piece: Piece, mm: float) -> Piece:
    """The piece cut along its length line and spread, or folded up, by so much.

    Everything beyond the line moves along the grain; lines that cross it run on straight.
    A piece without such a line stays as it is.
    """
    line = next((m for m in piece.marks if m.kind is MarkKind.LENGTHEN), None)
    if line is None or not mm:
        return piece
    at = line.at_mm[0][0]
    longest = max(x for x, _ in piece.outline_mm)
    if mm < 0 and at - mm > longest - 10:
        raise InvalidInput("too_much_shorter", piece=piece.name, most_measure_mm=longest - at - 10)
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


def _turned(piece: Piece, grain_deg: float) -> Piece:
    if piece.on_fold and grain_deg % 180:
        raise InvalidInput("grain_across_fold", piece=piece.name, field="grain")
    return _from_drawn(piece, turned(_drawn(piece), -grain_deg))


def _along_edge(piece: Piece, point: Point) -> Piece:
    """Turned so that the edge that was pointed at runs along the grain."""
    return _turned(piece, direction_deg(edge_near(piece, point)))


def _folded_at(piece: Piece, point: Point) -> Piece:
    """A half opened out about the edge that was pointed at, which then runs along the grain."""
    if piece.on_fold:
        return piece
    edge = edge_near(piece, point)
    if is_level(edge):
        return _opened_about(piece, edge)
    upright = _from_drawn(piece, turned(replace(_drawn(piece), fold=edge), -direction_deg(edge)))
    (x0, y0), (x1, y1) = edge
    wanted = hypot(x1 - x0, y1 - y0)
    ring = upright.outline_mm
    level = [e for e in zip(ring, (*ring[1:], ring[0]), strict=True) if is_level(e)]
    best = min(level, key=lambda e: abs(hypot(e[1][0] - e[0][0], e[1][1] - e[0][1]) - wanted))
    return _opened_about(upright, best)


def _notched(piece: Piece, point: Point) -> Piece:
    """A notch in the cut edge nearest to where it was pointed; on both sides of a fold."""
    x, y = on_outline(piece, point)
    both = ((x, y), (x, -y)) if piece.on_fold and abs(y) > NEAR_MM else ((x, y),)
    marks = (*piece.marks, *(Mark(MarkKind.NOTCH, (p,)) for p in both)) if piece.marks else ()
    return replace(piece, notches_mm=(*piece.notches_mm, *both), marks=marks, edges=())


def _marked(piece: Piece, point: Point) -> Piece:
    """A place marked on the piece."""
    if not Polygon(piece.outline_mm).buffer(NEAR_MM).contains(Place(point)):
        raise InvalidInput("mark_off_piece", piece=piece.name, field="piece")
    plain = tuple(Mark(MarkKind.PLACE, m) for m in piece.marks_mm) if not piece.marks else ()
    mark = Mark(MarkKind.PLACE, (point,))
    return replace(
        piece, marks=(*piece.marks, *plain, mark), marks_mm=(*piece.marks_mm, (point,))
    )


def _folded(piece: Piece, side: str) -> Piece:
    """A half opened out; a piece that is the same on both sides only told to lie on a fold."""
    return piece if piece.on_fold else _opened_about(piece, _fold_edge(piece, side))


def _opened_about(piece: Piece, edge: tuple[Point, Point]) -> Piece:
    whole = opened_out(replace(_drawn(piece), fold=edge), edge)
    down = shifted(whole, 0.0, -(edge[0][1] + edge[1][1]) / 2)
    opened = _from_drawn(piece, down, keep_y=True)
    return replace(opened, on_fold=True, mirrored_pair=False)


def _fold_edge(piece: Piece, side: str) -> tuple[Point, Point]:
    """The longest straight edge along the grain, on the side that was named."""
    ring = piece.outline_mm
    level = [e for e in zip(ring, (*ring[1:], ring[0]), strict=True) if is_level(e)]
    middle = (min(y for _, y in ring) + max(y for _, y in ring)) / 2
    if side == SIDES[1]:
        level = [e for e in level if e[0][1] < middle]
    elif side == SIDES[2]:
        level = [e for e in level if e[0][1] > middle]
    if not level:
        raise InvalidInput("no_edge_to_fold", piece=piece.name, field="fold")
    a, b = max(level, key=lambda e: hypot(e[1][0] - e[0][0], e[1][1] - e[0][1]))
    return a, b


def _counted(piece: Piece, change: PieceChange) -> Piece:
    pair = piece.mirrored_pair if change.pair is None else change.pair
    quantity = change.quantity or piece.quantity
    if pair and piece.on_fold:
        raise InvalidInput("pair_on_fold", piece=piece.name, field="pair")
    if pair and change.quantity is None and quantity % 2:
        quantity *= 2
    if quantity < 1 or (pair and quantity % 2):
        raise InvalidInput("odd_pair", piece=piece.name, field="quantity")
    turns = piece.turns_deg
    if change.one_way is not None:
        turns = (0.0,) if change.one_way else (0.0, 180.0)
    return replace(
        piece, name=change.name or piece.name, part=change.part or piece.part,
        role=change.role or piece.role, quantity=quantity, mirrored_pair=pair, turns_deg=turns,
    )


def _with_allowance(piece: Piece, mm: float) -> Piece:
    """The outline so far becomes the stitching line; so much is cut beyond it."""
    if not 0 < mm <= 100:
        raise InvalidInput("allowance_out_of_range", most_measure_mm=100.0, field="allowance")
    wide = Polygon(piece.outline_mm).buffer(mm, join_style=JOIN_STYLE.mitre, mitre_limit=MITRE)
    return replace(
        piece, outline_mm=_ring(wide), stitch_mm=piece.outline_mm, allowances_mm=(("edge", mm),),
        edges=(),
    )


def _with_stitching(piece: Piece, mm: float) -> Piece:
    """The stitching line found inside an outline that holds its allowance already."""
    if mm == 0:
        return replace(
            piece, stitch_mm=piece.outline_mm, allowances_mm=(("edge", 0.0),), edges=()
        )
    sewn = Polygon(piece.outline_mm).buffer(-mm, join_style=JOIN_STYLE.mitre, mitre_limit=MITRE)
    if not isinstance(sewn, Polygon) or sewn.is_empty:
        raise InvalidInput("allowance_fills_piece", piece=piece.name, field="included")
    return replace(piece, stitch_mm=_ring(sewn), allowances_mm=(("edge", mm),), edges=())


def _with_length_line(piece: Piece, at_mm: float) -> Piece:
    """A line across where the piece may be lengthened, so far below its top."""
    top = min(x for x, _ in piece.outline_mm)
    foot = max(x for x, _ in piece.outline_mm)
    if not 10 <= at_mm <= foot - top - 10:
        raise InvalidInput("line_off_piece", piece=piece.name, most_measure_mm=foot - top - 10,
                           field="lengthen")
    ys = [y for _, y in piece.outline_mm]
    across = LineString([(top + at_mm, min(ys) - 1), (top + at_mm, max(ys) + 1)])
    kept = across.intersection(Polygon(piece.outline_mm))
    _, low, _, high = kept.bounds
    line = Mark(MarkKind.LENGTHEN, ((top + at_mm, low), (top + at_mm, high)))
    others = tuple(m for m in piece.marks if m.kind is not MarkKind.LENGTHEN)
    plain = tuple(Mark(MarkKind.PLACE, m) for m in piece.marks_mm) if not piece.marks else ()
    return replace(piece, marks=(*others, *plain, line), marks_mm=(*piece.marks_mm, line.at_mm))


def _drawn(piece: Piece) -> Drawn:
    """The piece as a drawing to turn, mirror and move."""
    return Drawn(
        name=piece.name, ring=piece.outline_mm, stitch=piece.stitch_mm, marks=piece.marks_mm,
        notches=piece.notches_mm,
    )


def _from_drawn(piece: Piece, drawn: Drawn, *, keep_y: bool = False) -> Piece:
    """The piece with the drawing's lines, its top at 0 and, not on a fold, its side at 0."""
    left, low, _, _ = Polygon(drawn.ring).bounds
    at = shifted(drawn, -left, 0.0 if keep_y else -low)
    return replace(
        piece, outline_mm=at.ring, stitch_mm=at.stitch, marks_mm=at.marks, notches_mm=at.notches,
        marks=(), match_points_mm=(), edges=(),
    )


def _ring(shape: Polygon) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in shape.exterior.coords[:-1])
