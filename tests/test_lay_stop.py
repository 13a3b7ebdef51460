"""A stop is heard soon after there is a lay, whatever else might still be tried."""

from __future__ import annotations

from importlib import import_module

import pytest

from stash.lay import Answer, Budget, LayTask, Verdict, check, largest_set, over_cuts, solve
from stash.lay.first import first_state
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

    def noted(setting):
        seen.append(setting.board.sheet.spread.value)
        return first_state(setting)

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


class Asked:
    """A solver that remembers what it was asked, and is stopped after so many questions."""

    def __init__(self, stop_after: int):
        self.sets: list[tuple[str, ...]] = []
        self.budget = Budget(iterations=10, stop=lambda: len(self.sets) >= stop_after)

    def __call__(self, task: LayTask, budget: Budget) -> Answer:
        """The answer, after a note of the question."""
        self.sets.append(tuple(p.name for p in task.pieces))
        return solve(task, budget)


LEG, BACK = rectangle("leg", 900, 300), rectangle("back", 700, 300)
SLEEVE = rectangle("sleeve", 500, 300)
POCKETS = [rectangle(f"pocket {k}", 100 - k, 100) for k in range(6)]


def test_over_cuts_ends_with_what_lies_when_it_is_stopped():
    """The leg fits the first cut and is kept; nothing is added there, nor in many tries
    to the second."""
    asked = Asked(stop_after=2)
    cuts = (Outline.rectangle(910, 310), Outline.rectangle(210, 110))
    spread = over_cuts(LayTask(pieces=(LEG, *POCKETS)), cuts, asked.budget, asked)
    assert [[p.piece for p in lay.placements] for lay in spread.lays] == [["leg#1"], ["pocket 0#1"]]
    assert [p.name for p in spread.left_out] == [f"pocket {k}" for k in range(1, 6)]
    assert len(asked.sets) == 4


def test_over_cuts_tries_every_piece_when_it_is_not_stopped():
    """Two pockets lie on the second cut."""
    asked = Asked(stop_after=1000)
    cuts = (Outline.rectangle(910, 310), Outline.rectangle(210, 110))
    spread = over_cuts(LayTask(pieces=(LEG, *POCKETS)), cuts, asked.budget, asked)
    assert [p.name for p in spread.left_out] == [f"pocket {k}" for k in range(2, 6)]


def test_the_largest_set_is_put_together_garment_by_garment_once_stopped():
    """Five garments have 31 sets; when stopped at the first, five more questions are asked."""
    garments = {"coat": (LEG, SLEEVE), "vest": (BACK,)} | {p.name: (p,) for p in POCKETS[:3]}
    asked = Asked(stop_after=1)
    task = LayTask(pieces=(), cloth=Outline.rectangle(900, 310))
    names, answer = largest_set(garments, task, asked.budget, asked)
    assert names == ("vest", "pocket 0", "pocket 1", "pocket 2")
    assert answer.verdict is Verdict.FITS
    assert len(asked.sets) == 6


def test_a_stopped_search_for_garments_that_cannot_be_says_why():
    """No set, and the refusal of a garment."""
    task = LayTask(pieces=(), cloth=Outline.rectangle(300, 200))
    names, answer = largest_set({"coat": (LEG,), "vest": (BACK,)}, task, STOPPED)
    assert names == ()
    assert answer.verdict is Verdict.IMPOSSIBLE
