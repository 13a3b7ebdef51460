"""Corrections of a pattern of her own: what a piece is, and how it lies on the cloth.

A half that was drawn as a half is opened out about its fold, a piece that lies turned is
turned upright, an allowance is added or found inside, a line is drawn where the piece may
be lengthened. Each correction is exact and leaves the rest as it was.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from stash.errors import InvalidInput
from stash.model import Part, Piece, Point, Role
from stash.pattern.edge_marks import notched, place_marked, without_notch
from stash.pattern.length_line import line_of, with_length_line, without_length_line
from stash.pattern.lying import along_edge, folded, folded_at, turned_by, unfolded_flat
from stash.pattern.pointing import placed
from stash.pattern.reshaping import reshaped
from stash.pattern.seam_allowance import with_allowance, with_stitching, without_allowance


@dataclass(frozen=True, kw_only=True)
class PieceChange:
    """What is to be different about one piece; None leaves it as it is.

    ``outline_mm`` is its outline drawn anew (see :mod:`reshaping`).
    ``fold`` opens a half out about its longest edge along the grain, or about the "fold left"
    or "fold right" one; "flat" takes it off the fold. ``grain_deg`` is which way the grain runs
    in the piece as it lies now, counter-clockwise from its length. ``allowance_mm`` is cut
    beyond the stitching line, 0 for none; ``included_mm`` is what the outline already holds.
    ``lengthen_at_mm`` is where it may be lengthened, 0 for nowhere, and ``length_most_mm`` by
    how much at most. ``one_way`` keeps it pointing one way on the cloth.
    What is pointed at lies so far down from the top and across from the left side of the piece
    as it then lies, a half opened out: the edge nearest to it is the fold, or runs along the
    grain; a notch is snipped there or taken off, a mark made.
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
    length_most_mm: float | None = None
    one_way: bool | None = None
    fold_at_mm: Point | None = None
    grain_at_mm: Point | None = None
    notch_at_mm: Point | None = None
    unnotch_at_mm: Point | None = None
    mark_at_mm: Point | None = None
    outline_mm: tuple[Point, ...] | None = None


OneChange = Callable[[Piece, Any], Piece]


def corrected(piece: Piece, change: PieceChange) -> Piece:
    """The piece with the change made; InvalidInput for what cannot be."""
    steps: tuple[tuple[object, OneChange], ...] = (
        (change.outline_mm, reshaped), (change.grain_deg, turned_by),
        (change.grain_at_mm, _pointed(along_edge)), (change.fold_at_mm, _pointed(folded_at)),
        (change.fold, _folded), (change.notch_at_mm, _pointed(notched)),
        (change.unnotch_at_mm, _pointed(without_notch)),
        (change.mark_at_mm, _pointed(place_marked)),
    )
    for said, step in steps:
        if said is not None:
            piece = step(piece, said)
    piece = _counted(piece, change)
    if change.included_mm is not None:
        piece = with_stitching(piece, change.included_mm)
    if change.allowance_mm is not None:
        piece = with_allowance(piece, change.allowance_mm) if change.allowance_mm else (
            without_allowance(piece))
    return _lengthening(piece, change)


def _pointed(step: OneChange) -> OneChange:
    """The step at a place that is told from the piece's corner."""
    return lambda piece, from_corner_mm: step(piece, placed(piece, from_corner_mm))


def _folded(piece: Piece, side: str) -> Piece:
    return unfolded_flat(piece) if side == "flat" else folded(piece, side)


def _lengthening(piece: Piece, change: PieceChange) -> Piece:
    at, most = change.lengthen_at_mm, change.length_most_mm
    if at == 0:
        return replace(without_length_line(piece), length_most_mm=None)
    if at is not None:
        return with_length_line(piece, at, most)
    if most is not None and line_of(piece) is None:
        raise InvalidInput("no_line_to_alter", piece=piece.name, field="lengthen")
    return piece if most is None else replace(piece, length_most_mm=most)


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
