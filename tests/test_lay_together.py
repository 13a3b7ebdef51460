"""Moving all pieces of a lay at once, apart or together."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stash.lay import LayTask, check
from stash.lay.search.board import used_mm
from stash.lay.search.linear_programme import drawn_together, moved_apart
from stash.lay.search.overlap import LayState, copied, empty_state
from stash.lay.search.overlap import laid as put
from stash.lay.search.ways_to_spread import WayToSpread, ways_to_spread
from stash.model import Piece, Repeat

SQUARE = ((0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0))
KITE = ((0.0, 0.0), (130.0, -40.0), (210.0, 0.0), (130.0, 40.0))


def roll(width_mm: float, *pieces: Piece, **more) -> WayToSpread:
    """Cloth off the roll with these pieces, open."""
    return next(ways_to_spread(LayTask(pieces=pieces, width_mm=width_mm, **more)))


def laid(way: WayToSpread, *places: tuple[float, float]) -> LayState:
    """Every piece in its first stance, its corner of least x and y at the place given."""
    board = way.board
    state = empty_state(len(board.items), len(board.table.blocked_layers))
    for i, place in enumerate(places):
        s = int(board.table.choices[i, 0])
        put(board.table, state, i, s, *(np.array(place) - board.table.box[s, :2]))
    state.weight[:] = board.table.heft
    return state


def end_at(way: WayToSpread, length_mm: float) -> float:
    """How much of the board lies beyond this length."""
    return way.board.length_mm - length_mm


def test_a_row_of_pieces_moves_apart_at_once():
    """Ten squares in a row, each 2 mm over the next, need ten moves that only together help."""
    way = roll(100.0, Piece(name="square", outline_mm=SQUARE, quantity=10))
    state = laid(way, *((98.0 * k, 0.0) for k in range(10)))
    cut_back = end_at(way, 1000.0)
    left, moved = moved_apart(way.board, state, cut_back)
    assert left == 0.0
    assert used_mm(way.board, moved) <= 1000.0 + 1e-6
    assert moved.position[:, 0] == pytest.approx(np.arange(10) * 100.0, abs=1e-6)


def test_what_cannot_move_apart_is_moved_to_where_least_overlaps():
    """The same row on 20 mm too little keeps 20 mm of overlap, and says so."""
    way = roll(100.0, Piece(name="square", outline_mm=SQUARE, quantity=10))
    state = laid(way, *((97.0 * k, 0.0) for k in range(10)))
    left, _ = moved_apart(way.board, state, end_at(way, 980.0))
    assert left == pytest.approx(20.0, abs=1e-6)


def test_a_loose_lay_is_drawn_together():
    """Squares with 6 mm between them end up edge to edge."""
    way = roll(100.0, Piece(name="square", outline_mm=SQUARE, quantity=8))
    state = laid(way, *((106.0 * k, 0.0) for k in range(8)))
    drawn = drawn_together(way.board, state, end_at(way, 7 * 106.0 + 100.0))
    assert used_mm(way.board, drawn) == pytest.approx(800.0, abs=0.01)


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 2**32 - 1))
def test_a_drawn_lay_stays_sound_and_is_never_longer(seed):
    """Kites strewn without overlap pass the independent check after they are drawn together."""
    random = np.random.default_rng(seed)
    way = roll(300.0, Piece(name="kite", outline_mm=KITE, quantity=6, turns_deg=(0, 180)))
    places = [(225.0 * k + random.uniform(0, 12), random.uniform(0, 220)) for k in range(6)]
    state = laid(way, *places)
    before = used_mm(way.board, state)
    drawn = drawn_together(way.board, state, end_at(way, before))
    assert used_mm(way.board, drawn) <= before + 1e-6
    assert check(way.board.task, way.lay(drawn)) == []


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 2**32 - 1))
def test_moving_apart_leaves_the_state_it_was_given_as_it_was(seed):
    """Kites anywhere: the move is a new state, within the cloth."""
    random = np.random.default_rng(seed)
    way = roll(300.0, Piece(name="kite", outline_mm=KITE, quantity=6))
    state = laid(way, *((random.uniform(0, 500), random.uniform(0, 220)) for _ in range(6)))
    kept, cut_back = copied(state), end_at(way, 710.0)
    _, moved = moved_apart(way.board, state, cut_back)
    assert (state.position == kept.position).all()
    assert (moved.reach[:, 1] >= -1e-6).all() and (moved.reach[:, 3] <= 300.0 + 1e-6).all()
    assert used_mm(way.board, moved) <= 710.0 + 1e-6


def test_on_a_repeat_matched_pieces_stay_where_they_are():
    """A print allows whole steps only, so the plain square gives way to the matched one."""
    spot = Piece(name="spot", outline_mm=SQUARE, match_points_mm=((0.0, 0.0),))
    plain = Piece(name="plain", outline_mm=SQUARE)
    way = roll(100.0, spot, plain, repeat=Repeat(lengthwise_mm=64.0))
    state = laid(way, (64.0, 0.0), (160.0, 0.0))
    left, moved = moved_apart(way.board, state, end_at(way, 300.0))
    assert left == 0.0
    assert moved.position[0].tolist() == state.position[0].tolist()
    assert moved.position[1, 0] >= 164.0 - 1e-6
