"""Where to chalk each piece: positions measured as a cutter measures, no printer needed."""

from __future__ import annotations

from dataclasses import dataclass

from stash.lay.check import placed_polygon
from stash.lay.task import LayTask
from stash.model import Lay, Piece, Placement


@dataclass(frozen=True)
class Position:
    """One row: distances of the piece's box from the beginning of the cloth and from the
    selvedge at y = 0 side, the box itself, and how the piece lies."""

    piece: str
    from_end_mm: float
    from_selvedge_mm: float
    length_mm: float
    width_mm: float
    turn_deg: float
    mirrored: bool


def positions_table(task: LayTask, lay: Lay) -> tuple[Position, ...]:
    """Every copy in the order it is met when walking along the cloth."""
    pieces = {p.name: p for p in task.pieces}
    left, low = (task.cloth.bounds_mm if task.cloth else (0.0, 0.0, 0.0, 0.0))[:2]
    rows = [_row(pieces[p.piece.rpartition("#")[0]], p, (left, low)) for p in lay.placements]
    return tuple(sorted(rows, key=lambda r: (r.from_end_mm, r.from_selvedge_mm)))


def _row(piece: Piece, p: Placement, corner: tuple[float, float]) -> Position:
    x0, y0, x1, y1 = placed_polygon(piece, p).bounds
    return Position(
        p.piece, x0 - corner[0], y0 - corner[1], x1 - x0, y1 - y0, p.turn_deg, p.mirrored
    )
