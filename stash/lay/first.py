"""The first lay: bottom-left fills in several orders, the shortest kept."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from stash.lay.board import Board
from stash.lay.cost import State, empty_state
from stash.lay.fill import fill
from stash.lay.measure import used_mm
from stash.lay.setting import Setting

LEANS = ((1.0, 0.01), (0.01, 1.0), (1.0, 1.0))
FEW, SHUFFLES = 12, 16  # up to this many items, also so many orders with neighbours swapped


def first_state(setting: Setting) -> State | None:
    """The shortest of the fills; within the cut where one of them is, None when none is whole."""
    board = setting.board
    whole = list(_fills(board, 0.0, LEANS[:1]))
    if setting.cut_back > 0 and not any(setting.within(s) for s in whole):
        whole += _fills(board, setting.cut_back, LEANS)
    return min(whole, key=lambda s: used_mm(board, s), default=None)


def _fills(board: Board, cut_back: float, leans: tuple) -> Iterator[State]:
    """Fills that laid everything."""
    for lean in leans:
        for order in _orders(board):
            state = empty_state(len(board.items), len(board.table.blocked_layers))
            if fill(board.table, board.charts, state, order, cut_back, lean) == len(order):
                yield state


def _orders(board: Board) -> Iterator[np.ndarray]:
    """Largest first, by area, length, width, box and longest side."""
    first = board.table.choices[:, 0]
    size = board.table.box[first, 2:] - board.table.box[first, :2]
    long, wide = size.T
    for key in (board.areas_mm2, long, wide, long * wide, np.maximum(long, wide)):
        yield np.argsort(-key, kind="stable")
    if len(size) <= FEW:
        random = np.random.default_rng(0)
        for _ in range(SHUFFLES):
            yield np.argsort(-board.areas_mm2 * random.uniform(0.5, 1.5, len(size)))
