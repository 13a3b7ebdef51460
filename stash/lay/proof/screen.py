"""The screen: proofs that a cut cannot serve, found without laying anything.

Each proof is a necessary condition, so "impossible" is never said by mistake; what the
screen lets through may still not fit.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import chain

import numpy as np

from stash.fact import Fact, Term, fact
from stash.lay.cloth.spread import cloth_polygon
from stash.lay.cloth.stances import allowed_turns, doubled, off_print_mm
from stash.lay.cloth.validate import validated
from stash.lay.proof.bounds import Bounds, bounds
from stash.lay.task import LayTask
from stash.lay.verdicts import NoLayPossible
from stash.model import Outline, Piece, Spread

SLACK_MM = 1e-6


def screen(task: LayTask) -> NoLayPossible | None:
    """The proof that the cloth cannot serve, or None when nothing was proved."""
    validated(task)
    proof = next(_proofs(task), None)
    return None if proof is None else NoLayPossible(proof=proof)


def _proofs(task: LayTask) -> Iterator[Fact]:
    length, width = _usable(task)
    b = bounds(task.pieces, task.one_way, task.off_grain_deg)
    if length <= 0 or width <= 0:
        yield fact("nothing_inside_the_edge")
        return
    for piece, extent in zip(task.pieces, b.extents, strict=True):
        yield from _too_large(piece, extent, length, width)
    yield from _spread_proofs(task, b, length, width)
    if task.repeat is not None:
        yield from chain.from_iterable(_print_proofs(p, task) for p in task.pieces)
    if task.cloth is not None:
        yield from _area_proof(task.cloth, task, b)
        yield from _line_proofs(task, b, length, width)


def _usable(task: LayTask) -> tuple[float, float]:
    """Box of the cloth inside the edge margin; endless off the roll."""
    margin = 2 * task.edge_mm
    if task.cloth is None:
        return np.inf, (task.width_mm or 0.0) - margin
    return task.cloth.length_mm - margin, task.cloth.width_mm - margin


def _too_large(piece: Piece, extent: np.ndarray, length: float, width: float) -> Iterator[Fact]:
    fits = (extent[:, 0] <= length + SLACK_MM) & (extent[:, 1] <= width + SLACK_MM)
    if fits.any():
        return
    along, across = (float(v) for v in extent.min(axis=0))
    if across > width + SLACK_MM:
        yield fact("piece_wider_than_cloth", piece=piece.name, across_mm=across, there_mm=width)
    elif along > length + SLACK_MM:
        yield fact("piece_longer_than_cloth", piece=piece.name, along_mm=along, there_mm=length)
    else:
        yield fact("piece_too_large", piece=piece.name)


def _spread_proofs(task: LayTask, b: Bounds, length: float, width: float) -> Iterator[Fact]:
    if task.spread is Spread.CROSSWISE and task.one_way:
        yield fact("one_way_folded_crosswise")
    if task.spread in (None, Spread.OPEN):
        return
    axis = 1 if task.spread is Spread.LENGTHWISE else 0
    room = (length, width)[axis]
    for piece, extent in zip(task.pieces, b.extents, strict=True):
        needed = float(2 * extent[:, axis].min())
        twinned = not piece.on_fold and doubled(piece, task, task.spread)
        if twinned and needed > room + SLACK_MM:
            yield fact(
                "fold_too_narrow", spread=Term(task.spread.value), piece=piece.name,
                needed_mm=needed, there_mm=room,
            )


def _print_proofs(piece: Piece, task: LayTask) -> Iterator[Fact]:
    """All match points of a piece must lie on the print at once in some way it may lie."""
    plain = replace(task, repeat=None)
    for side in (False, True) if piece.mirrored_pair else (False,):
        if not allowed_turns(piece, task, side):
            turns = allowed_turns(piece, plain, side)
            off = min(off_print_mm(piece, task, turn, side) for turn in turns)
            yield fact("match_points_off_print", piece=piece.name, off_mm=off)
            return


def _area_proof(cut: Outline, task: LayTask, b: Bounds) -> Iterator[Fact]:
    there = cloth_polygon(cut).buffer(-task.edge_mm, join_style="mitre").area
    if b.area_mm2 > there * (1 + 1e-9):
        yield fact("pieces_larger_than_cloth", pieces_mm2=b.area_mm2, there_mm2=there)


def _line_proofs(task: LayTask, b: Bounds, length: float, width: float) -> Iterator[Fact]:
    across = b.needed_across(length, task.clearance_mm)
    if across > width + SLACK_MM:
        yield fact(
            "too_wide_side_by_side", length_mm=length, needed_mm=float(across), there_mm=width,
            needed_width_mm=float(across), there_width_mm=width,
        )
    along = b.needed_along(width, task.clearance_mm)
    if along > length + SLACK_MM:
        yield fact(
            "too_long_one_behind_another", across_mm=width, across_width_mm=width,
            needed_mm=float(along), there_mm=length,
        )
