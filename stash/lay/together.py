"""Moving all items at once: to undo overlaps that no single move undoes, and to draw a lay in."""

from __future__ import annotations

import numpy as np

from stash.lay.board import Board
from stash.lay.compiled import kernel, lent
from stash.lay.cost import State, measure, overlap_left
from stash.lay.programme import rows_of, solved

DRAWN_IN_MM, MOST_ROUNDS = 0.02, 6


def moved_apart(board: Board, state: State, cut_back: float) -> tuple[float, State]:
    """(overlap left in mm times heft, state) after the move that leaves least weighted overlap."""
    rows = rows_of(board, state, cut_back)
    weights = state.weight[rows.pair[:, 0], rows.pair[:, 1]]
    moved, _ = solved(board, state, cut_back, rows, weights)
    if moved is None:
        return np.inf, state
    return float(_overlap(board.table, board.charts, moved)), moved


def drawn_together(board: Board, state: State, cut_back: float) -> State:
    """A sound lay, made as short as moves of all items together make it."""
    for _ in range(MOST_ROUNDS):
        rows = rows_of(board, state, cut_back)
        moved, gained = solved(board, state, cut_back, rows)
        if moved is None or gained < DRAWN_IN_MM:
            break
        if _overlap(board.table, board.charts, moved) > 0.0:
            break
        state, cut_back = moved, cut_back + gained
    return state


def mended(board: Board, state: State, cut_back: float) -> State | None:
    """A sound lay within that length, made of a state that came near a shorter one; None
    when moves of all items together do not make one."""
    drawn = drawn_together(board, state, cut_back)
    return None if drawn is state else drawn


@kernel
def _overlap(table, charts, state):
    """Bring ``overlap`` up to date; the sum in mm, each times the heft of its pair."""
    table, charts, state = lent(table), lent(charts), lent(state)
    for i in range(len(state.stance)):
        measure(table, charts, state, i)
    return overlap_left(table, state)
