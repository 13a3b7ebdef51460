"""Single or double: a lay beside the same pieces spread the other ways, by plain sums."""

from __future__ import annotations

from dataclasses import replace

import pytest

from stash.lay import Budget, LayTask, check, shortest
from stash.match.strip_lays import Table
from stash.model import Cloth, Cut, Laid, Outline, Piece, Spread
from stash.sentences import Reader, say
from stash.units import System
from stash.workroom.questions.spreading import Spreads, spreads_of

READER = Reader(System.METRIC)
TABLE = Table(spread=None)


def rectangle(name: str, length: float, width: float, **given) -> Piece:
    """A rectangular piece."""
    return Piece(
        name=name, outline_mm=((0, 0), (length, 0), (length, width), (0, width)), **given)


def compared_on(length_mm: float, width_mm: float, *pieces: Piece, one_way=False) -> Spreads:
    """The open lay on such a cut, and the other ways beside it."""
    cut = Cut(code="K7QW", cloth=Cloth(name="Drill", one_way=one_way), washed=True,
              outline=Outline.rectangle(length_mm, width_mm))
    task = LayTask(pieces=pieces, cloth=cut.outline_washed, one_way=one_way)
    lay = shortest(task, Budget(iterations=50)).lay
    return spreads_of(Laid(cut=cut, lay=lay, pieces=pieces, one_way=one_way), TABLE)


def test_two_pairs_are_cut_with_two_cuts_on_a_fold_and_four_on_single_cloth():
    """Pairs of 300 x 200 mm fill a cloth of 400 mm in 600 mm, folded or open."""
    pairs = [rectangle(n, 300, 200, quantity=2, mirrored_pair=True) for n in ("front", "back")]
    found = compared_on(1500, 400.5, *pairs)

    cuts = {way.spread: way.cuts for way in found.ways}
    lengths = {way.spread: found.length_mm(way) for way in found.ways}
    assert (cuts[Spread.OPEN], cuts[Spread.LENGTHWISE]) == (4, 2)
    assert lengths[Spread.OPEN] == pytest.approx(600, abs=2)
    assert lengths[Spread.LENGTHWISE] == pytest.approx(600, abs=2)
    assert say(found.told, READER) == (
        "Cut folded lengthwise, it takes as much length and 2 cuts of the scissors instead of 4.")


@pytest.mark.parametrize(("more_mm", "said"), [
    (40.0, "Cut folded lengthwise, it takes 4 cm more length and 1 cut of the scissors "
           "instead of 2."),
    (-40.0, "Cut folded lengthwise, it takes 4 cm less length and 1 cut of the scissors "
            "instead of 2."),
])
def test_what_a_fold_takes_is_said_with_the_cuts_it_saves(more_mm, said):
    """A difference of two lays, in the reader's units."""
    pair = rectangle("front", 300, 200, quantity=2, mirrored_pair=True)
    found = compared_on(1500, 500, pair)
    single, folded, _crosswise = found.ways
    lay = replace(folded.answer.lay, length_mm=single.answer.lay.length_mm + more_mm)
    double = replace(folded, answer=replace(folded.answer, lay=lay))

    assert say(replace(found, ways=(single, double)).told, READER) == said


def test_every_way_that_is_said_to_fit_is_a_sound_lay_on_the_very_cut():
    """By the independent check, in the frame of the cut."""
    pairs = [rectangle(n, 310, 190, quantity=2, mirrored_pair=True) for n in ("front", "back")]
    found = compared_on(1500, 500, *pairs)

    for way in found.ways:
        laid = found.laid_so(way.spread)
        assert laid is not None
        task = LayTask(pieces=laid.pieces, cloth=laid.cloth, spread=way.spread)
        assert check(task, laid.lay) == []


def test_one_way_cloth_is_not_offered_folded_crosswise():
    """The fold turns the upper layer round (trade rule for nap and one-way prints)."""
    pair = rectangle("front", 300, 200, quantity=2, mirrored_pair=True)
    found = compared_on(1500, 500, pair, one_way=True)

    assert found.laid_so(Spread.CROSSWISE) is None
    assert "one-way" in say(found.ways[-1].answer.told, READER)
