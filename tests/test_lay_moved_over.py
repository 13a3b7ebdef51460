"""A lay moved over to pieces that have grown a little."""

from __future__ import annotations

from stash.lay import Budget, LayFound, LayTask, check, solve, solve_from
from stash.model import Outline, Piece, Spread

CLOTH = Outline.rectangle(1000, 600)


def pieces(more_mm: float = 0.0) -> tuple[Piece, ...]:
    """Two trapezia that interlock, longer by some millimetres."""
    ring = ((0, 0), (480 + more_mm, 80), (480 + more_mm, 220), (0, 300))
    return (Piece(name="gore", outline_mm=ring, quantity=4, turns_deg=(0.0, 180.0)),)


def task(more_mm: float = 0.0, spread: Spread = Spread.OPEN) -> LayTask:
    """The gores on a cloth of 1 m."""
    return LayTask(pieces=pieces(more_mm), cloth=CLOTH, spread=spread)


def test_pieces_that_grew_are_laid_from_where_they_lay():
    """And the lay passes the separate check."""
    before = solve(task(), Budget(iterations=300)).lay
    after = solve_from(task(15.0), before, Budget(iterations=300))

    assert isinstance(after, LayFound)
    assert not check(task(15.0), after.lay)


def test_what_cannot_be_is_proved_and_not_searched():
    """Two gores of 520 mm one behind the other do not lie on 1 m."""
    before = solve(task(), Budget(iterations=300)).lay

    assert solve_from(task(600.0), before, Budget(iterations=10**9)).proof is not None


def test_where_the_pieces_are_others_it_is_laid_from_nothing():
    """A lay that does not know a piece is no beginning."""
    before = solve(task(), Budget(iterations=300)).lay
    other = LayTask(
        pieces=(Piece(name="square", outline_mm=Outline.rectangle(300, 300).ring_mm),), cloth=CLOTH)

    assert isinstance(solve_from(other, before, Budget(iterations=50)), LayFound)


def test_on_a_fold_it_is_laid_from_nothing():
    """Beneath a fold a placement does not say which of two copies was moved."""
    before = solve(task(), Budget(iterations=300)).lay
    folded = task(0.0, Spread.LENGTHWISE)
    found = solve_from(folded, before, Budget(iterations=100))

    assert found.lay is None or not check(folded, found.lay)
