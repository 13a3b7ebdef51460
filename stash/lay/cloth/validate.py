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
        raise InvalidInput("There are no pieces to lay.")
    names = [p.name for p in task.pieces]
    for name in names:
        if names.count(name) > 1:
            raise InvalidInput(f"Two pieces are called “{name}”; please give each its own name.")
    for piece in task.pieces:
        _validated_piece(piece)
    if sum(p.quantity for p in task.pieces) > MOST_COPIES:
        raise InvalidInput(f"More than {MOST_COPIES} pieces at once; please lay fewer together.")
    _validated_cloth(task)
    return task


def _validated_piece(piece: Piece) -> None:
    if not isinstance(piece.quantity, int) or piece.quantity < 1:
        raise InvalidInput(
            f"“{piece.name}” is to be cut {piece.quantity} times; it must be at least once."
        )
    if piece.mirrored_pair and piece.quantity % 2:
        raise InvalidInput(
            f"“{piece.name}” is a mirrored pair, so its quantity must be even, "
            f"not {piece.quantity}."
        )
    if not all(isfinite(t) for t in piece.turns_deg):
        raise InvalidInput(f"“{piece.name}” has a turn that is not a number.")
    piece_polygon(piece.name, piece.outline_mm)


def _validated_cloth(task: LayTask) -> None:
    if task.cloth is None and task.width_mm is None:
        raise InvalidInput("Please give the cloth: its outline, or its width.")
    if task.cloth is not None:
        cloth_polygon(task.cloth)
    elif not isfinite(task.width_mm) or task.width_mm <= 0:
        raise InvalidInput("The width of the cloth must be more than nothing.", field="width")
    for margin in (task.clearance_mm, task.edge_mm, task.off_grain_deg):
        if not isfinite(margin) or margin < 0:
            raise InvalidInput("Margins and the off-grain angle must be nothing or more.")
    if task.repeat is not None:
        for pitch in (task.repeat.lengthwise_mm, task.repeat.crosswise_mm):
            if pitch is not None and not (isfinite(pitch) and pitch > 0):
                raise InvalidInput("A repeat must be more than nothing.", field="repeat")
