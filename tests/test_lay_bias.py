"""Bias pieces on cloth with a nap: it must run down both halves of a garment alike.

The nap runs along the cloth. On a garment that is the same left and right it looks alike
on both sides only when one side shows it as the mirror image of the other (follows from
reflecting the cut pieces; that a nap must run alike on all of them is common practice,
no source).
"""

from __future__ import annotations

from math import atan2, cos, degrees, radians, sin

import pytest

from stash.lay import Budget, LayTask, check, shortest
from stash.model import Lay, Piece, Placement, Spread

SKIRT = Piece(
    name="skirt", outline_mm=((0, 0), (300, 30), (200, 240), (40, 200)), quantity=4,
    mirrored_pair=True, grain_turn_deg=45,
)
STRIP = Piece(
    name="strip", outline_mm=((0, 0), (300, 0), (300, 40), (0, 40)), quantity=4,
    grain_turn_deg=45,
)


def nap_on_paper(p: Placement) -> int:
    """Degrees at which the nap crosses the pattern paper, a mirrored copy turned face up."""
    back = radians(-p.turn_deg)
    along, across = cos(back), sin(back)
    return round(degrees(atan2(-across if p.mirrored else across, along)))


def laid(piece: Piece, spread: Spread | None = Spread.OPEN, **given) -> Lay:
    """The shortest lay found off a wide roll, sound by the separate check."""
    task = LayTask(pieces=(piece,), width_mm=1400.0, spread=spread, **given)
    lay = shortest(task, Budget(iterations=40)).lay
    assert check(task, lay) == []
    return lay


@pytest.mark.parametrize("spread", [Spread.OPEN, Spread.LENGTHWISE, None])
@pytest.mark.parametrize("lean", [45.0, -45.0, 30.0])
def test_the_nap_crosses_every_copy_of_a_bias_pair_alike(spread, lean):
    """Plain copies lean as drawn, mirror images the other way; none is turned round."""
    piece = Piece(name="skirt", outline_mm=SKIRT.outline_mm, quantity=4, mirrored_pair=True,
                  grain_turn_deg=lean)
    lay = laid(piece, spread, one_way=True)
    assert {nap_on_paper(p) for p in lay.placements} == {-lean}
    assert {(p.mirrored, p.turn_deg) for p in lay.placements} == {
        (False, lean % 360), (True, -lean % 360)
    }


def test_a_folded_bias_pair_is_cut_through_both_layers():
    """The lower copy of a lengthwise fold leans the other way of itself: they lie in twos."""
    lay = laid(SKIRT, Spread.LENGTHWISE, one_way=True)
    places = [(round(p.x_mm, 6), round(abs(p.y_mm - lay.fold_mm), 6)) for p in lay.placements]
    assert {places.count(at) for at in places} == {2}


def test_bias_strips_never_lie_under_one_another_on_a_nap():
    """From the lower layer a strip would come out leaning the other way: 315, not 45."""
    lay = laid(STRIP, Spread.LENGTHWISE, one_way=True)
    assert {p.turn_deg for p in lay.placements} == {45}
    assert {p.turn_deg for p in laid(STRIP, Spread.LENGTHWISE).placements} >= {45, 315}


def test_bias_strips_on_a_nap_are_laid_open_when_the_fold_is_left_to_choose():
    """Nothing comes out double, so there is no reason to fold."""
    assert laid(STRIP, None, one_way=True).spread is Spread.OPEN


def test_without_a_nap_a_bias_piece_leans_either_way():
    """Grain at 45 to the cloth is all that is asked; both ways round where both are listed."""
    lay = laid(SKIRT)
    assert {p.turn_deg for p in lay.placements} <= {45, 135, 225, 315}


@pytest.mark.parametrize("pair", [True, False])
def test_a_bias_piece_listed_one_way_up_is_not_turned_by_a_crosswise_fold(pair):
    """The copy under a crosswise fold comes out at 180 - 45: upside down."""
    ring = SKIRT.outline_mm if pair else STRIP.outline_mm
    piece = Piece(name="flounce", outline_mm=ring, quantity=2, mirrored_pair=pair,
                  grain_turn_deg=45, turns_deg=(0.0,))
    lay = laid(piece, Spread.CROSSWISE)
    assert {p.turn_deg for p in lay.placements} <= {45, 315}


@pytest.mark.parametrize(("turn", "mirrored", "sound"), [
    (45, False, True), (315, False, False), (225, False, False), (135, False, False),
    (315, True, True), (45, True, False), (135, True, False), (0, True, False),
])
@pytest.mark.parametrize("spread", [Spread.OPEN, Spread.LENGTHWISE])
def test_the_check_knows_which_way_the_nap_runs(turn, mirrored, sound, spread):
    """Of all the ways a bias copy can lie, one a side is right."""
    piece = Piece(name="skirt", outline_mm=SKIRT.outline_mm, quantity=2, mirrored_pair=True,
                  grain_turn_deg=45)
    task = LayTask(pieces=(piece,), width_mm=2000.0, one_way=True, spread=spread)
    right = {False: Placement("skirt#1", 500, 500, 45), True: Placement("skirt#2", 500, 1500, 315,
                                                                       True)}
    asked = Placement(right[mirrored].piece, 500, right[mirrored].y_mm, turn, mirrored)
    lay = Lay(placements=(asked, right[not mirrored]), length_mm=1000, width_mm=2000,
              utilisation=0.1, spread=spread, fold_mm=1000.0 if spread is not Spread.OPEN else None)
    faults = [f for f in check(task, lay) if f.kind == "wrongly_turned"]
    assert [f.values["piece"] for f in faults] == ([] if sound else [asked.piece])
