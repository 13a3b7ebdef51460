"""The question a lay answers, and how long it may be searched for."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from stash.deadline import never
from stash.model import Outline, Piece, Repeat, Spread
from stash.model.outline import SelvedgeLine


@dataclass(frozen=True, kw_only=True)
class LayTask:
    """Pieces to lay, and the cloth to lay them on.

    Either ``cloth`` (one cut's outline, as it will be when laid: washed, flaws as
    holes) or ``width_mm`` for cloth off the roll, when the shortest length is asked
    for. ``spread`` None lets the search choose how the cloth is folded.
    ``selvedges_mm`` are edges of ``cloth`` known to be selvedge; where none is told, its
    outermost edges along the grain are taken for them.
    ``clearance_mm`` is kept between pieces, ``edge_mm`` from the edges of the cloth.
    """

    pieces: tuple[Piece, ...]
    cloth: Outline | None = None
    width_mm: float | None = None
    one_way: bool = False
    spread: Spread | None = Spread.OPEN
    clearance_mm: float = 0.0
    edge_mm: float = 0.0
    repeat: Repeat | None = None
    off_grain_deg: float = 0.0
    selvedges_mm: tuple[SelvedgeLine, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Budget:
    """How much searching is allowed; the same seed and iterations give the same lay."""

    seed: int = 1
    iterations: int | None = None
    workers: int = 1
    stop: Callable[[], bool] = never
