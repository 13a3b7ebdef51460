"""Printed cloth laid folded: held to the cloth itself, opened out, by shapely and plain sums.

Nothing of the search or of its own check is used to judge; the tasks are invented at random.
"""

from __future__ import annotations

from math import ceil, floor

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from shapely import Polygon, affinity, box

from stash.lay import Budget, LayFound, LayTask, NoLayPossible, shortest, solve
from stash.model import Lay, Outline, Piece, Placement, Repeat, Spread

HAIR_MM = 0.06  # nobody cuts finer
FOLDED = (Spread.LENGTHWISE, Spread.CROSSWISE)
MANY = settings(
    max_examples=150, deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)


def opened_out(piece: Piece, p: Placement) -> tuple[Polygon, list[tuple[float, float]]]:
    """(outline, match points) of a copy as it lies in the opened-out cloth."""
    def laid(shape):
        if p.mirrored:
            shape = affinity.affine_transform(shape, [1, 0, 0, -1, 0, 0])
        shape = affinity.rotate(shape, p.turn_deg, origin=(0, 0))
        return affinity.translate(shape, p.x_mm, p.y_mm)

    points = [laid(Polygon([(x, y)] * 3)).exterior.coords[0] for x, y in piece.match_points_mm]
    return laid(Polygon(piece.outline_mm)), points


def off_print_mm(x: float, y: float, repeat: Repeat) -> float:
    """How far a point is from the nearest point at which the print recurs."""
    along, across = repeat.lengthwise_mm, repeat.crosswise_mm
    best = float("inf")
    for column in {floor(y / across), ceil(y / across)} if across else {0}:
        aside = abs(y - column * across) if across else 0.0
        start = along / 2 if along and repeat.half_drop and across and column % 2 else 0.0
        rows = {floor((x - start) / along), ceil((x - start) / along)} if along else {None}
        for row in rows:
            ahead = abs(x - start - row * along) if along else 0.0
            best = min(best, max(aside, ahead))
    return best


def assert_can_be_cut(task: LayTask, lay: Lay) -> None:
    """Every copy once, whole, apart from the others, on one side of the fold, on the print."""
    pieces = {p.name: p for p in task.pieces}
    asked = sorted(f"{p.name}#{k}" for p in task.pieces for k in range(1, p.quantity + 1))
    assert sorted(p.piece for p in lay.placements) == asked
    cloth = (
        Polygon(task.cloth.ring_mm) if task.cloth else box(0, 0, lay.length_mm, task.width_mm)
    )
    shapes = []
    for p in lay.placements:
        piece = pieces[p.piece.rpartition("#")[0]]
        shape, points = opened_out(piece, p)
        assert cloth.buffer(HAIR_MM).covers(shape), p
        assert shape.bounds[2] <= lay.length_mm + HAIR_MM
        assert_beside_the_fold(piece, shape, lay)
        if task.repeat:
            off = [off_print_mm(x, y, task.repeat) for x, y in points]
            assert all(one <= (HAIR_MM if k == 0 else 0.6) for k, one in enumerate(off)), p
        assert all(shape.intersection(other).area < HAIR_MM * shape.length for other in shapes), p
        shapes.append(shape)


def assert_beside_the_fold(piece: Piece, shape: Polygon, lay: Lay) -> None:
    """On one side of it, or, if cut on the fold, half on each."""
    if lay.fold_mm is None:
        return
    axis = 1 if lay.spread is Spread.LENGTHWISE else 0
    before, beyond = lay.fold_mm - shape.bounds[axis], shape.bounds[axis + 2] - lay.fold_mm
    if piece.on_fold and not piece.grain_turn_deg and lay.spread is Spread.LENGTHWISE:
        assert abs(before - beyond) <= 2 * HAIR_MM
    else:
        assert before <= HAIR_MM or beyond <= HAIR_MM


def assert_folded_on_the_print(repeat: Repeat | None, lay: Lay) -> None:
    """The print of the lower layer lies under that of the upper."""
    if repeat is None or lay.fold_mm is None:
        return
    for column in range(-2, 3):
        for row in range(-2, 3):
            x, y = row * (repeat.lengthwise_mm or 10.0), column * (repeat.crosswise_mm or 10.0)
            if repeat.half_drop and repeat.crosswise_mm and repeat.lengthwise_mm and column % 2:
                x += repeat.lengthwise_mm / 2
            through = (
                (x, 2 * lay.fold_mm - y) if lay.spread is Spread.LENGTHWISE
                else (2 * lay.fold_mm - x, y)
            )
            assert off_print_mm(*through, repeat) <= HAIR_MM


