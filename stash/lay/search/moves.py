"""One seeded search on one board: the moves that a lay is shortened with.

A lay is drawn in to end at a nearer edge, or a state that came near is disrupted; then
its overlaps are removed as far as may be. Work is counted in sweeps over the items, so
the same seed and number of sweeps give the same lay whatever the clock does.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from stash.lay.search.board import Board, used_mm
from stash.lay.search.linear_programme import drawn_together, mended, moved_apart
from stash.lay.search.overlap import LayState, copied, laid, restore, snapped, source
from stash.lay.search.samples import SampleCounts
from stash.lay.search.separate import separate
from stash.lay.task import Budget

STALE_SWEEPS = 120  # sweeps without gain before a strike
STRIKES = 3
CHUNK = 20
MOST_SWAPS, BESIDE = 3, 0.15  # items beside one another: within this share of the length
SAMPLES = SampleCounts(near=6, touching=20, wide=2)
TOGETHER_MM = 100.0  # overlap below which all items are also moved at once
TOGETHER_SWEEPS = 5  # what that costs, in sweeps


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

    def separated(self, state: LayState | None, cut_back: float) -> tuple[float, LayState | None]:
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
                    SAMPLES, cut_back, CHUNK,
                )
                self.meter.sweeps += used
                if 0.0 < least[0] < TOGETHER_MM:
                    left = self._moved_apart(state, best, least, cut_back)
                if left == 0.0:
                    return 0.0, drawn_together(board, best, cut_back)
                stale = stale + used if least[0] >= 0.98 * before else 0
            if self.spent or least[0] >= 0.98 * entry:
                break
            restore(state, best)
        return float(least[0]), best

    def _moved_apart(
        self, state: LayState, best: LayState, least: np.ndarray, cut_back: float
    ) -> float:
        """Move all items of ``state`` at once; the overlap left. Keeps the least in ``best``."""
        self.meter.sweeps += TOGETHER_SWEEPS
        left, moved = moved_apart(self.board, state, cut_back)
        if left < np.inf:
            restore(state, moved)
        if left < least[0]:
            least[0] = left
            restore(best, moved)
        return left

    def mended(self, state: LayState | None, left_mm: float, length_mm: float) -> LayState | None:
        """A sound lay shorter than ``length_mm`` from a state that came near an edge nearer
        still: what room lies between the two may be enough for the overlap left."""
        if state is None or left_mm >= TOGETHER_MM:
            return None
        self.meter.sweeps += TOGETHER_SWEEPS
        return mended(self.board, state, self.board.length_mm - length_mm)

    def drawn_in(self, best: LayState, cut_back: float) -> LayState | None:
        """A sound lay drawn together at a random line until it ends at the new edge.

        None when an item has no place left at all, which happens on a repeat."""
        board = self.board
        state = copied(best)
        state.weight[:] = board.table.heft
        length = used_mm(board, best)
        surplus = length - (board.length_mm - cut_back)
        line = board.start_mm + self.random.uniform(0.0, 1.0) * length
        middle = (state.reach[:, 0] + state.reach[:, 2]) / 2
        for i in range(len(state.stance)):
            at = state.position[i] - (surplus if middle[i] > line else 0.0, 0.0)
            if not self._put(state, i, at, cut_back):
                return None
        return state

    def varied(self, tried: list[tuple[float, LayState]], cut_back: float) -> LayState:
        """One of the states that came near, the nearest most often, with some items swapped."""
        pick = min(int(abs(self.random.normal(0.0, 0.25)) * len(tried)), len(tried) - 1)
        state = copied(tried[pick][1])
        state.weight[:] = self.board.table.heft
        self.disrupt(state, cut_back)
        return state

    def disrupt(self, state: LayState, cut_back: float) -> None:
        """Swap a few items, large ones more often, with unlike ones that lie near."""
        size = np.sqrt(self.board.areas_mm2)
        for _ in range(self.random.integers(1, MOST_SWAPS + 1)):
            a = self.random.choice(len(size), p=size / size.sum())
            chance = size * self._unlike(a) * self._nearness(state, a)
            if chance.sum() > 0:
                b = self.random.choice(len(size), p=chance / chance.sum())
                self._swap(state, a, b, cut_back)
            else:
                low, high = self.board.table.fit[state.stance[a]].reshape(2, 2)
                self._put(state, a, self.random.uniform(low, high), cut_back)

    def _unlike(self, a: int) -> np.ndarray:
        """For each item 1 when it is cut from another piece and of a like size, less when
        their sizes differ, 0 for the same piece."""
        items, areas = self.board.items, self.board.areas_mm2
        other = np.array([item.piece is not items[a].piece for item in items])
        return np.asarray(other * np.exp(-np.abs(np.log(areas / areas[a]))))

    def _nearness(self, state: LayState, a: int) -> np.ndarray:
        """For each item 1 where it lies beside item a, hardly more than 0 at the other end."""
        middle = (state.reach[:, 0] + state.reach[:, 2]) / 2
        away = np.abs(middle - middle[a])
        return np.asarray(np.exp(-away / (BESIDE * max(float(np.ptp(middle)), 1.0))))

    def _swap(self, state: LayState, a: int, b: int, cut_back: float) -> None:
        pa, pb = state.position[a].copy(), state.position[b].copy()
        shift = _corner(self.board, state, a) - _corner(self.board, state, b)
        self._put(state, a, pb - shift, cut_back)
        self._put(state, b, pa + shift, cut_back)

    def _put(self, state: LayState, i: int, at: np.ndarray, cut_back: float) -> bool:
        """Lay item i as near to ``at`` as it may lie, in its stance or else in another."""
        table = self.board.table
        for s in (state.stance[i], *table.choices[i]):
            if s >= 0:
                free, x, y = snapped(table, i, int(s), float(at[0]), float(at[1]), cut_back)
                if free:
                    laid(table, state, i, int(s), x, y)
                    return True
        return False


def _corner(board: Board, state: LayState, i: int) -> np.ndarray:
    return board.table.box[state.stance[i], :2]
