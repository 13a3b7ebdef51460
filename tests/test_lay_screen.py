"""The screen proves impossibility, and only impossibility."""

from __future__ import annotations

import re

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from shapely import MultiPoint

from stash.errors import InvalidInput
from stash.lay import Budget, LayTask, Verdict, screen, screen_cuts, shortest
from stash.lay.proof.cross_sections import in_a_row, least_total, profile
from stash.model import Outline, Piece, Repeat, Spread
from stash.sentences import Reader, say
from stash.units import System


def said(answer) -> str:
    """The sentence of an answer."""
    return say(answer.told, Reader(System.METRIC))


def rectangle(name: str, length: float, width: float, **given) -> Piece:
    """A rectangular piece."""
    return Piece(
        name=name, outline_mm=((0, 0), (length, 0), (length, width), (0, width)), **given
    )


LEG = rectangle("leg", 1000, 300, quantity=2)


@pytest.mark.parametrize(("length", "width", "reason"), [
    (900, 1500, "The leg is 1.00 m along the grain and the cut is only 90 cm long."),
    (1500, 250, "The leg is 30 cm across and the usable cloth is only 25 cm wide."),
    (1000, 599, "The pieces cover 0.600 m² and the cut has only 0.599 m²."),
    (1100, 590, "Side by side in 1.10 m of length, the pieces need a width of 60 cm at least; "
                "the cut is only 59 cm wide."),
])
def test_each_proof_gives_its_reason(length, width, reason):
    """Longest piece, widest piece, area, and lines across and along."""
    answer = screen(LayTask(pieces=(LEG,), cloth=Outline.rectangle(length, width)))
    assert answer.verdict is Verdict.IMPOSSIBLE
    assert said(answer) == reason


def test_lines_along_the_cloth_prove_too():
    """Three yokes, 20 cm long and 50 wide, must lie one behind another on 59 cm of width."""
    yoke = rectangle("yoke", 200, 500, quantity=3)
    answer = screen(LayTask(pieces=(yoke,), cloth=Outline.rectangle(590, 590)))
    assert said(answer) == (
        "One behind another in 59 cm of width, the pieces need 60 cm of length at least; "
        "the cut is only 59 cm long."
    )


def test_a_cut_that_just_serves_is_let_through():
    """Two legs side by side need 1000 x 600 and not a millimetre more."""
    assert screen(LayTask(pieces=(LEG,), cloth=Outline.rectangle(1000, 600))) is None


def test_a_crosswise_fold_is_refused_for_one_way_cloth():
    """The upper layer would run the other way."""
    task = LayTask(pieces=(LEG,), width_mm=1500.0, one_way=True, spread=Spread.CROSSWISE)
    assert "turns the upper layer round" in said(screen(task))


@st.composite
def triangles(draw) -> Piece:
    """A triangle of any shape, one to three of it."""
    a, b = draw(st.integers(60, 400)), draw(st.integers(60, 300))
    lean = draw(st.integers(0, 400))
    return Piece(name="t", outline_mm=((0, 0), (a, 0), (lean, b)), quantity=draw(st.integers(1, 3)))


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(triangles(), st.integers(60, 300), st.booleans(), st.integers(310, 700))
def test_what_was_laid_is_never_called_impossible(triangle, side, one_way, width):
    """A cut as long as a lay that was found passes every bound, alone and among many."""
    pieces = (triangle, rectangle("r", 2.0 * side, float(side), quantity=2))
    found = shortest(
        LayTask(pieces=pieces, width_mm=float(width), one_way=one_way), Budget(iterations=30)
    )
    length = found.lay.length_mm
    cut = Outline.rectangle(length, width)
    assert screen(LayTask(pieces=pieces, cloth=cut, one_way=one_way)) is None
    lengths = np.array([length, length + 500, 3 * length])
    widths = np.array([width, width + 40.0, 2.0 * width])
    assert screen_cuts(pieces, lengths, widths, one_way=one_way).all()