@st.composite
def pieces(draw) -> tuple[Piece, ...]:
    """One to three pieces: rectangles and trapezia, pairs, several of one, cut on the fold, on
    the bias."""
    some = []
    for k in range(draw(st.integers(1, 3))):
        long, wide = draw(st.integers(60, 420)), draw(st.integers(100, 280))
        lean = draw(st.sampled_from((0, 0, 20, 45)))
        way = draw(st.sampled_from(("one", "two", "three", "pair", "fold")))
        ring = ((0, 0), (long, lean), (long, wide - lean // 2), (0, wide))
        if way == "fold":
            ring = ((0, -wide / 2), (long, lean - wide / 2), (long, wide / 2 - lean), (0, wide / 2))
        x, y = draw(st.integers(0, long)), 0 if way == "fold" else draw(st.integers(0, wide))
        some.append(Piece(
            name=f"piece {k}", outline_mm=ring,
            quantity={"two": 2, "pair": 2, "three": 3}.get(way, 1), mirrored_pair=way == "pair",
            on_fold=way == "fold", grain_turn_deg=draw(st.sampled_from((0.0, 0.0, 45.0))),
            turns_deg=draw(st.sampled_from(((0.0, 180.0), (0.0,)))),
            match_points_mm=draw(st.sampled_from(((), ((x, y),), ((0.0, 0.0),)))),
        ))
    return tuple(some)


@st.composite
def repeats(draw) -> Repeat:
    """Stripes, checks square or not, and half-drops."""
    along, across = draw(st.sampled_from((None, 30.0, 64.0, 150.0))), draw(
        st.sampled_from((None, 32.0, 75.0, 210.0)))
    return Repeat(lengthwise_mm=along, crosswise_mm=across, half_drop=draw(st.booleans()))


@st.composite
def cloths(draw) -> dict:
    """Off the roll, a straight cut, or one with a corner gone."""
    width = draw(st.integers(700, 1500))
    length = draw(st.integers(900, 2600))
    kind = draw(st.sampled_from(("roll", "straight", "bitten")))
    if kind == "roll":
        return {"width_mm": float(width)}
    if kind == "straight":
        return {"cloth": Outline.rectangle(length, width)}
    bite = ((0, 0), (length, 0), (length, width - 200), (length - 250, width - 200),
            (length - 250, width), (0, width))
    return {"cloth": Outline(bite)}


@MANY
@given(pieces(), repeats() | st.none(), st.sampled_from((*FOLDED, None)), cloths(),
       st.booleans(), st.sampled_from((0.0, 4.0)), st.sampled_from((0.0, 10.0)))
def test_whatever_lies_on_folded_printed_cloth_can_be_cut(
    some, repeat, spread, cloth, one_way, clearance, edge
):
    """And an engine that is not sure of a lay would fail here, since warnings are errors."""
    task = LayTask(
        pieces=some, repeat=repeat, spread=spread, one_way=one_way, clearance_mm=clearance,
        edge_mm=edge, **cloth,
    )
    answer = solve(task, Budget(iterations=20))
    if isinstance(answer, LayFound):
        assert_can_be_cut(task, answer.lay)
        assert_folded_on_the_print(repeat, answer.lay)


@MANY
@given(pieces(), repeats() | st.none(), st.sampled_from(FOLDED), st.integers(700, 1500))
def test_on_folded_printed_cloth_a_lay_is_found_where_there_is_one(some, repeat, spread, width):
    """Off the roll there is room for every piece beside a fold on the print that leaves the
    widest of them, and a whole repeat, on one side."""
    task = LayTask(pieces=some, repeat=repeat, spread=spread, width_mm=float(width))
    answer = shortest(task, Budget(iterations=10))
    if room_enough(task, width):
        assert isinstance(answer, LayFound), answer
        assert_can_be_cut(task, answer.lay)


def extent_across(piece: Piece) -> float:
    """How far a piece reaches across the cloth, lying on its grain."""
    shape = affinity.rotate(Polygon(piece.outline_mm), piece.grain_turn_deg)
    return shape.bounds[3] - shape.bounds[1]


def room_enough(task: LayTask, width: float) -> bool:
    """By the widest piece, the fold's own step, and the repeat."""
    across = (task.repeat and task.repeat.crosswise_mm) or 0.0
    widest = max(extent_across(p) for p in task.pieces)
    room = width / 2 - across if task.spread is Spread.LENGTHWISE else width
    return widest + across <= room


@pytest.mark.parametrize("spread", FOLDED)
@pytest.mark.parametrize("half_drop", [False, True])
def test_two_equal_rectangles_on_printed_folded_cloth(spread, half_drop):
    """Each with its match point at a corner: the lower one, cut as a mirror image, would have
    it at another, so they are not cut one under the other but each for itself."""
    panel = Piece(name="panel", outline_mm=((0, 0), (300, 0), (300, 200), (0, 200)), quantity=2,
                  match_points_mm=((0.0, 0.0),))
    task = LayTask(pieces=(panel,), width_mm=1140.0, spread=spread,
                   repeat=Repeat(lengthwise_mm=60, crosswise_mm=80, half_drop=half_drop))
    answer = shortest(task, Budget(iterations=10))
    assert isinstance(answer, LayFound)
    assert_can_be_cut(task, answer.lay)
    assert_folded_on_the_print(task.repeat, answer.lay)


def test_a_symmetrical_piece_matched_on_its_own_middle_is_cut_double_on_a_print():
    """Its mirror image has the match point at the same place."""
    panel = Piece(name="panel", outline_mm=((0, -100), (300, -100), (300, 100), (0, 100)),
                  quantity=2, match_points_mm=((0.0, 0.0),))
    task = LayTask(pieces=(panel,), width_mm=1140.0, spread=Spread.LENGTHWISE,
                   repeat=Repeat(lengthwise_mm=60, crosswise_mm=80))
    answer = shortest(task, Budget(iterations=10))
    assert isinstance(answer, LayFound)
    one, other = answer.lay.placements
    assert one.x_mm == other.x_mm
    assert one.y_mm + other.y_mm == pytest.approx(2 * answer.lay.fold_mm)


def test_match_points_that_no_print_can_bring_together_are_a_proof_not_an_error():
    """A question about many cuts goes on; 140 mm is not a whole number of repeats of 64."""
    sleeve = Piece(name="sleeve", outline_mm=((0, 0), (300, 0), (300, 200), (0, 200)),
                   match_points_mm=((0.0, 0.0), (140.0, 0.0)))
    task = LayTask(pieces=(sleeve,), width_mm=1140.0, repeat=Repeat(lengthwise_mm=64))
    answer = shortest(task, Budget(iterations=10))
    assert isinstance(answer, NoLayPossible)
    assert answer.proof.kind == "match_points_off_print"
    assert answer.proof.values["off_mm"] == pytest.approx(12)
