"""A stop is heard soon after there is a lay, whatever else might still be tried."""

from __future__ import annotations

from importlib import import_module

import pytest

from stash.lay import Budget, LayTask, Verdict, check, solve
from stash.lay.search.bottom_left import first_state
from stash.model import Outline, Piece

STOPPED = Budget(stop=lambda: True)


def rectangle(name: str, length: float, width: float, **given) -> Piece:
    """A rectangular piece."""
    return Piece(
        name=name, outline_mm=((0, 0), (length, 0), (length, width), (0, width)), **given
    )


@pytest.fixture
def spreads(monkeypatch) -> list[str]:
    """The spreads for which a first lay was made."""
    seen = []

    def noted(way):
        seen.append(way.board.sheet.spread.value)
        return first_state(way)

    monkeypatch.setattr(import_module("stash.lay.solve"), "first_state", noted)
    return seen


PAIR = rectangle("front", 500, 300, quantity=2, mirrored_pair=True)


def test_once_stopped_no_further_spread_is_tried_when_one_serves(spreads):
    """The first that serves is answered; with time, every spread is compared."""
    task = LayTask(pieces=(PAIR,), cloth=Outline.rectangle(1500, 900), spread=None)
    assert solve(task, STOPPED).verdict is Verdict.FITS
    assert spreads == ["lengthwise"]
    spreads.clear()
    solve(task, Budget(iterations=10))
    assert spreads == ["lengthwise", "open", "crosswise"]


def test_even_when_stopped_a_spread_that_serves_is_looked_for(spreads):
    """Folded to 400 mm the pair of 300 and the piece of 450 wide need 1 m; open 50 cm do."""
    wide = rectangle("back", 500, 450)
    task = LayTask(pieces=(PAIR, wide), cloth=Outline.rectangle(510, 1060), spread=None)
    answer = solve(task, STOPPED)
    assert answer.verdict is Verdict.FITS
    assert check(task, answer.lay) == []


def test_a_proof_is_told_with_what_is_short_although_stopped(spreads):
    """By the first lay off the roll, of one spread only."""
    task = LayTask(pieces=(PAIR,), cloth=Outline.rectangle(450, 900), spread=None)
    answer = solve(task, STOPPED)
    assert (answer.verdict, answer.short_mm) == (Verdict.IMPOSSIBLE, 50)
    assert spreads == ["lengthwise"]
