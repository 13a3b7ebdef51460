"""The strong search on one board: a place for everything, or the shortest length.

``fit`` looks for a lay within the board as it is. ``compress`` shortens a lay step by
step: draw the far edge in, move what sticks out, remove the overlaps, repeat; steps
become smaller when they fail. Work is counted in sweeps over the items, so the same
seed and number of sweeps give the same lay whatever the clock does.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

import numpy as np

from stash.lay.board import Board
from stash.lay.cost import State, empty_state, put, snap, source
from stash.lay.fill import fill
from stash.lay.separate import Effort, separate
from stash.lay.task import Budget

LEANS = ((1.0, 0.01), (0.01, 1.0), (1.0, 1.0))
STALE_SWEEPS = 40  # sweeps without gain before a strike
STRIKES = 3
CHUNK = 10
FINEST_STEP = 0.0003
EXPLORING = Effort(20, 10, 0.95)


@dataclass
class Search:
    """One seeded search: its board, its numbers, and what it has spent."""

    board: Board
    budget: Budget
    stream: int = 0
    progress: Callable[[float], None] | None = None
    sweeps: int = 0
    numbers: np.ndarray = field(init=False)
    random: np.random.Generator = field(init=False)

    def __post_init__(self) -> None:
        self.numbers = source(self.budget.seed, self.stream)
        self.random = np.random.default_rng([self.budget.seed % 2**63, self.stream])

    @property
    def spent(self) -> bool:
        """True when the budget is used up or the person pressed stop."""
        limit = self.budget.iterations
        return (limit is not None and self.sweeps >= limit) or self.budget.stop()

    def separated(self, state: State, cut_back: float, strikes: int = STRIKES) -> State | None:
        """The state without overlaps, or None when it could not be reached."""
        best, least = copied(state), np.array([np.inf])
        for _ in range(strikes):
            stale = 0
            while stale < STALE_SWEEPS:
                if self.spent:
                    return None
                before = least[0]
                board = self.board
                left, used = separate(
                    board.table, board.charts, state, (best, least), self.numbers,
                    EXPLORING, cut_back, CHUNK,
                )
                self.sweeps += used
                if left == 0.0:
                    return best
                stale = stale + used if least[0] >= 0.98 * before else 0
            restore(state, best)
            state.weight[:] = 1.0
            self.disrupt(state, cut_back)
        return None

    def disrupt(self, state: State, cut_back: float) -> None:
        """Swap two items, large ones more often."""
        n = len(state.stance)
        if n < 2:
            return
        share = np.sqrt(self.board.areas_mm2)
        a, b = self.random.choice(n, 2, replace=False, p=share / share.sum())
        pa, pb = state.position[a].copy(), state.position[b].copy()
        shift = _corner(self.board, state, a) - _corner(self.board, state, b)
        self._put(state, a, pb + shift * -1, cut_back)
        self._put(state, b, pa + shift, cut_back)

    def _put(self, state: State, i: int, at: np.ndarray, cut_back: float) -> None:
        put_within(self.board, state, i, int(state.stance[i]), at, cut_back)

    def scattered(self, cut_back: float) -> State:
        """Every item somewhere, in one of its stances."""
        board, table = self.board, self.board.table
        state = empty_state(len(board.items), len(table.blocked_layers))
        for i, row in enumerate(table.choices):
            able = [s for s in row if s >= 0 and _roomy(table.fit[s], cut_back)]
            s = int(self.random.choice(able))
            low, high = table.fit[s, :2], table.fit[s, 2:] - (cut_back, 0.0)
            put_within(board, state, i, s, self.random.uniform(low, high), cut_back)
        return state


def fit(search: Search) -> State | None:
    """A lay of everything on the board, or None when the budget ran out first."""
    while not search.spent:
        found = search.separated(search.scattered(0.0), 0.0)
        if found is not None:
            return found
    return None


def compress(search: Search, start: State, goal_mm: float | None = None) -> State:
    """The shortest lay found from a sound one; stops once it is within ``goal_mm``."""
    board = search.board
    best, step, fails = start, 0.02, 0
    least = max(shortest_possible(board), goal_mm or 0.0)
    while not search.spent:
        length = used_mm(board, best)
        target = max(length * (1 - step), least)
        if length - least < 0.05:
            break
        cut_back = board.length_mm - target
        trial = _restart(search, best, cut_back, fails)
        found = search.separated(trial, cut_back)
        if found is not None and used_mm(board, found) < length:
            best, fails = found, 0
            if search.progress:
                search.progress(used_mm(board, best))
        else:
            step, fails = max(FINEST_STEP, step * 0.6), fails + 1
    return best


def _restart(search: Search, best: State, cut_back: float, fails: int) -> State:
    state = copied(best)
    state.weight[:] = 1.0
    pulled_in(search.board, state, cut_back)
    if fails % 4 == 3:
        return search.scattered(cut_back)
    if fails % 2 == 1:
        search.disrupt(state, cut_back)
    return state


def fills(board: Board, cut_back: float = 0.0) -> Iterator[tuple[bool, State]]:
    """Bottom-left fills in several orders and leans: (everything was laid, state)."""
    for lean in LEANS:
        for order in orders(board):
            state = empty_state(len(board.items), len(board.table.blocked_layers))
            laid = fill(board.table, board.charts, state, order, cut_back, lean)
            yield laid == len(board.items), state


def orders(board: Board) -> Iterator[np.ndarray]:
    """Largest first, by area, length, width, box and longest side."""
    first = board.table.choices[:, 0]
    size = board.table.box[first, 2:] - board.table.box[first, :2]
    long, wide = size.T
    for key in (board.areas_mm2, long, wide, long * wide, np.maximum(long, wide)):
        yield np.argsort(-key, kind="stable")


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
    return float(max(rows))


def pulled_in(board: Board, state: State, cut_back: float) -> None:
    """Move what lies beyond the drawn-in far edge back inside it."""
    for i in range(len(state.stance)):
        put_within(board, state, i, int(state.stance[i]), state.position[i].copy(), cut_back)


def put_within(board: Board, state: State, i: int, s: int, at: np.ndarray, cut_back: float) -> None:
    """Lay item i as near to ``at`` as its fit allows."""
    _, x, y = snap(board.table, i, s, float(at[0]), float(at[1]), cut_back)
    put(board.table, state, i, s, x, y)


def copied(state: State) -> State:
    """A state of its own."""
    return State(*(a.copy() for a in state))


def restore(state: State, kept: State) -> None:
    """Put items back where they were in ``kept``; weights stay."""
    state.position[:], state.stance[:], state.reach[:] = kept.position, kept.stance, kept.reach


def _corner(board: Board, state: State, i: int) -> np.ndarray:
    return board.table.box[state.stance[i], :2]


def _roomy(fit_row: np.ndarray, cut_back: float) -> bool:
    return fit_row[2] - cut_back >= fit_row[0] and fit_row[3] >= fit_row[1]
