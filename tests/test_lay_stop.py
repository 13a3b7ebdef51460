"""Stop is heard at every stage, and what is known by then is the answer."""

from __future__ import annotations

from math import cos, pi, sin

import pytest

from stash.lay import Budget, LayTask, Verdict, check, shortest, solve
from stash.lay.board import FREE_WORK
from stash.model import Outline, Piece


class After:
    """A stop that turns true after so many questions, and counts them."""

    def __init__(self, calls: int):
        self.left = calls
        self.asked = 0

    def __call__(self) -> bool:
        """True once the questions are used up."""
        self.asked += 1
        self.left -= 1
        return self.left < 0


CORNERS = 21


def fans(many: int) -> tuple[Piece, ...]:
    """So many different round pieces, so many squared pairs, each with two turns."""
    return tuple(
        Piece(name=f"fan {k}", outline_mm=tuple(
            ((50 + 2 * k) * cos(2 * pi * c / CORNERS), (60 - k) * sin(2 * pi * c / CORNERS))
            for c in range(CORNERS)
        ))
        for k in range(many)
    )


MANY = LayTask(pieces=fans(30), width_mm=1000.0)
FEW = LayTask(pieces=fans(4), width_mm=300.0)


@pytest.mark.parametrize("calls", [0, 7])
def test_a_stop_while_pairs_are_compared_is_heard_before_the_next_pair(calls):
    """30 pieces make 1,800 regions; the answer says that there was no time."""
    stop = After(calls)
    answer = shortest(MANY, Budget(stop=stop))
    assert (answer.verdict, answer.lay) == (Verdict.NOT_FOUND, None)
    assert "stopped before a first lay was ready" in answer.reason
    assert stop.asked <= calls + 3


def test_the_many_pieces_are_more_than_what_is_prepared_regardless():
    """Corners against corners, for each pair two ways round."""
    assert 2 * (len(MANY.pieces) * CORNERS) ** 2 > FREE_WORK


def test_a_stop_between_orders_keeps_the_first_fill():
    """Few pieces are always laid once, and never again after the stop."""
    answer = shortest(FEW, Budget(stop=After(0)))
    assert answer.verdict is Verdict.FITS
    assert check(FEW, answer.lay) == []
    assert answer.iterations == 0


def test_a_stop_on_a_cut_too_short_says_what_the_first_fill_needed():
    """Honest about the cut: not found, and so much is missing."""
    cut = LayTask(pieces=fans(4), cloth=Outline.rectangle(190, 300))
    answer = solve(cut, Budget(stop=After(0)))
    assert answer.verdict is Verdict.NOT_FOUND
    assert answer.short_mm > 0


@pytest.mark.parametrize("calls", [1, 5, 20, 100])
def test_wherever_the_stop_falls_the_lay_is_sound(calls):
    """And no longer than the very first one."""
    first = shortest(FEW, Budget(stop=After(0))).lay.length_mm
    answer = shortest(FEW, Budget(iterations=300, stop=After(calls)))
    assert check(FEW, answer.lay) == []
    assert answer.lay.length_mm <= first
