"""Where one piece slides to: the best small step by its neighbours' edges, and who they are."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stash.lay import LayTask
from stash.lay.compiled import alone
from stash.lay.search import descent, neighbours, overlap, samples, steepest
from stash.lay.search.board import used_mm
from stash.lay.search.ground import Ground
from stash.lay.search.linear_programme import mended
from stash.lay.search.overlap import TOUCH_MM, LayState, empty_state, source
from stash.lay.search.overlap import laid as put
from stash.lay.search.samples import LEAST, SampleCounts, X, Y
from stash.lay.search.ways_to_spread import WayToSpread, ways_to_spread
from stash.model import Piece

slid, lines_beside = alone(descent.slid), alone(descent.lines_beside)
about, banded, toggle = map(alone, (neighbours.about, neighbours.banded, neighbours.toggle))
cost, everything = alone(overlap.cost), alone(overlap.everything)
sampled, ask_least = alone(samples.sampled), alone(samples.ask_least)
best_step = alone(steepest.best_step)

KITE = ((0.0, 0.0), (130.0, -40.0), (210.0, 0.0), (130.0, 40.0))
SQUARE = ((0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0))
ROOM = (-10.0, -10.0, 10.0, 10.0)
FAIR_ANGLES = [k * np.pi / 4 for k in range(8)]  # where lines meet by threes and run side by side
angles = st.floats(0, 2 * np.pi) | st.sampled_from(FAIR_ANGLES)
depths = st.floats(-12, 12) | st.integers(-3, 3).map(float)
weights = st.floats(0.5, 50)


def line(weight: float, depth: float, angle: float) -> tuple[float, ...]:
    """A neighbour's edge: what it weighs, how deep it is, which way is out."""
    return weight, depth, np.cos(angle), np.sin(angle)


def after(lines: np.ndarray, x, y):
    """The weighted overlap by the lines after a step."""
    left = lines[:, 1, None] - lines[:, 2, None] * x - lines[:, 3, None] * y
    return (lines[:, 0, None] * np.maximum(left, 0.0)).sum(0)


def strewn(seed: int, width_mm: float = 500.0) -> tuple[WayToSpread, LayState]:
    """Kites laid anyhow, some over each other."""
    kites = Piece(name="kite", outline_mm=KITE, quantity=9, turns_deg=(0, 180))
    way = next(ways_to_spread(LayTask(pieces=(kites,), width_mm=width_mm)))
    board, random = way.board, np.random.default_rng(seed)
    state = empty_state(len(board.items), len(board.table.blocked_layers))
    for i, row in enumerate(board.table.choices):
        s = int(random.choice(row[row >= 0]))
        low, high = board.table.fit[s, :2], np.minimum(board.table.fit[s, 2:], 700.0)
        put(board.table, state, i, s, *random.uniform(low, high))
    return way, state


def test_a_piece_between_two_others_stays_between_and_leaves_a_third():
    """2 mm over one and 1 mm over the other, which weighs as much: it lies 1.5 mm over both
    or anywhere between, 3 mm in all; a third that it can step away from it leaves."""
    lines = np.array([line(1, 2, 0.0), line(1, 1, np.pi), line(1, 4, np.pi / 2)])
    x, y, left = best_step(lines, 3, ROOM)
    assert left == pytest.approx(3.0)
    assert y >= 4.0 - 1e-9
    assert -1 - 1e-9 <= x <= 2 + 1e-9


