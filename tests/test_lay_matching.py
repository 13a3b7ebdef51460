"""What matching costs in cloth: worked by hand, so the length of each row is known."""

from __future__ import annotations

import pytest

from stash.lay import Budget, LayTask, matching_cost
from stash.model import Outline, Piece, Repeat

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
