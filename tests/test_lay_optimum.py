"""Lays whose shortest length is known by geometry, so the search can be held to it."""

from __future__ import annotations

import pytest

from stash.lay import Budget, LayTask, Verdict, shortest, solve
from stash.model import Outline, Piece, Spread

SLACK_MM = 0.3


def rectangle(name: str, length: float, width: float, **given) -> Piece:
    """A rectangular piece."""
    return Piece(
        name=name, outline_mm=((0, 0), (length, 0), (length, width), (0, width)), **given
    )


def test_squares_tile_a_strip_exactly():
    """Twelve squares of 100 mm on 400 mm of width take three rows."""
    task = LayTask(pieces=(rectangle("square", 100, 100, quantity=12),), width_mm=400.2)
    lay = shortest(task, Budget(iterations=50)).lay
    assert lay.length_mm == pytest.approx(300, abs=SLACK_MM)
    assert lay.utilisation == pytest.approx(1.0, abs=0.002)


def test_two_right_triangles_pair_to_a_rectangle():
    """A triangle and the same turned round make 300 x 200; one-way they cannot."""
    triangle = Piece(name="godet", outline_mm=((0, 0), (300, 0), (0, 200)), quantity=2)
    both_ways = LayTask(pieces=(triangle,), width_mm=200.1)
    assert shortest(both_ways, Budget(iterations=200)).lay.length_mm == pytest.approx(
        300, abs=SLACK_MM
    )
    one_way = LayTask(pieces=(triangle,), width_mm=200.1, one_way=True)
    assert shortest(one_way, Budget(iterations=200)).lay.length_mm > 590


def test_a_rectangle_cut_into_six_goes_together_again():
    """Rectangles cut from 500 x 300 fill 500 x 300 again, a hair's breadth of room given."""
    cuts = [(200, 180), (300, 180), (200, 120), (100, 120), (120, 120), (80, 120)]
    pieces = tuple(rectangle(f"part {k}", *size) for k, size in enumerate(cuts))
    task = LayTask(pieces=pieces, cloth=Outline.rectangle(500.2, 300.2))
    answer = solve(task, Budget(seed=1, iterations=4000))
    assert answer.verdict is Verdict.FITS


def test_clearance_and_edge_margin_add_up():
    """Two squares beside the margin: 10 + 100 + 6 + 100 + 10 mm long."""
    task = LayTask(
        pieces=(rectangle("square", 100, 100, quantity=2),), width_mm=121.0,
        clearance_mm=6.0, edge_mm=10.0,
    )
    lay = shortest(task, Budget(iterations=50)).lay
    assert lay.length_mm == pytest.approx(226, abs=SLACK_MM)
    assert min(p.x_mm for p in lay.placements) >= 10 - 1e-6


def test_folded_lengthwise_a_pair_lies_on_both_layers():
    """Six mirrored pairs of 200 x 250 on 1000 mm folded to 500: three rows of two."""
    pair = rectangle("panel", 200, 250, quantity=12, mirrored_pair=True)
    task = LayTask(pieces=(pair,), width_mm=1000.4, spread=Spread.LENGTHWISE)
    lay = shortest(task, Budget(iterations=50)).lay
    assert lay.length_mm == pytest.approx(600, abs=SLACK_MM)
    assert lay.fold_mm == pytest.approx(500.2)


def test_folded_crosswise_the_length_is_twice_the_pile():
    """One pair of 400 x 700 on 700 mm of width: two layers of 400."""
    pair = rectangle("panel", 400, 700, quantity=2, mirrored_pair=True)
    task = LayTask(pieces=(pair,), width_mm=700.1, spread=Spread.CROSSWISE)
    lay = shortest(task, Budget(iterations=50)).lay
    assert lay.length_mm == pytest.approx(800, abs=SLACK_MM)
    assert lay.fold_mm == pytest.approx(400, abs=SLACK_MM)


def test_only_part_of_the_width_is_doubled_when_that_is_shorter():
    """A wide single piece beside a narrow pair needs single cloth beside the fold."""
    pair = rectangle("sleeve", 500, 180, quantity=2, mirrored_pair=True)
    single = rectangle("back", 500, 600)
    task = LayTask(pieces=(pair, single), width_mm=1000.0, spread=Spread.LENGTHWISE)
    lay = shortest(task, Budget(iterations=50)).lay
    assert lay.length_mm == pytest.approx(500, abs=SLACK_MM)
    assert lay.fold_mm < 400


def test_pieces_go_round_a_flaw():
    """A hole in the middle forces the second square beyond it."""
    cloth = Outline(
        ((0, 0), (400, 0), (400, 100.1), (0, 100.1)), (((90, 40), (110, 40), (110, 60), (90, 60)),)
    )
    task = LayTask(pieces=(rectangle("square", 100, 100, quantity=2),), cloth=cloth)
    lay = shortest(task, Budget(iterations=100)).lay
    assert lay.length_mm == pytest.approx(310, abs=SLACK_MM)


def test_a_miss_says_how_much_longer_the_cut_should_have_been():
    """Three squares in a row on a cut of 290 mm are 10 mm short, and that is proved."""
    task = LayTask(
        pieces=(rectangle("square", 100, 100, quantity=3),), cloth=Outline.rectangle(290, 110)
    )
    answer = solve(task, Budget(iterations=50))
    assert answer.verdict is Verdict.IMPOSSIBLE
    assert answer.short_mm == pytest.approx(10, abs=SLACK_MM)
