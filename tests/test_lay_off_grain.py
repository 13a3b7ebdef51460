"""A small tolerance off the grain: used where it helps, held to by the search and the check."""

from __future__ import annotations

from math import cos, radians, sin

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import MultiPoint, affinity

from stash.fact import fact
from stash.lay import (
    Budget,
    LayTask,
    Verdict,
    check,
    first_lay,
    screen,
    screen_cuts,
    shortest,
)
from stash.lay.cloth.stances import allowed_turns
from stash.lay.search.board import used_mm
from stash.lay.search.bottom_left import first_state
from stash.lay.search.overlap import LayState, laid, snapped
from stash.lay.search.straighten import straightened
from stash.lay.search.ways_to_spread import WayToSpread, ways_to_spread
from stash.model import Lay, Outline, Piece, Placement, Repeat, Spread


def band(askew_deg: float, **given) -> Piece:
    """A band of 1000 x 100 mm drawn ``askew_deg`` off its own grainline."""
    c, s = cos(radians(askew_deg)), sin(radians(askew_deg))
    corners = ((0, 0), (1000, 0), (1000, 100), (0, 100))
    ring = tuple((x * c - y * s, x * s + y * c) for x, y in corners)
    return Piece(name="band", outline_mm=ring, **given)


def turns_in(lay: Lay) -> list[float]:
    """How far each copy is off a whole half turn."""
    return [round((p.turn_deg + 90) % 180 - 90, 6) for p in lay.placements]


def turns_of(lay: Lay) -> set[float]:
    """The same, each once."""
    return set(turns_in(lay))


@pytest.mark.parametrize("off", [1.0, 2.0, 3.0])
def test_a_turn_between_none_and_the_extreme_is_found_when_only_that_serves(off):
    """Drawn 1 degree askew the band is 117 mm across, and 100 mm only when turned by 1."""
    cut = Outline.rectangle(1010, 103)
    task = LayTask(pieces=(band(1),), cloth=cut, off_grain_deg=off)
    answer = first_lay(task)
    assert answer.verdict is Verdict.FITS
    assert turns_of(answer.lay) == {-1.0}
    assert check(task, answer.lay) == []
    assert screen(LayTask(pieces=(band(1),), cloth=cut)).proof.kind == "piece_wider_than_cloth"


def test_the_tolerance_is_never_exceeded():
    """A band 3 degrees askew would lie best at 3, and 2 are allowed."""
    task = LayTask(pieces=(band(3),), width_mm=200.0, off_grain_deg=2.0)
    assert turns_of(shortest(task, Budget(iterations=20)).lay) <= {-2.0, 0.0, 2.0}
    assert screen(LayTask(pieces=(band(3),), cloth=Outline.rectangle(1010, 103),
                          off_grain_deg=2.0)) is not None


def laid_tilted(task: LayTask) -> tuple[WayToSpread, LayState]:
    """A first lay off the roll with every piece then tilted where it lies, as far as it may."""
    (way,) = ways_to_spread(task)
    board, state = way.board, first_state(way)
    for i, row in enumerate(board.table.choices):
        for s in row[row >= 0]:
            free, x, y = snapped(board.table, i, s, *state.position[i], 0.0)
            if free and board.stances[s].turn_deg % 180 == 178:
                laid(board.table, state, i, s, x, y)
    return way, state


def test_a_piece_tilted_for_nothing_is_set_straight_again():
    """There is room for it either way, so the grain is not given away."""
    tab = Piece(name="tab", outline_mm=((0, 0), (300, 0), (280, 90), (0, 100)))
    way, state = laid_tilted(LayTask(pieces=(tab,), width_mm=500.0, off_grain_deg=2.0))
    assert turns_of(way.lay(state)) == {-2.0}
    assert turns_of(way.lay(straightened(way, state))) == {0.0}


def test_a_piece_that_needs_its_tilt_keeps_it():
    """Drawn 2 degrees askew the band is 135 mm across, and the cloth only 103."""
    way, state = laid_tilted(LayTask(pieces=(band(2),), width_mm=103.0, off_grain_deg=2.0))
    assert turns_of(way.lay(straightened(way, state))) == {-2.0}


@given(width=st.integers(500, 1500), off=st.sampled_from([1.0, 3.0]), one_way=st.booleans())
@settings(max_examples=15, deadline=None)
def test_straightening_keeps_a_lay_sound_and_hardly_longer(width, off, one_way):
    """No more pieces are tilted than before, none overlaps, a millimetre is lost at most."""
    legs = Piece(name="leg", quantity=4, mirrored_pair=True,
                 outline_mm=((0, 0), (900, 20), (900, 250), (300, 330), (0, 240)))
    task = LayTask(pieces=(legs, band(1)), width_mm=float(width), one_way=one_way,
                   off_grain_deg=off)
    (way,) = ways_to_spread(task)
    before = first_state(way)
    after = straightened(way, before)
    assert check(task, way.lay(after)) == []
    assert used_mm(way.board, after) <= used_mm(way.board, before) + 1 + 1e-9
    tilted = [[t for t in turns_in(way.lay(s)) if t] for s in (before, after)]
    assert len(tilted[1]) <= len(tilted[0])


