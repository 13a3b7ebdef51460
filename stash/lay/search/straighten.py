"""Lay straight what need not be tilted: no more is taken from the grain than the lay needs.

The search takes any permitted tilt for as good as another. Here the pieces of a found lay
are set straight where they lie, all of them or else one by one, and what overlaps then is
moved apart within the same length, give or take what nobody could cut; where that fails a
piece keeps its tilt.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from stash.lay.cloth.stances import allowed_turns
from stash.lay.search.board import Board, used_mm
from stash.lay.search.linear_programme import moved_apart
from stash.lay.search.moves import SAMPLES
from stash.lay.search.overlap import LayState, copied, laid, snapped, source
from stash.lay.search.separate import separate
from stash.lay.search.ways_to_spread import WayToSpread

MOST_SWEEPS = 60
ALLOWED_MM = 1.0


def straightened(way: WayToSpread, state: LayState) -> LayState:
    """The lay, at most a millimetre longer and never off its cut, with as many pieces on
    the grain as can be."""
    board = way.board
    if not board.task.off_grain_deg:
        return state
    used = used_mm(board, state)
    room = np.inf if way.target_mm is None else way.target_mm
    cut_back = board.length_mm - max(used, min(used + ALLOWED_MM, room))
    straight = _straight_stances(board)
    tilted = [i for i, s in enumerate(state.stance) if not straight[s]]
    for some in (tilted, *([i] for i in tilted)):
        if any(not straight[state.stance[i]] for i in some):
            state = _set_straight(board, state, some, straight, cut_back) or state
    return state


def _straight_stances(board: Board) -> np.ndarray:
    """True for each stance that keeps to the grain (s,) bool."""
    on_grain = replace(board.task, off_grain_deg=0.0)
    straight = np.zeros(len(board.stances), bool)
    for item, row in zip(board.items, board.table.choices, strict=True):
        for s in row[row >= 0]:
            own = board.stances[s]
            straight[s] = own.turn_deg in allowed_turns(item.piece, on_grain, own.mirrored)
    return straight


def _set_straight(
    board: Board, state: LayState, some: Sequence[int], straight: np.ndarray, cut_back: float
) -> LayState | None:
    """The lay with some items set straight and nothing overlapping, None where it cannot be.

    Whatever is straight already stays so."""
    choices = board.table.choices.copy()
    trial = copied(state)
    for i, row in enumerate(choices):
        if i in some or straight[state.stance[i]]:
            row[:] = np.where((row >= 0) & straight[row], row, -1)
        if i in some and not _put_straight(board, trial, i, row[row >= 0], cut_back):
            return None
    trial.weight[:] = board.table.heft
    best = (copied(trial), np.array([np.inf]))
    left, _ = separate(
        board.table._replace(choices=choices), board.charts, trial, best, source(0), SAMPLES,
        cut_back, MOST_SWEEPS,
    )
    moved = best[0]
    if left > 0.0:
        left, moved = moved_apart(board, moved, cut_back)
    return moved if left == 0.0 else None


def _put_straight(
    board: Board, state: LayState, i: int, stances: np.ndarray, cut_back: float
) -> bool:
    """Lay item i about the same middle in the straight stance that its own leans from."""
    own = board.stances[state.stance[i]]
    table = board.table

    def away(s: int) -> float:
        turn = abs((board.stances[s].turn_deg - own.turn_deg + 180) % 360 - 180)
        return float(turn + 360 * (board.stances[s].mirrored != own.mirrored))

    for s in sorted(stances, key=away):
        middle = (state.reach[i, :2] + state.reach[i, 2:]) / 2
        x, y = middle - (table.box[s, :2] + table.box[s, 2:]) / 2
        free, x, y = snapped(table, i, s, x, y, cut_back)
        if free:
            laid(table, state, i, s, x, y)
            return True
    return False