def test_many_cuts_are_judged_as_each_alone():
    """What the table rules out, the proof of the single cut rules out too."""
    random = np.random.default_rng(5)
    lengths, widths = random.uniform(400, 2600, 300), random.uniform(200, 1500, 300)
    possible = screen_cuts((LEG,), lengths, widths)
    for ok, length, width in zip(possible, lengths, widths, strict=True):
        alone = screen(LayTask(pieces=(LEG,), cloth=Outline.rectangle(length, width)))
        assert ok or alone is not None
    assert 0.2 < possible.mean() < 0.9


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(st.integers(0, 60), st.integers(0, 60)), min_size=3, max_size=9))
def test_a_profile_read_backwards_is_that_of_the_piece_turned_round(points):
    """So each piece's cross-sections are taken once for both ways of lying."""
    hull = MultiPoint(points).convex_hull
    if hull.area == 0:
        return
    ring = tuple(hull.exterior.coords[:-1])
    for axis in (0, 1):
        backwards = profile(ring, axis).reversed()
        turned = profile(tuple((-x, -y) for x, y in ring), axis)
        assert backwards.at_mm == pytest.approx(turned.at_mm)
        assert backwards.near_mm == pytest.approx(turned.near_mm)
        assert backwards.far_mm == pytest.approx(turned.far_mm)


def test_the_kernel_reckons_a_line_across_two_squares_by_hand():
    """In 150 mm of room two 100 mm squares overlap on the middle lines: 200 mm is crossed."""
    square = profile(((0, 0), (100, 0), (100, 100), (0, 100)), 0)
    row = in_a_row([[square, square.reversed()]])
    assert least_total(row, np.array([2]), 150.0) == (200.0, 2)
    assert least_total(row, np.array([2]), 200.0) == (0.0, 0)


def test_corners_that_rounding_brings_together_still_have_a_cross_section():
    """A diamond whose side corners differ by less than a reversed profile can tell apart."""
    diamond = ((128.0, 0.0), (2.4e-15, 20.0), (-124.0, 7.6e-15), (-7.3e-15, -20.0))
    piece = Piece(name="diamond", outline_mm=diamond, turns_deg=(0.0, 180.0))
    assert screen(LayTask(pieces=(piece,), cloth=Outline.rectangle(500, 500))) is None
    proof = screen(LayTask(pieces=(piece,), cloth=Outline.rectangle(500, 39)))
    assert proof.verdict is Verdict.IMPOSSIBLE


def test_no_cuts_give_no_answers():
    """An empty stash is an empty answer."""
    assert screen_cuts((LEG,), np.array([]), np.array([])).tolist() == []


@pytest.mark.parametrize(("task", "fault"), [
    (LayTask(pieces=(), width_mm=900.0), "no pieces"),
    (LayTask(pieces=(rectangle("a", 9, 9, quantity=0),), width_mm=900.0), "at least once"),
    (LayTask(pieces=(rectangle("a", 9, 9, quantity=3, mirrored_pair=True),), width_mm=9.0), "even"),
    (LayTask(pieces=(LEG, LEG), width_mm=900.0), "Two pieces are called “leg”"),
    (LayTask(pieces=(LEG,)), "give the cloth"),
    (LayTask(pieces=(LEG,), width_mm=float("nan")), "more than nothing"),
    (LayTask(pieces=(LEG,), width_mm=900.0, clearance_mm=-1.0), "nothing or more"),
    (LayTask(pieces=(LEG,), width_mm=900.0, repeat=Repeat(lengthwise_mm=0.0)), "repeat"),
    (LayTask(pieces=(LEG,), cloth=Outline(((0, 0), (9, 9), (9, 0), (0, 9)))), "crosses itself"),
])
def test_a_question_that_makes_no_sense_is_refused_in_a_sentence(task, fault, sentence):
    """Before anything is laid."""
    with pytest.raises(InvalidInput) as refused:
        screen(task)
    assert re.search(fault, sentence(refused.value))
