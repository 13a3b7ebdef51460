"""The screen: proofs that a cut cannot serve, found without laying anything.

Each proof is a necessary condition, so "impossible" is never said by mistake; what the
screen lets through may still not fit.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from stash.lay.cloth.spread import cloth_polygon
from stash.lay.cloth.stances import doubled
from stash.lay.cloth.validate import validated
from stash.lay.proof.bounds import Bounds, bounds
from stash.lay.task import Answer, LayTask, Verdict
from stash.model import Piece, Spread

SLACK_MM = 1e-6


def screen(task: LayTask) -> Answer | None:
    """IMPOSSIBLE with its reason, or None when nothing was proved."""
    validated(task)
    reason = next(_proofs(task), None)
    return None if reason is None else Answer(verdict=Verdict.IMPOSSIBLE, reason=reason)


def _proofs(task: LayTask) -> Iterator[str]:
    length, width = _usable(task)
    b = bounds(task.pieces, task.one_way, task.off_grain_deg)
    if length <= 0 or width <= 0:
        yield "Nothing of this cloth is left inside its edge margin."
        return
    for piece, extent in zip(task.pieces, b.extents, strict=True):
        yield from _too_large(piece, extent, length, width)
    yield from _spread_proofs(task, b, length, width)
    if task.cloth is not None:
        yield from _area_proof(task, b)
        yield from _line_proofs(task, b, length, width)


def _usable(task: LayTask) -> tuple[float, float]:
    """Box of the cloth inside the edge margin; endless off the roll."""
    margin = 2 * task.edge_mm
    if task.cloth is None:
        return np.inf, task.width_mm - margin
    return task.cloth.length_mm - margin, task.cloth.width_mm - margin


def _too_large(piece: Piece, extent: np.ndarray, length: float, width: float) -> Iterator[str]:
    fits = (extent[:, 0] <= length + SLACK_MM) & (extent[:, 1] <= width + SLACK_MM)
    if fits.any():
        return
    long, wide = extent.min(axis=0)
    if wide > width + SLACK_MM:
        yield (
            f"The {piece.name} is {_cm(wide)} across and the usable cloth is only "
            f"{_cm(width)} wide."
        )
    elif long > length + SLACK_MM:
        yield (
            f"The {piece.name} is {_cm(long)} along the grain and the cut is only "
            f"{_cm(length)} long."
        )
    else:
        yield f"The {piece.name} is too large for the cut in every direction it may lie."


def _spread_proofs(task: LayTask, b: Bounds, length: float, width: float) -> Iterator[str]:
    if task.spread is Spread.CROSSWISE and task.one_way:
        yield (
            "A crosswise fold turns the upper layer round, so one-way cloth cannot be "
            "folded that way; lay it open or fold it lengthwise."
        )
    if task.spread in (None, Spread.OPEN):
        return
    axis = 1 if task.spread is Spread.LENGTHWISE else 0
    room = (length, width)[axis]
    for piece, extent in zip(task.pieces, b.extents, strict=True):
        needed = 2 * extent[:, axis].min()
        twinned = not piece.on_fold and doubled(piece, task, task.spread)
        if twinned and needed > room + SLACK_MM:
            yield (
                f"Folded {task.spread.value}, the {piece.name} needs {_cm(needed)} of "
                f"doubled cloth and there are only {_cm(room)}; lay the cloth open."
            )


def _area_proof(task: LayTask, b: Bounds) -> Iterator[str]:
    cloth = cloth_polygon(task.cloth).buffer(-task.edge_mm, join_style="mitre")
    if b.area_mm2 > cloth.area * (1 + 1e-9):
        yield (
            f"The pieces cover {b.area_mm2 / 1e6:.3f} m² and the cut has only "
            f"{cloth.area / 1e6:.3f} m²."
        )


def _line_proofs(task: LayTask, b: Bounds, length: float, width: float) -> Iterator[str]:
    across = b.needed_across(length, task.clearance_mm)
    if across > width + SLACK_MM:
        yield (
            f"In {_cm(length)} of length the pieces lie side by side {_cm(across)} wide at "
            f"least, and the cut is only {_cm(width)} wide."
        )
    along = b.needed_along(width, task.clearance_mm)
    if along > length + SLACK_MM:
        yield (
            f"In {_cm(width)} of width the pieces lie one behind another {_cm(along)} long "
            f"at least, and the cut is only {_cm(length)} long."
        )


def _cm(mm: float) -> str:
    return f"{mm / 10:.1f}".removesuffix(".0") + " cm"
