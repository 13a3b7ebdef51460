"""Pieces may fill a cut to the last: what a cutter calls touching is no overlap."""

from __future__ import annotations

import pytest

from stash.lay import Budget, LayAnswer, LayTask, Verdict, check, first_lay, screen, shortest, solve
from stash.model import Outline, Piece, Repeat, Spread


def panel(long: float, wide: float, quantity: int, **given) -> Piece:
    """A rectangular piece that many times."""
    ring = ((0, 0), (long, 0), (long, wide), (0, wide))
    return Piece(name="panel", outline_mm=ring, quantity=quantity, **given)


def laid(piece: Piece, length: float, width: float, **given) -> LayAnswer:
    """The answer for one piece on a rectangular cut, the lay held to the separate check."""
    task = LayTask(pieces=(piece,), cloth=Outline.rectangle(length, width), **given)
    assert screen(task) is None
    answer = solve(task, Budget(iterations=100))
    assert answer.lay is None or check(task, answer.lay) == []
    return answer


@pytest.mark.parametrize(("rows", "across"), [(6, 1), (1, 6), (4, 3), (3, 4), (10, 6), (2, 2)])
@pytest.mark.parametrize(("long", "wide"), [(200, 150), (123.4, 98.7), (66.6, 33.3)])
def test_rectangles_tile_their_cut_exactly(rows, across, long, wide):
    """Rows one behind another and pieces side by side, on a cut of exactly so many."""
    answer = laid(panel(long, wide, rows * across), rows * long, across * wide)
    assert answer.verdict is Verdict.FITS
    assert answer.lay.length_mm == pytest.approx(rows * long, abs=0.01)
    assert answer.lay.utilisation == pytest.approx(1.0, abs=1e-4)


@pytest.mark.parametrize(("rows", "across"), [(6, 1), (1, 6), (4, 3), (10, 6)])
def test_with_room_asked_for_the_room_is_counted_exactly(rows, across):
    """5 mm between neighbours and 8 mm along the edges, none to spare."""
    length, width = (8 + n * side + (n - 1) * 5 + 8 for n, side in ((rows, 120), (across, 90)))
    answer = laid(panel(120, 90, rows * across), length, width, clearance_mm=5, edge_mm=8)
    assert answer.verdict is Verdict.FITS


@pytest.mark.parametrize("spread", [Spread.LENGTHWISE, Spread.CROSSWISE])
def test_pairs_tile_folded_cloth_exactly(spread):
    """Twelve pairs of 120 x 90 in four rows of three on each layer."""
    along, across = (4, 6) if spread is Spread.LENGTHWISE else (8, 3)
    pair = panel(120, 90, 24, mirrored_pair=True)
    answer = laid(pair, along * 120, across * 90, spread=spread)
    assert answer.verdict is Verdict.FITS


def test_pieces_on_the_fold_fill_a_folded_cut_exactly():
    """Five fronts of 210 x 400 on their fold, on cloth of exactly 400."""
    front = Piece(name="front", outline_mm=((0, -200), (210, -200), (210, 200), (0, 200)),
                  quantity=5, on_fold=True)
    assert laid(front, 1050, 400, spread=Spread.LENGTHWISE).verdict is Verdict.FITS


def test_pieces_that_divide_the_print_fill_a_printed_cut_exactly():
    """Panels of two repeats by three."""
    piece = panel(128, 96, 12, match_points_mm=((0, 0),))
    repeat = Repeat(lengthwise_mm=64, crosswise_mm=32)
    assert laid(piece, 4 * 128, 3 * 96, repeat=repeat).verdict is Verdict.FITS


def test_triangles_fill_a_cut_exactly_in_twos():
    """Sixteen triangles of 150 x 100, each two a rectangle, on 600 x 200."""
    godet = Piece(name="godet", outline_mm=((0, 0), (150, 0), (0, 100)), quantity=16)
    assert laid(godet, 600, 200).verdict is Verdict.FITS


@pytest.mark.parametrize(("length", "width"), [(1199, 450), (1200, 449)])
def test_a_millimetre_less_is_not_enough(length, width):
    """Six rows of three panels of 200 x 150."""
    task = LayTask(pieces=(panel(200, 150, 18),), cloth=Outline.rectangle(length, width))
    assert solve(task, Budget(iterations=50)).verdict is Verdict.IMPOSSIBLE


def test_the_shortest_strip_has_no_hairs_in_it():
    """Sixty panels of 100 x 60 in ten rows on 360 mm: one metre, to the hundredth."""
    task = LayTask(pieces=(panel(100, 60, 60),), width_mm=360.0)
    assert shortest(task, Budget(iterations=20)).lay.length_mm == pytest.approx(1000, abs=0.01)


def test_a_flaw_may_lie_exactly_between_two_pieces():
    """Pieces touch a hole of the cloth as they touch its edge."""
    flaw = ((200, 0.5), (210, 0.5), (210, 99.5), (200, 99.5))
    cloth = Outline(((0, 0), (410, 0), (410, 100), (0, 100)), (flaw,))
    task = LayTask(pieces=(panel(200, 100, 2),), cloth=cloth)
    answer = first_lay(task)
    assert answer.verdict is Verdict.FITS
    assert check(task, answer.lay) == []
