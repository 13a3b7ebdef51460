"""The lay: pieces arranged on cloth, searched for, checked and drawn."""

from stash.lay.bounds import screen_cuts
from stash.lay.check import check
from stash.lay.screen import screen
from stash.lay.solve import first_lay, shortest, solve
from stash.lay.task import Answer, Budget, LayTask, Verdict

__all__ = [
    "Answer", "Budget", "LayTask", "Verdict", "check", "first_lay", "screen", "screen_cuts",
    "shortest", "solve",
]
