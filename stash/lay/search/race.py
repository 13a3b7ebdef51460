"""The race: promising ways to spread the cloth, searched in turn by as many workers as asked for.

Workers are threads (the kernels run without the interpreter lock), each with numbers of
its own. When one reaches the goal, the others stop as soon as they have spent as much,
so the winner does not depend on which core was faster.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field

from stash.lay.search.board import used_mm
from stash.lay.search.moves import Meter, Search
from stash.lay.search.overlap import LayState
from stash.lay.search.shorten import shorten
from stash.lay.search.ways_to_spread import WayToSpread
from stash.lay.task import Budget

PROMISING = 1.2  # ways whose first lay is longer than this many times the best are left out
MOST_WAYS = 3

Best = tuple[WayToSpread, LayState]


@dataclass
class Race:
    """Ways with their first lays, and whether reaching the end of the cut is enough."""

    starts: list[Best]
    budget: Budget
    to_the_cut: bool
    progress: Callable[[Best], None] | None = None
    won: dict[int, int] = field(default_factory=dict)
    sweeps: int = 0

    def run(self) -> list[Best]:
        """The shortest lay of each way."""
        promising = self._promising()
        others = [start for start in self.starts if start not in promising]
        workers = range(max(1, self.budget.workers))
        if len(workers) == 1:
            found = self._work(0, promising)
        else:
            with ThreadPoolExecutor(len(workers)) as pool:
                rounds = pool.map(lambda worker: self._work(worker, promising), workers)
                found = [best for one in rounds for best in one]
        return found + others

    def _promising(self) -> list[Best]:
        ranked = sorted(self.starts, key=_cloth_used)
        limit = PROMISING * _cloth_used(ranked[0])
        return [start for start in ranked if _cloth_used(start) <= limit][:MOST_WAYS]

    def _work(self, worker: int, starts: list[Best]) -> list[Best]:
        """One worker's turn-taking search over the ways."""
        meter = Meter(self.budget, lambda sweeps: self._beaten(worker, sweeps))
        lines = [self._line(start, meter, worker, k) for k, start in enumerate(starts)]
        best = list(starts)
        running = list(range(len(lines)))
        while running and worker not in self.won:
            for k in list(running):
                state = next(lines[k], None)
                if state is None:
                    running.remove(k)
                elif state is not best[k][1]:
                    self._better(worker, best, k, state, meter)
                if worker in self.won:
                    break
        self.sweeps += meter.sweeps
        return best

    def _line(self, start: Best, meter: Meter, worker: int, k: int) -> Iterator[LayState]:
        way, state = start
        goal = way.target_mm if self.to_the_cut else 0.0
        search = Search(way.board, meter, stream=worker + 1000 * k)
        return shorten(search, state, goal or 0.0)

    def _better(self, worker: int, best: list[Best], k: int, state: LayState, meter: Meter) -> None:
        way = best[k][0]
        best[k] = (way, state)
        if self.to_the_cut and way.within(state):
            self.won[worker] = meter.sweeps
        if self.progress and used_mm(way.board, state) <= min(
            used_mm(s.board, b) * s.layers_long for s, b in best
        ):
            self.progress(best[k])

    def _beaten(self, worker: int, sweeps: int) -> bool:
        """Another worker reached the goal with less work."""
        won = list(self.won.items())
        return any((spent, other) < (sweeps, worker) for other, spent in won)


def _cloth_used(best: Best) -> float:
    way, state = best
    return used_mm(way.board, state) * way.layers_long