@settings(max_examples=300, deadline=None)
@given(st.lists(st.builds(line, weights, depths, angles), min_size=1, max_size=10))
def test_no_step_in_the_room_is_better_by_the_lines(given_lines):
    """Neither any of a fine grid of steps nor staying put."""
    lines = np.array(given_lines)
    x, y, left = best_step(lines, len(lines), ROOM)
    assert ROOM[0] <= x <= ROOM[2] and ROOM[1] <= y <= ROOM[3]
    assert left == pytest.approx(float(after(lines, x, y)[0]), abs=1e-6)
    grid = np.linspace(-10, 10, 41)
    tried = after(lines, *(g.ravel() for g in np.meshgrid(grid, grid)))
    assert left <= tried.min() + 1e-6


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 2**32 - 1), st.floats(0, 80), st.lists(st.integers(0, 8), max_size=6))
def test_the_bands_know_every_item_that_could_meet_another(seed, margin, moved):
    """Also after some were taken up and laid elsewhere."""
    way, state = strewn(seed)
    table, random = way.board.table, np.random.default_rng(seed)
    bands = banded(state)
    for i in moved:
        toggle(bands, state, i)
        put(table, state, i, int(state.stance[i]), *random.uniform(-100, 900, 2))
        toggle(bands, state, i)
    near = np.empty(len(state.stance) + 1, np.int64)
    ground = Ground(table, way.board.charts, state, bands, near, 0.0)
    for i, s in enumerate(state.stance):
        x, y = state.position[i]
        listed = set(near[: about(ground, s, x, y, margin)].tolist())
        low, high = state.reach[i, :2] - margin, state.reach[i, 2:] + margin
        for k, its in enumerate(state.reach):
            meets = (its[:2] < high) & (its[2:] > low)
            assert k in listed or not meets.all()


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 2**32 - 1))
def test_a_sample_never_costs_less_than_it_was_said_to_at_the_least(seed):
    """So none that would have been the best is passed over; all lie on the sheet, and the
    first is where the piece is."""
    way, state = strewn(seed)
    table, charts = way.board.table, way.board.charts
    bands, effort = banded(state), SampleCounts(near=5, touching=12, wide=3)
    everyone = np.empty(len(state.stance) + 1, np.int64)
    listed, random = everything(state, everyone), source(seed)
    ground = Ground(table, charts, state, bands, everyone, 0.0)
    state.weight[:] = np.random.default_rng(seed).uniform(0.5, 50, state.weight.shape)
    for i, s in enumerate(state.stance):
        tried = np.empty((1 + sum(effort), 3))
        count = sampled(ground, i, s, random, effort, tried)
        ask_least(ground, i, s, tried, count)
        assert count == 1 + 5 + 12 + 3
        assert tried[0, [X, Y]] == pytest.approx(state.position[i])
        for x, y, least in tried[:, [X, Y, LEAST]]:
            assert (table.fit[s, :2] <= (x, y)).all() and (table.fit[s, 2:] >= (x, y)).all()
            whole = cost(ground, i, s, x, y, np.inf, listed)
            assert least <= whole + 50 * len(state.stance) * TOUCH_MM


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 2**32 - 1), st.floats(2.0, 40.0))
def test_a_piece_slides_to_where_it_overlaps_no_more_and_stays_on_the_cloth(seed, reach):
    """The price it names is the price of the place; the place is in the sheet."""
    way, state = strewn(seed)
    board = way.board
    table, charts = board.table, board.charts
    bands, near = banded(state), np.empty(len(state.stance) + 1, np.int64)
    everyone = near.copy()
    count = everything(state, everyone)
    ground = Ground(table, charts, state, bands, near, 0.0)
    whole = ground._replace(near=everyone)
    for i, s in enumerate(state.stance):
        x, y = state.position[i]
        before = cost(whole, i, s, x, y, np.inf, count)
        to_x, to_y, price = slid(ground, i, s, (x, y, before), (reach, 0.5))
        assert price <= before + 1e-9
        assert price == pytest.approx(
            cost(whole, i, s, to_x, to_y, np.inf, count), abs=1e-6
        )
        fit = table.fit[s] + (-1e-9, -1e-9, 1e-9, 1e-9)
        assert fit[0] <= to_x <= fit[2] and fit[1] <= to_y <= fit[3]


def test_a_square_slides_out_from_over_its_neighbour():
    """30 mm over it, and the shortest way out is along the selvedge."""
    squares = Piece(name="square", outline_mm=SQUARE, quantity=2)
    way = next(ways_to_spread(LayTask(pieces=(squares,), width_mm=100.0)))
    table, charts = way.board.table, way.board.charts
    state = empty_state(2, 0)
    for i, x in enumerate((0.0, 70.0)):
        s = int(table.choices[i, 0])
        put(table, state, i, s, *((x, 0.0) - table.box[s, :2]))
    bands, near = banded(state), np.empty(3, np.int64)
    ground = Ground(table, charts, state, bands, near, 0.0)
    x, y = state.position[1]
    s = int(state.stance[1])
    to_x, _, price = slid(ground, 1, s, (x, y, 30.0), (50.0, 1.0))
    assert price == 0.0
    assert to_x == pytest.approx(x + 30.0, abs=0.01)
    lines, listed = np.empty((4, 4)), everything(state, near)
    total, count = lines_beside(ground, 1, s, x, y, 50.0, listed, lines)
    assert (total, count) == (pytest.approx(30.0), 1)


@pytest.mark.parametrize("room_mm, used_then_mm", [(205.0, 200.0), (199.0, None)])
def test_a_near_miss_is_let_out_as_far_as_it_must_be_to_be_sound(room_mm, used_then_mm):
    """Two squares 3 mm over each other on 197 mm: sound on 200 mm, and not on 199."""
    squares = Piece(name="square", outline_mm=SQUARE, quantity=2)
    board = next(ways_to_spread(LayTask(pieces=(squares,), width_mm=100.0))).board
    state = empty_state(2, 0)
    for i, x in enumerate((0.0, 97.0)):
        s = int(board.table.choices[i, 0])
        put(board.table, state, i, s, *((x, 0.0) - board.table.box[s, :2]))
    lay = mended(board, state, board.length_mm - room_mm)
    if used_then_mm is None:
        assert lay is None
    else:
        assert used_mm(board, lay) == pytest.approx(used_then_mm, abs=0.01)