@pytest.mark.parametrize(("spread", "width"), [
    (Spread.OPEN, 103.0), (Spread.LENGTHWISE, 206.0), (Spread.CROSSWISE, 103.0),
])
def test_both_of_a_pair_are_helped(spread, width):
    """The mirror image is straightened the other way, by 1 to the left instead of the right."""
    pair = band(1, quantity=2, mirrored_pair=True)
    task = LayTask(pieces=(pair,), width_mm=width, spread=spread, off_grain_deg=2.0)
    plain, mirrored = shortest(task, Budget(iterations=20)).lay.placements
    assert (plain.mirrored, plain.turn_deg % 180) == (False, pytest.approx(179))
    assert (mirrored.mirrored, mirrored.turn_deg % 180) == (True, pytest.approx(1))


@given(
    corners=st.lists(st.tuples(st.integers(0, 400), st.integers(0, 300)), min_size=4, max_size=9),
    off=st.sampled_from([0.5, 2.0, 5.0, 15.0]), share=st.floats(-1, 1),
)
def test_nothing_is_proved_against_a_piece_that_a_tilt_within_the_tolerance_fits(
    corners, off, share
):
    """Whatever the tilt: a cut as large as the tilted piece is never ruled out."""
    hull = MultiPoint(corners).convex_hull
    assume(hull.geom_type == "Polygon" and hull.area > 100)
    piece = Piece(name="scrap", outline_mm=tuple(hull.exterior.coords[:-1]))
    left, low, right, high = affinity.rotate(hull, off * share, origin=(0, 0)).bounds
    cut = Outline.rectangle(right - left, high - low)
    assert screen(LayTask(pieces=(piece,), cloth=cut, off_grain_deg=off)) is None
    size = np.array([right - left]), np.array([high - low])
    assert screen_cuts((piece,), *size, off_grain_deg=off).all()


def test_a_stash_is_screened_with_the_tolerance_too():
    """117 mm across as drawn, 100 mm when turned by 1 degree."""
    size = np.array([1010.0]), np.array([103.0])
    assert not screen_cuts((band(1),), *size).any()
    assert screen_cuts((band(1),), *size, off_grain_deg=1.0).all()
    assert not screen_cuts((band(1),), *size, off_grain_deg=0.5).any()


def test_a_piece_with_straight_edges_gets_no_turns_but_none_and_the_extremes():
    """More turns would make every search longer and no piece narrower."""
    assert allowed_turns(band(0), LayTask(pieces=(), off_grain_deg=2.0)) == (
        0.0, 358.0, 2.0, 180.0, 178.0, 182.0
    )


def test_matched_pieces_are_not_tilted_on_a_print():
    """A stripe would run off along the seam it is matched at."""
    striped = band(1, match_points_mm=((0, 0), (500, 0)))
    task = LayTask(pieces=(striped,), width_mm=300.0, off_grain_deg=2.0,
                   repeat=Repeat(lengthwise_mm=50))
    assert turns_of(shortest(task, Budget(iterations=10)).lay) == {0.0}


@pytest.mark.parametrize("turn", [-2.0, -1.3, -0.01, 0.7, 1.999, 180.5, 178.0])
def test_the_check_accepts_any_turn_within_the_tolerance(turn):
    """Also those that the search never tries; a person may lay as she likes."""
    task = LayTask(pieces=(band(0),), width_mm=3000.0, off_grain_deg=2.0)
    lay = Lay(placements=(Placement("band#1", 1100, 1500, turn),), length_mm=2200.0,
              width_mm=3000.0, utilisation=0.1)
    assert check(task, lay) == []


@pytest.mark.parametrize("turn", [-2.1, 2.001, 177.9, 90.0])
def test_the_check_finds_a_turn_beyond_the_tolerance(turn):
    """And says by how much the piece is turned."""
    task = LayTask(pieces=(band(0),), width_mm=3000.0, off_grain_deg=2.0)
    lay = Lay(placements=(Placement("band#1", 1100, 1500, turn),), length_mm=2200.0,
              width_mm=3000.0, utilisation=0.1)
    assert check(task, lay) == [fact("wrongly_turned", piece="band#1", turn_deg=turn)]
