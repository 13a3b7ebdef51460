"""Where to chalk each piece: read off a tape on the cloth as it lies on the table.

Every measure is taken from one end of the cloth and from one selvedge; on cloth folded
lengthwise that is the selvedge of the upper layer, across from the fold.
"""

from __future__ import annotations

from dataclasses import dataclass

from stash.lay.drawing.on_table import CutOut, Layers, OnTable, on_table
from stash.lay.task import LayTask
from stash.model import Lay, Spread

SAME_MM = 1.0  # pieces that begin so near to one another are cut from the selvedge inwards


@dataclass(frozen=True)
class Position:
    """One row, one cut of the scissors: the nearest corner of the piece's box by the tape, the
    box itself along and across the cloth, and how the piece lies.

    ``piece`` is the first of its copies (``NAME#1``), ``copies`` the numbers of all,
    ``label`` how it is said; ``numbers`` is the part of it that no language changes.
    """

    piece: str
    from_end_mm: float
    from_selvedge_mm: float
    length_mm: float
    width_mm: float
    turn_deg: float
    mirrored: bool
    copies: tuple[int, ...] = (1,)
    layers: Layers = Layers.ONE
    label: str = ""
    numbers: str = ""

    @property
    def name(self) -> str:
        """The name of the piece, without a copy's number."""
        return self.piece.rpartition("#")[0] or self.piece


def positions_table(task: LayTask, lay: Lay) -> tuple[Position, ...]:
    """Every cut in the order it is met when cutting from the end along the cloth."""
    return tuple(row for row, _cut in in_cutting_order(on_table(task, lay)))


def in_cutting_order(table: OnTable) -> tuple[tuple[Position, CutOut], ...]:
    """Where each cut lies, and the cut, in the order of the table of positions."""
    rows = [(_row(table, cut), cut) for cut in table.cut_outs]
    return tuple(sorted(
        rows, key=lambda r: (round(r[0].from_end_mm / SAME_MM), r[0].from_selvedge_mm)))


def _row(table: OnTable, cut: CutOut) -> Position:
    left, low, _, high = table.upper.bounds
    x0, y0, x1, y1 = cut.shape.bounds
    folded = table.spread is Spread.LENGTHWISE
    return Position(
        cut.seen.piece, x0 - left, high - y1 if folded else y0 - low, x1 - x0, y1 - y0,
        cut.seen.turn_deg, cut.seen.mirrored, cut.copies, cut.layers, cut.label,
        cut.numbers,
    )
