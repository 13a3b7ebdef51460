"""How much longer a cut should have been is never told as less than it is, nor as nothing."""

from __future__ import annotations

import pytest

from stash.lay import Budget, LayTask, Verdict, first_lay, solve
from stash.model import Outline, Piece
from stash.sentences import Reader, say
from stash.units import System, parse_length

SQUARE = Piece(name="square", outline_mm=((0, 0), (100, 0), (100, 100), (0, 100)), quantity=3)
SCARF = ((0, 100), (100, 0), (200, 100), (100, 200))  # a square of diagonal 200, on point


@pytest.mark.parametrize(("length", "short"), [(299.9, 1), (299.5, 1), (299, 1), (290.4, 10)])
def test_a_cut_proved_too_short_needs_a_whole_millimetre_more_at_least(length, short):
    """Three squares in a row take 300 mm."""
    task = LayTask(pieces=(SQUARE,), cloth=Outline.rectangle(length, 110))
    answer = solve(task, Budget(iterations=20))
    assert answer.verdict is Verdict.IMPOSSIBLE
    assert answer.short_mm == short


@pytest.mark.parametrize(("length", "short"), [(399.9, 1), (399.5, 1), (398, 2), (350, 50)])
def test_a_lay_not_found_says_in_words_what_it_says_in_numbers(length, short):
    """Three squares on point lie to and fro in 400 mm of cloth 300 mm wide, though no line
    across or along proves that they need more than 300."""
    scarf = Piece(name="scarf", outline_mm=SCARF, quantity=3)
    answer = first_lay(LayTask(pieces=(scarf,), cloth=Outline.rectangle(length, 300)))
    assert answer.verdict is Verdict.NOT_FOUND
    said = say(answer.told, Reader(System.METRIC))
    said = said.removeprefix("No lay was found; the shortest one known needs ")
    told_mm = parse_length(said.removesuffix(" more length."))
    assert told_mm == pytest.approx(answer.short_mm)
    assert answer.short_mm == short


def test_more_than_a_metre_is_told_in_whole_centimetres_rounded_up():
    """Twenty-four squares in a row take 2.4 m; 1.234 m are there, so 1.166 m more."""
    row = Piece(name="square", outline_mm=SQUARE.outline_mm, quantity=24)
    answer = first_lay(LayTask(pieces=(row,), cloth=Outline.rectangle(1234, 110)))
    assert answer.short_mm == 1170


def test_a_cut_with_length_enough_is_not_called_short_of_length():
    """A bite leaves too little cloth; a strip as wide as the cut would be shorter than it."""
    bitten = Outline(((0, 0), (400, 0), (400, 60), (50, 60), (50, 110), (0, 110)))
    answer = solve(LayTask(pieces=(SQUARE,), cloth=bitten), Budget(iterations=20))
    assert answer.verdict is Verdict.IMPOSSIBLE
    assert answer.short_mm is None
