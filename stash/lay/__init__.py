"""The lay: pieces arranged on cloth, searched for, checked and drawn."""

from stash.lay.check import check
from stash.lay.compared import SpreadAnswer, compared
from stash.lay.drawing.in_page import InPage, draw_in_page
from stash.lay.drawing.lay_svg import STYLE, draw
from stash.lay.drawing.on_table import Layers, cuts_of_the_scissors
from stash.lay.drawing.positions import Position, positions_table
from stash.lay.matching import MatchingCost, matching_cost
from stash.lay.proof.bounds import screen_cuts
from stash.lay.proof.screen import screen
from stash.lay.solve import first_lay, shortest, shortfall, solve, solve_from
from stash.lay.task import Budget, LayTask
from stash.lay.verdicts import LayAnswer, LayFound, NoLayFound, NoLayPossible, Verdict
from stash.lay.warm import warm

__all__ = [
    "STYLE", "LayAnswer", "Budget", "InPage", "LayFound", "NoLayPossible", "LayTask", "Layers",
    "MatchingCost", "NoLayFound", "Position", "SpreadAnswer", "Verdict", "check", "compared",
    "cuts_of_the_scissors", "draw", "draw_in_page", "first_lay", "matching_cost",
    "positions_table", "screen", "screen_cuts", "shortest", "shortfall", "solve",
    "solve_from", "warm",
]
