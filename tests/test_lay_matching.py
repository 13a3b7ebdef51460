"""What matching costs in cloth: worked by hand, so the length of each row is known."""

from __future__ import annotations

import pytest

from stash.lay import Budget, LayTask, Verdict, check, matching_cost, shortest
from stash.model import Outline, Piece, Repeat, Spread
from stash.sentences import Reader, say
from stash.units import System


def said(answer) -> str:
    """The sentence of an answer."""
    return say(answer.told, Reader(System.METRIC))


PANEL = Piece(
    name="panel", outline_mm=((0, 0), (100, 0), (100, 50), (0, 50)), quantity=3,
    match_points_mm=((0.0, 0.0),),
)
PRINTED = LayTask(pieces=(PANEL,), width_mm=51.0, repeat=Repeat(lengthwise_mm=64))


def test_three_panels_in_a_row_cost_the_gaps_to_the_next_repeat():
    """Panels of 100 begin at 0, 128 and 256 on a 64 mm print: 356 long instead of 300."""
    cost = matching_cost(PRINTED, Budget(iterations=100))
    assert cost.matched.lay.length_mm == pytest.approx(356, abs=0.2)
    assert cost.plain.lay.length_mm == pytest.approx(300, abs=0.2)
    assert cost.costs_mm == pytest.approx(56, abs=0.3)


def test_a_print_that_divides_the_panel_costs_next_to_nothing():
    """Panels of 99 on a 50 mm print begin at 0, 100 and 200: 299 instead of 297."""
    panel = Piece(name="panel", outline_mm=((0, 0), (99, 0), (99, 50), (0, 50)), quantity=3,
                  match_points_mm=((0.0, 0.0),))
    task = LayTask(pieces=(panel,), width_mm=51.0, repeat=Repeat(lengthwise_mm=50))
    assert matching_cost(task, Budget(iterations=100)).costs_mm == pytest.approx(2, abs=0.3)


def test_on_a_cut_the_cost_is_that_of_cloth_as_wide_as_the_cut():
    """Even when the cut itself is too short for either."""
    task = LayTask(pieces=(PANEL,), cloth=Outline.rectangle(250, 51), repeat=PRINTED.repeat)
    assert matching_cost(task, Budget(iterations=100)).costs_mm == pytest.approx(56, abs=0.3)


def test_what_cannot_be_laid_at_all_has_no_cost():
    """None, not nothing: the panel is wider than the cloth."""
    task = LayTask(pieces=(PANEL,), width_mm=40.0, repeat=PRINTED.repeat)
    assert matching_cost(task, Budget(iterations=10)).costs_mm is None


def front(match_y: float) -> Piece:
    """A front of 300 x 400 cut on the fold, matched at its neck."""
    return Piece(name="front", outline_mm=((0, -200), (300, -200), (300, 200), (0, 200)),
                 on_fold=True, match_points_mm=((0.0, match_y),))


@pytest.mark.parametrize(("half_drop", "match_y", "fold"), [
    (False, 0, 720), (True, 0, 720), (False, 24, 744), (False, 48, 720),
])
def test_cloth_is_folded_where_pieces_on_the_fold_lie_on_the_print(half_drop, match_y, fold):
    """1.5 m wide with a 48 mm repeat: the last whole repeat before 750 is at 720, the last
    half one at 744, and only one of them brings the match point onto the print."""
    repeat = Repeat(lengthwise_mm=64, crosswise_mm=48, half_drop=half_drop)
    task = LayTask(pieces=(front(match_y),), width_mm=1500.0, spread=Spread.LENGTHWISE,
                   repeat=repeat)
    lay = shortest(task, Budget(iterations=10)).lay
    assert check(task, lay) == []
    assert lay.fold_mm == fold


def test_a_piece_whose_match_point_cannot_lie_on_the_print_is_not_folded():
    """10 mm from the fold no line of the print lies that the print mirrors onto itself about."""
    task = LayTask(pieces=(front(10),), width_mm=1500.0, spread=Spread.LENGTHWISE,
                   repeat=Repeat(lengthwise_mm=64, crosswise_mm=48))
    answer = shortest(task, Budget(iterations=10))
    assert (answer.verdict, said(answer)) == (
        Verdict.NOT_FOUND, "No lay was found on this cloth spread this way; try it open."
    )
