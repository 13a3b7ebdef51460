"""What matching a print costs: the length with the repeat beside the length without it."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace

from stash.lay.solve import shortest
from stash.lay.task import Budget, LayTask
from stash.lay.verdicts import LayAnswer


@dataclass(frozen=True)
class MatchingCost:
    """The shortest lays known with the print matched and with it ignored."""

    matched: LayAnswer
    plain: LayAnswer

    @property
    def costs_mm(self) -> float | None:
        """Cloth the matching takes; None when the matched lay was not found.

        Never below nothing: a matched lay is also a lay of the plain cloth, so a plain
        one that came out longer only shows that the search had too little time.
        """
        if self.matched.lay is None or self.plain.lay is None:
            return None
        return max(0.0, self.matched.lay.length_mm - self.plain.lay.length_mm)


def matching_cost(task: LayTask, budget: Budget) -> MatchingCost:
    """Both lengths off a roll of the task's width, from one budget.

    The two searches run side by side under the same stop and with half the iterations
    each, so neither has more time than the other.
    """
    width = task.cloth.width_mm if task.cloth is not None else task.width_mm
    roll = replace(task, cloth=None, width_mm=width)
    half = None if budget.iterations is None else budget.iterations // 2
    share = replace(budget, iterations=half, workers=max(1, budget.workers // 2))
    with ThreadPoolExecutor(2) as pool:
        both = pool.map(lambda t: shortest(t, share), (roll, replace(roll, repeat=None)))
        return MatchingCost(*both)
