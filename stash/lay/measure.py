"""What a state uses of its board."""

from __future__ import annotations

import numpy as np

from stash.lay.board import Board
from stash.lay.cost import State


def used_mm(board: Board, state: State) -> float:
    """Length in use, from the start of the sheet."""
    table = board.table
    beyond = table.fit[state.stance, 2] - state.position[:, 0]
    return float(board.length_mm - beyond.min())


def shortest_possible(board: Board) -> float:
    """No lay can be shorter than its longest item lying its shortest way."""
    table = board.table
    taken = board.length_mm - (table.fit[:, 2] - table.fit[:, 0])
    rows = [min(taken[s] for s in row if s >= 0) for row in table.choices]
    return float(np.max(rows))
