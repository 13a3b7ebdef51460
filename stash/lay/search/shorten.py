"""Shorten a lay, or get it inside a given length.

Draw the far edge in, remove the overlaps that this makes, repeat. What comes near is let
out again as far as it must be to be sound, in case that is still shorter. Where that fails
too, keep trying at that length, from what came nearest, with some items swapped; now and then
squeeze the best lay in shorter paces (exploration and compression after Gardeyn et al.
2025).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

import numpy as np

from stash.lay.search.board import shortest_possible, used_mm
from stash.lay.search.moves import Search
from stash.lay.search.overlap import TOUCH_MM, LayState

FIRST_PACE, PACE = 0.02, 0.001  # shares of the length drawn in at once
SQUEEZING_PACE, FINEST_PACE, SLOWING = 0.0007, 0.0001, 0.5
PATIENCE = 6  # failures in a row before a squeeze
SQUEEZING_SHARE = 0.2  # of the sweeps spent on the chase, at most, before another squeeze
MOST_KEPT = 60  # states that came near


def shorten(search: Search, start: LayState, goal_mm: float = 0.0) -> Iterator[LayState]:
    """The shortest lay so far, after each attempt; ends when the meter does or at the goal."""
    board = search.board
    least = max(shortest_possible(board), goal_mm)
    best, squeezed, squeezing = start, None, 0
    chase = Chase(search)
    while not search.spent and used_mm(board, best) > least + TOUCH_MM:
        best = chase.attempt(best, least)
        yield best
        if chase.hopeless:
            return
        if best is squeezed or chase.failures < PATIENCE:
            continue
        if squeezing <= SQUEEZING_SHARE * chase.sweeps:
            spent = search.meter.sweeps
            for shorter in squeeze(search, best, least):
                best = shorter
                yield best
            squeezed = best
            squeezing += search.meter.sweeps - spent


@dataclass
class Chase:
    """Attempts at a lay one pace shorter than the best, and the states that came near it."""

    search: Search
    pace: float = FIRST_PACE
    aim_mm: float = np.inf
    near: list[tuple[float, LayState]] = field(default_factory=list)
    failures: int = 0
    sweeps: int = 0
    hopeless: bool = False

    def attempt(self, best: LayState, least_mm: float) -> LayState:
        """A lay of the length aimed for, or between that and ``best``, or ``best`` itself."""
        search, board = self.search, self.search.board
        length, spent = used_mm(board, best), search.meter.sweeps
        if length <= self.aim_mm + TOUCH_MM:
            self._aim_below(length)
        cut_back = board.length_mm - max(self.aim_mm, least_mm)
        start = self._varied(cut_back) or search.drawn_in(best, cut_back)
        left, state = search.separated(start, cut_back)
        if left > 0.0:
            mended = search.mended(state, left, length)
            if mended is not None:
                self._aim_below(used_mm(board, mended))
                left, state = 0.0, mended
        self.sweeps += search.meter.sweeps - spent
        if left == 0.0 and state is not None:
            self.failures = 0
            return state
        self._missed(left, state, length)
        return best

    def _varied(self, cut_back: float) -> LayState | None:
        return self.search.varied(self.near, cut_back) if self.near else None

    def _missed(self, left_mm: float, state: LayState | None, length_mm: float) -> None:
        if self.pace > PACE:
            self.pace = max(PACE, self.pace / 2)
            self._aim_below(length_mm)
        elif state is None:  # no place left for some item, which happens on a repeat
            self.hopeless = True
        else:
            self.failures += 1
            self.near.append((left_mm, state))
            self.near.sort(key=lambda pair: pair[0])
            del self.near[MOST_KEPT:]

    def _aim_below(self, length_mm: float) -> None:
        self.aim_mm = length_mm * (1 - self.pace)
        self.near.clear()


def squeeze(search: Search, best: LayState, least_mm: float) -> Iterator[LayState]:
    """Shorten in paces that get shorter, drawing the lay together at a random line."""
    board, pace = search.board, SQUEEZING_PACE
    while not search.spent and pace > FINEST_PACE:
        length = used_mm(board, best)
        if length <= least_mm + TOUCH_MM:
            return
        cut_back = board.length_mm - max(length * (1 - pace), least_mm)
        left, state = search.separated(search.drawn_in(best, cut_back), cut_back)
        if left == 0.0 and state is not None:
            best = state
        else:
            pace *= SLOWING
        yield best
