"""The lay: pieces arranged on cloth, searched for, checked and drawn."""

from stash.lay.bounds import screen_cuts
from stash.lay.check import check
from stash.lay.draw import draw
from stash.lay.matching import MatchingCost, matching_cost
from stash.lay.positions import Position, positions_table
from stash.lay.screen import screen
from stash.lay.several import OverCuts, largest_set, over_cuts
from stash.lay.shortfall import shortfall
from stash.lay.solve import first_lay, shortest, solve
from stash.lay.task import Answer, Budget, LayTask, Verdict
from stash.lay.warm import warm

__all__ = [
    "Answer", "Budget", "LayTask", "MatchingCost", "OverCuts", "Position", "Verdict", "check",
    "draw", "first_lay", "largest_set", "matching_cost", "over_cuts", "positions_table", "screen",
    "screen_cuts", "shortest", "shortfall", "solve", "warm",
]
