"""Every copy is turned as its piece allows, also on folded cloth."""

import pytest

from stash.lay import Budget, LayTask, Verdict, check, shortest
from stash.model import Piece, Spread

TRIANGLE = ((0.0, 0.0), (300.0, 0.0), (0.0, 120.0))


@pytest.mark.parametrize("spread", [Spread.OPEN, Spread.LENGTHWISE, Spread.CROSSWISE])
@pytest.mark.parametrize("pair", [True, False])
@pytest.mark.parametrize("turns", [(0.0, 45.0), (45.0,), (0.0, 90.0, 180.0), (30.0, 330.0)])
def test_only_listed_turns_are_used(spread, pair, turns):
    """Folding must not slip in the mirror image of a turn that the list does not hold."""
    leg = Piece(
        name="leg", outline_mm=TRIANGLE, quantity=4, mirrored_pair=pair, turns_deg=turns
    )
    task = LayTask(pieces=(leg,), width_mm=900, spread=spread)

    answer = shortest(task, Budget(iterations=3))

    assert answer.verdict is Verdict.FITS
    assert check(task, answer.lay) == []
    assert {p.turn_deg % 360 for p in answer.lay.placements} <= set(turns)
