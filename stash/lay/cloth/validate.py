"""What is asked must make sense before anything is laid: one clear sentence otherwise."""

from __future__ import annotations

from math import isfinite

from stash.errors import InvalidInput
from stash.lay.cloth.outlines import piece_polygon
from stash.lay.cloth.spread import cloth_polygon
from stash.lay.task import LayTask
from stash.model import Piece

MOST_COPIES = 400


def validated(task: LayTask) -> LayTask:
    """The task itself; InvalidInput when it cannot be laid as it is written."""
    if not task.pieces:
        raise InvalidInput("no_pieces")
    names = [p.name for p in task.pieces]
    for name in names:
        if names.count(name) > 1:
            raise InvalidInput("name_twice", piece=name)
    for piece in task.pieces:
        _validated_piece(piece)
    if sum(p.quantity for p in task.pieces) > MOST_COPIES:
        raise InvalidInput("too_many_pieces", most=MOST_COPIES)
    _validated_cloth(task)
    return task


def _validated_piece(piece: Piece) -> None:
    if not isinstance(piece.quantity, int) or piece.quantity < 1:
        raise InvalidInput("quantity_below_one", piece=piece.name, quantity=piece.quantity)
    if piece.mirrored_pair and piece.quantity % 2:
        raise InvalidInput("pair_is_odd", piece=piece.name, quantity=piece.quantity)
    if not all(isfinite(t) for t in piece.turns_deg):
        raise InvalidInput("turn_not_number", piece=piece.name)
    piece_polygon(piece.name, piece.outline_mm)


def _validated_cloth(task: LayTask) -> None:
    if task.cloth is None and task.width_mm is None:
        raise InvalidInput("lay_needs_cloth")
    if task.cloth is not None:
        cloth_polygon(task.cloth)
    elif task.width_mm is not None and not (isfinite(task.width_mm) and task.width_mm > 0):
        raise InvalidInput("width_is_nothing", field="width")
    for margin in (task.clearance_mm, task.edge_mm, task.off_grain_deg):
        if not isfinite(margin) or margin < 0:
            raise InvalidInput("margins_negative")
    if task.repeat is not None:
        for pitch in (task.repeat.lengthwise_mm, task.repeat.crosswise_mm):
            if pitch is not None and not (isfinite(pitch) and pitch > 0):
                raise InvalidInput("repeat_is_nothing", field="repeat")
