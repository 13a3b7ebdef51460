"""How a piece lies: turned, opened out about its fold, moved to where pieces begin."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import hypot

from shapely.geometry import Polygon

from stash.errors import InvalidInput
from stash.model import Mark, MarkKind, Piece, Point, Underlay
from stash.pattern.drawn import (
    Drawn,
    direction_deg,
    is_level,
    opened_out,
    shifted,
    turned,
)
from stash.pattern.length_line import with_length_line, without_length_line
from stash.pattern.pointing import edge_near

SIDES = ("fold", "fold left", "fold right")
SAME_MM = 1e-6
Lines = tuple[tuple[Point, ...], ...]


def turned_by(piece: Piece, grain_deg: float) -> Piece:
    """Turned so that what ran at this angle, counter-clockwise from its length, runs along it."""
    if piece.on_fold and grain_deg % 180:
        raise InvalidInput("grain_across_fold", piece=piece.name, field="grain")
    return moved_to(piece, turned(drawn_of(piece), -grain_deg), keep_y=piece.on_fold)


def along_edge(piece: Piece, point: Point) -> Piece:
    """Turned so that the edge that was pointed at runs along the grain."""
    return turned_by(piece, direction_deg(edge_near(piece, point)))


def folded(piece: Piece, side: str) -> Piece:
    """A half opened out; a piece that is the same on both sides only told to lie on a fold."""
    return piece if piece.on_fold else _opened_about(piece, _fold_edge(piece, side))


def folded_at(piece: Piece, point: Point) -> Piece:
    """A half opened out about the edge that was pointed at, which then runs along the grain."""
    if piece.on_fold:
        return piece
    edge = edge_near(piece, point)
    if is_level(edge):
        return _opened_about(piece, edge)
    upright = moved_to(piece, turned(replace(drawn_of(piece), fold=edge), -direction_deg(edge)))
    (x0, y0), (x1, y1) = edge
    wanted = hypot(x1 - x0, y1 - y0)
    ring = upright.outline_mm
    level = [e for e in zip(ring, (*ring[1:], ring[0]), strict=True) if is_level(e)]
    best = min(level, key=lambda e: abs(hypot(e[1][0] - e[0][0], e[1][1] - e[0][1]) - wanted))
    return _opened_about(upright, best)


def unfolded_flat(piece: Piece) -> Piece:
    """Cut flat, not on a fold: the whole outline stays."""
    return moved_to(replace(piece, on_fold=False), drawn_of(piece)) if piece.on_fold else piece


def _opened_about(piece: Piece, edge: tuple[Point, Point]) -> Piece:
    whole = opened_out(replace(drawn_of(piece), fold=edge), edge)
    down = shifted(whole, 0.0, -(edge[0][1] + edge[1][1]) / 2)
    opened = moved_to(piece, down, keep_y=True)
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


def drawn_of(piece: Piece) -> Drawn:
    """The piece as a drawing to turn, mirror and move: its plain lines first, then its marks."""
    return Drawn(
        name=piece.name, ring=piece.outline_mm, stitch=piece.stitch_mm, notches=piece.notches_mm,
        marks=(*piece.marks_mm, *(m.at_mm for m in piece.marks)),
        under=piece.under.corners_mm if piece.under else (),
    )


def moved_to(piece: Piece, drawn: Drawn, *, keep_y: bool = False) -> Piece:
    """The piece with the drawing's lines, its top at 0 and, not on a fold, its side at 0."""
    left, low, _, _ = Polygon(drawn.ring).bounds
    at = shifted(drawn, -left, 0.0 if keep_y else -low)
    lines, marks = _told_apart(piece, at.marks)
    lain = replace(
        piece, outline_mm=at.ring, stitch_mm=at.stitch, notches_mm=at.notches, marks_mm=lines,
        marks=marks, match_points_mm=(), edges=(), under=_under(piece, at.under),
    )
    return _with_line_across(lain)


def _told_apart(piece: Piece, drawn: Lines) -> tuple[Lines, tuple[Mark, ...]]:
    """The plain lines and the marks of a drawing, which has them once, or twice where opened."""
    plain, size = len(piece.marks_mm), len(piece.marks_mm) + len(piece.marks)
    copies = [drawn[k:k + size] for k in range(0, len(drawn), size)] if size else []
    lines = [line for copy in copies for line in copy[:plain]]
    marks = [Mark(m.kind, line) for copy in copies
             for m, line in zip(piece.marks, copy[plain:], strict=True)]
    return tuple(dict.fromkeys(lines)), tuple(dict.fromkeys(marks))


def _with_line_across(piece: Piece) -> Piece:
    """The line for lengthening drawn across the piece as it lies now; gone where it lies along."""
    line = next((m.at_mm for m in piece.marks if m.kind is MarkKind.LENGTHEN), None)
    if line is None:
        return piece
    bare = without_length_line(piece)
    if abs(line[0][0] - line[-1][0]) > SAME_MM:
        return bare
    top = min(x for x, _ in piece.outline_mm)
    try:
        return with_length_line(bare, line[0][0] - top)
    except InvalidInput:  # the outline no longer reaches there
        return bare


def _under(piece: Piece, corners: Sequence[Point]) -> Underlay | None:
    if piece.under is None or len(corners) != 3:
        return None
    return replace(piece.under, corners_mm=(corners[0], corners[1], corners[2]))
