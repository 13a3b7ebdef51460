"""Double or single: the same pieces laid open, folded lengthwise and folded crosswise."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace

from stash.lay.drawing.on_table import cuts_of_the_scissors
from stash.lay.solve import solve
from stash.lay.task import Budget, LayTask
from stash.lay.verdicts import Answer, LayFound
from stash.model import Spread


@dataclass(frozen=True)
class SpreadAnswer:
    """One way to spread the cloth: what it answers, and how many outlines are cut along."""

    spread: Spread
    answer: Answer
    cuts: int | None

    def to_json(self) -> dict[str, object]:
        """``{"spread", "verdict", "length_mm", "cuts", "fold_mm"}``."""
        lay = self.answer.lay
        return {
            "spread": self.spread.value,
            "verdict": self.answer.to_json(),
            "length_mm": None if lay is None else round(lay.length_mm, 1),
            "cuts": self.cuts,
            "fold_mm": None if lay is None else lay.fold_mm,
        }


def compared(task: LayTask, budget: Budget) -> tuple[SpreadAnswer, ...]:
    """Every way to spread the cloth, under one stop and with a share of the iterations each."""
    share = None if budget.iterations is None else budget.iterations // len(Spread)
    own = replace(budget, iterations=share, workers=1)
    tasks = [replace(task, spread=spread) for spread in Spread]
    with ThreadPoolExecutor(max(1, min(budget.workers, len(tasks)))) as pool:
        answers = pool.map(lambda one: solve(one, own), tasks)
        return tuple(_counted(one, answer) for one, answer in zip(tasks, answers, strict=True))


def _counted(task: LayTask, answer: Answer) -> SpreadAnswer:
    cuts = cuts_of_the_scissors(task, answer.lay) if isinstance(answer, LayFound) else None
    return SpreadAnswer(task.spread or Spread.OPEN, answer, cuts)
