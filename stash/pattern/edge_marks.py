"""Notches on a piece's edge and places marked on it: made, and taken off again."""

from __future__ import annotations

from dataclasses import replace
from math import hypot

from shapely.geometry import Point as Place
from shapely.geometry import Polygon

from stash.errors import InvalidInput
from stash.model import Mark, MarkKind, Piece, Point
from stash.pattern.pointing import on_outline

NEAR_MM = 0.5
MEANT_MM = 40.0  # a notch further than this from where it was pointed is not meant: chosen here
SNIPS = (MarkKind.NOTCH, MarkKind.DOUBLE_NOTCH)


def every_mark(piece: Piece) -> tuple[Mark, ...]:
    """The marks of a piece, those too of which nobody said what they are."""
    if piece.marks:
        return piece.marks
    return (*(Mark(MarkKind.NOTCH, (p,)) for p in piece.notches_mm),
            *(Mark(MarkKind.PLACE, line) for line in piece.marks_mm))


def notched(piece: Piece, point: Point) -> Piece:
    """A notch in the cut edge nearest to where it was pointed; on both sides of a fold."""
    x, y = on_outline(piece, point)
    both = ((x, y), (x, -y)) if piece.on_fold and abs(y) > NEAR_MM else ((x, y),)
    marks = (*piece.marks, *(Mark(MarkKind.NOTCH, (p,)) for p in both)) if piece.marks else ()
    return replace(piece, notches_mm=(*piece.notches_mm, *both), marks=marks, edges=())


def without_notch(piece: Piece, point: Point) -> Piece:
    """The notch nearest to where it was pointed taken off; on both sides of a fold."""
    nearest = min(piece.notches_mm, key=lambda n: _apart(n, point), default=None)
    if nearest is None or _apart(nearest, point) > MEANT_MM:
        raise InvalidInput("no_notch_there", piece=piece.name, field="what")
    x, y = nearest
    gone = [nearest, (x, -y)] if piece.on_fold else [nearest]

    def stays(at: Point) -> bool:
        return all(_apart(at, one) > NEAR_MM for one in gone)

    return replace(
        piece, notches_mm=tuple(filter(stays, piece.notches_mm)), edges=(),
        marks=tuple(m for m in piece.marks if m.kind not in SNIPS or stays(m.at_mm[0])),
    )


def on_new_edge(piece: Piece, before: Piece) -> Piece:
    """Notches that lay on the edge before lie on the edge as it is now."""
    old = Polygon(before.outline_mm).exterior

    def moved(at: Point) -> Point:
        return on_outline(piece, at) if old.distance(Place(at)) < NEAR_MM else at

    return replace(
        piece, notches_mm=tuple(map(moved, piece.notches_mm)),
        marks=tuple(replace(m, at_mm=(moved(m.at_mm[0]),)) if m.kind in SNIPS else m
                    for m in piece.marks),
    )


def place_marked(piece: Piece, point: Point) -> Piece:
    """A place marked on the piece."""
    if not Polygon(piece.outline_mm).buffer(NEAR_MM).contains(Place(point)):
        raise InvalidInput("mark_off_piece", piece=piece.name, field="piece")
    mark = Mark(MarkKind.PLACE, (point,))
    return replace(
        piece, marks=(*every_mark(piece), mark), marks_mm=(*piece.marks_mm, (point,))
    )


def _apart(one: Point, other: Point) -> float:
    return hypot(one[0] - other[0], one[1] - other[1])
