"""The strong search on one board: shorten a lay, or get it inside a given length.

A lay is shortened step by step: draw the far edge in, remove the overlaps that this
makes, repeat. Long paces explore, and where one fails the search keeps trying there
from what came nearest (two-phase scheme after Gardeyn et al. 2025); short paces then
squeeze. Work is counted in sweeps over the items, so the same seed and number of
sweeps give the same lay whatever the clock does.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

import numpy as np

from stash.lay.board import Board
from stash.lay.cost import State, copied, put, restore, snap, source
from stash.lay.measure import shortest_possible, used_mm
from stash.lay.separate import Effort, separate
from stash.lay.task import Budget

STALE_SWEEPS = 60  # sweeps without gain before a strike
STRIKES = 3
CHUNK = 10
FIRST_PACE, EXPLORING_PACE, SQUEEZING_PACE, FINEST_PACE = 0.02, 0.0025, 0.002, 0.0001
EXPLORING_TRIES = 6
NEAR_ENOUGH_MM = 0.05
EFFORT = Effort(20, 10, 0.95)


@dataclass
class Meter:
    """What has been spent of a budget; shared by the searches of one worker."""

    budget: Budget
    ended: Callable[[int], bool] = field(default=lambda sweeps: False)
    sweeps: int = 0

    @property
    def spent(self) -> bool:
        """True when the budget is used up or the person pressed stop."""
        limit = self.budget.iterations
        over = limit is not None and self.sweeps >= limit
        return over or self.ended(self.sweeps) or self.budget.stop()


@dataclass
class Search:
    """One seeded search: its board, its numbers, and the meter it runs on."""

    board: Board
    meter: Meter
    stream: int = 0
    numbers: np.ndarray = field(init=False)
    random: np.random.Generator = field(init=False)

    def __post_init__(self) -> None:
        seed = self.meter.budget.seed % 2**63
        self.numbers = source(seed, self.stream)
        self.random = np.random.default_rng([seed, self.stream])

    @property
    def spent(self) -> bool:
        """True when the meter has run out."""
        return self.meter.spent

    def separated(self, state: State | None, cut_back: float) -> tuple[float, State | None]:
        """(overlap left in mm, state): the state with its overlaps removed as far as may be."""
        if state is None:
            return np.inf, None
        board = self.board
        best, least = copied(state), np.array([np.inf])
        for _ in range(STRIKES):
            stale, entry = 0, least[0]
            while stale < STALE_SWEEPS and not self.spent:
                before = least[0]
                left, used = separate(
                    board.table, board.charts, state, (best, least), self.numbers,
                    EFFORT, cut_back, CHUNK,
                )
                self.meter.sweeps += used
                if left == 0.0:
                    return 0.0, best
                stale = stale + used if least[0] >= 0.98 * before else 0
            if self.spent or least[0] >= 0.98 * entry:
                break
            restore(state, best)
        return float(least[0]), best

    def drawn_in(self, best: State, cut_back: float) -> State | None:
        """A sound lay drawn together at a random line until it ends at the new edge.

        None when an item has no place left at all, which happens on a repeat."""
        board = self.board
        state = copied(best)
        state.weight[:] = 1.0
        length = used_mm(board, best)
        surplus = length - (board.length_mm - cut_back)
        line = board.start_mm + self.random.uniform(0.0, 1.0) * length
        middle = (state.reach[:, 0] + state.reach[:, 2]) / 2
        for i in range(len(state.stance)):
            at = state.position[i] - (surplus if middle[i] > line else 0.0, 0.0)
            if not self._put(state, i, at, cut_back):
                return None
        return state

    def varied(self, tried: list[tuple[float, State]], cut_back: float) -> State:
        """One of the states that came near, the nearest most often, with two items swapped."""
        pick = min(int(abs(self.random.normal(0.0, 0.25)) * len(tried)), len(tried) - 1)
        state = copied(tried[pick][1])
        state.weight[:] = 1.0
        self.disrupt(state, cut_back)
        return state

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

    def _put(self, state: State, i: int, at: np.ndarray, cut_back: float) -> bool:
        """Lay item i as near to ``at`` as it may lie, in its stance or else in another."""
        table = self.board.table
        for s in (state.stance[i], *table.choices[i]):
            if s >= 0:
                free, x, y = snap(table, i, int(s), float(at[0]), float(at[1]), cut_back)
                if free:
                    put(table, state, i, int(s), x, y)
                    return True
        return False


def shorten(search: Search, start: State, goal_mm: float = 0.0) -> Iterator[State]:
    """The shortest lay so far, after each attempt; ends when the meter does or at the goal."""
    least = max(shortest_possible(search.board), goal_mm)
    best, pace = start, FIRST_PACE
    while not search.spent and used_mm(search.board, best) > least + NEAR_ENOUGH_MM:
        spent = search.meter.sweeps
        for phase in (_explore, _squeeze):
            for shorter in phase(search, best, pace, least):
                best = shorter
                yield best
        if search.meter.sweeps == spent:  # nothing could even be tried
            return
        pace = EXPLORING_PACE


def _explore(search: Search, best: State, pace: float, least_mm: float) -> Iterator[State]:
    """Shorten in long paces; where one fails, keep trying there from what came nearest."""
    board = search.board
    tried: list[tuple[float, State]] = []
    while not search.spent and len(tried) < EXPLORING_TRIES:
        length = used_mm(board, best)
        if length <= least_mm + NEAR_ENOUGH_MM:
            return
        cut_back = board.length_mm - max(length * (1 - pace), least_mm)
        state = search.drawn_in(best, cut_back) if not tried else search.varied(tried, cut_back)
        left, state = search.separated(state, cut_back)
        if left == 0.0:
            best, tried = state, []
        elif pace > EXPLORING_PACE:
            pace = max(EXPLORING_PACE, pace / 2)
        elif state is None:
            return
        else:
            tried.append((left, state))
            tried.sort(key=lambda pair: pair[0])
        yield best


def _squeeze(search: Search, best: State, pace: float, least_mm: float) -> Iterator[State]:
    """Shorten in paces that get shorter, drawing the lay together at a random line."""
    pace = min(pace, SQUEEZING_PACE)
    board = search.board
    while not search.spent and pace > FINEST_PACE:
        length = used_mm(board, best)
        if length <= least_mm + NEAR_ENOUGH_MM:
            return
        cut_back = board.length_mm - max(length * (1 - pace), least_mm)
        left, state = search.separated(search.drawn_in(best, cut_back), cut_back)
        if left == 0.0:
            best = state
        else:
            pace *= 0.7
        yield best


def _corner(board: Board, state: State, i: int) -> np.ndarray:
    return board.table.box[state.stance[i], :2]
