"""Double or single: the same pieces laid open, folded lengthwise and folded crosswise."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace

from stash.lay.drawing.on_table import cuts_of_the_scissors
from stash.lay.solve import shortest
from stash.lay.task import Budget, LayTask
from stash.lay.verdicts import LayAnswer, LayFound
from stash.model import Lay, Spread


@dataclass(frozen=True)
class SpreadAnswer:
    """One way to spread the cloth: what it answers, and how many outlines are cut along."""

    spread: Spread
    answer: LayAnswer
    cuts: int | None

    def to_json(self) -> dict[str, object]:
        """``{"spread", "fits", "verdict", "length_mm", "cuts", "fold_mm"}``."""
        lay = self.answer.lay
        return {
            "spread": self.spread.value,
            "fits": lay is not None,
            "verdict": self.answer.to_json(),
            "length_mm": None if lay is None else round(lay.length_mm, 1),
            "cuts": self.cuts,
            "fold_mm": None if lay is None else lay.fold_mm,
        }


def compared(
    task: LayTask, budget: Budget, known: Lay | None = None
) -> tuple[SpreadAnswer, ...]:
    """The shortest lay of every way to spread the cloth, under one stop, iterations shared.

    A lay ``known`` already stands for its own way, which is not searched again.
    """
    share = None if budget.iterations is None else budget.iterations // len(Spread)
    own = replace(budget, iterations=share, workers=1)

    def of(spread: Spread) -> SpreadAnswer:
        spread_so = replace(task, spread=spread)
        if known is not None and known.spread is spread:
            return _counted(spread_so, LayFound(lay=known, used_mm=known.length_mm, sweeps=0))
        return _counted(spread_so, shortest(spread_so, own))

    with ThreadPoolExecutor(max(1, min(budget.workers, len(Spread)))) as pool:
        return tuple(pool.map(of, Spread))


def _counted(task: LayTask, answer: LayAnswer) -> SpreadAnswer:
    cuts = cuts_of_the_scissors(task, answer.lay) if isinstance(answer, LayFound) else None
    return SpreadAnswer(task.spread or Spread.OPEN, answer, cuts)
