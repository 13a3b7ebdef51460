"""A first lay is always finished, however little time is allowed."""

from stash.lay import Budget, LayTask, Verdict, shortest
from stash.model import Piece


def test_a_search_stopped_at_once_still_answers_with_its_first_lay():
    """Nothing is called not found merely because preparing the pieces took the time."""
    pieces = tuple(
        Piece(name=f"part {n}", outline_mm=((0, 0), (300 + n, 0), (200, 150 + n)), quantity=2)
        for n in range(12)
    )

    answer = shortest(LayTask(pieces=pieces, width_mm=1140), Budget(stop=lambda: True))

    assert answer.verdict is Verdict.FITS
    assert len(answer.lay.placements) == 24
