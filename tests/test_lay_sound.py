"""No lay ever overlaps or leaves the cloth, whatever is asked; the same question, the same lay."""

from __future__ import annotations

from itertools import combinations
from math import cos, pi, sin

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from shapely import Polygon, affinity, box

from stash.lay import Budget, LayTask, Verdict, check, shortest, solve
from stash.model import Outline, Piece, Repeat, Spread

SETTINGS = settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow]
)
OVERLAP_MM2 = 0.5  # slivers of rounding between pieces that touch


@st.composite
def rings(draw, most_mm: int = 400) -> tuple[tuple[float, float], ...]:
    """A simple ring, convex or not: corners at rising angles, distances free."""
    corners = draw(st.integers(3, 9))
    far = [draw(st.integers(20, most_mm // 2)) for _ in range(corners)]
    stretch = draw(st.sampled_from((1.0, 0.4, 2.0)))
    angles = [2 * pi * k / corners for k in range(corners)]
    return tuple((r * cos(a) * stretch, r * sin(a)) for r, a in zip(far, angles, strict=True))


@st.composite
def pieces(draw) -> tuple[Piece, ...]:
    """One to four pieces, single, in twos, or as mirrored pairs."""
    found = []
    for k in range(draw(st.integers(1, 4))):
        mirrored = draw(st.booleans())
        found.append(Piece(
            name=f"piece {k}", outline_mm=draw(rings()), mirrored_pair=mirrored,
            quantity=2 if mirrored else draw(st.integers(1, 3)),
            match_points_mm=((0.0, 0.0),) if draw(st.booleans()) else (),
            grain_turn_deg=draw(st.sampled_from((0.0, 0.0, 45.0))),
        ))
    return tuple(found)


@st.composite
def cloths(draw) -> Outline:
    """A rectangle, perhaps with a bite out of an edge and a flaw inside."""
    length, width = draw(st.integers(500, 1800)), draw(st.integers(500, 1500))
    cloth = box(0, 0, length, width)
    if draw(st.booleans()):
        x, y = draw(st.integers(0, length)), draw(st.sampled_from((0, width)))
        cloth = cloth.difference(box(x - 90, y - 140, x + 120, y + 140))
    if draw(st.booleans()):
        cloth = cloth.difference(box(length / 2, width / 3, length / 2 + 40, width / 3 + 30))
    if cloth.geom_type != "Polygon":
        cloth = max(cloth.geoms, key=lambda g: g.area)
    return Outline(
        tuple(cloth.exterior.coords[:-1]), tuple(tuple(h.coords[:-1]) for h in cloth.interiors)
    )


def placed(piece: Piece, p) -> Polygon:
    """The placement rule, written out again: mirror, turn, shift."""
    shape = Polygon(piece.outline_mm)
    if p.mirrored:
        shape = Polygon([(x, -y) for x, y in piece.outline_mm])
    return affinity.translate(affinity.rotate(shape, p.turn_deg, origin=(0, 0)), p.x_mm, p.y_mm)


def assert_sound(task: LayTask, lay) -> None:
    """Every copy once, none over another, none off the cloth."""
    by_name = {p.name: p for p in task.pieces}
    names = sorted(p.piece for p in lay.placements)
    assert names == sorted(f"{p.name}#{k + 1}" for p in task.pieces for k in range(p.quantity))
    shapes = [placed(by_name[p.piece.rpartition("#")[0]], p) for p in lay.placements]
    for a, b in combinations(shapes, 2):
        # shrunk a little, since the overlay of shapes that touch can go wrong in GEOS itself
        assert a.buffer(-0.02).intersection(b.buffer(-0.02)).area < OVERLAP_MM2
    cloth = box(0, 0, lay.length_mm, task.width_mm or 0)
    if task.cloth is not None:
        cloth = Polygon(task.cloth.ring_mm, task.cloth.holes_mm)
    for shape in shapes:
        assert shape.difference(cloth).area < OVERLAP_MM2
        assert shape.bounds[2] <= lay.length_mm + 0.01
    assert check(task, lay) == []


@SETTINGS
@given(pieces(), cloths(), st.booleans(), st.sampled_from((0.0, 4.0)))
def test_a_lay_on_any_cut_is_sound(some, cloth, one_way, clearance):
    """Open cloth with bites and flaws, one-way or not, with or without room between."""
    task = LayTask(pieces=some, cloth=cloth, one_way=one_way, clearance_mm=clearance)
    answer = solve(task, Budget(iterations=60))
    assert (answer.lay is not None) == (answer.verdict is Verdict.FITS)
    if answer.lay:
        assert_sound(task, answer.lay)


@SETTINGS
@given(pieces(), st.sampled_from((Spread.LENGTHWISE, Spread.CROSSWISE, None)), st.booleans())
def test_a_lay_on_folded_cloth_is_sound_when_opened_out(some, spread, one_way):
    """Pairs come from both layers, yet nothing overlaps in the opened-out cloth."""
    task = LayTask(pieces=some, width_mm=1400.0, spread=spread, one_way=one_way, clearance_mm=2.0)
    answer = shortest(task, Budget(iterations=40))
    if answer.lay:
        assert_sound(task, answer.lay)
    else:
        assert spread is Spread.CROSSWISE
        assert one_way


@SETTINGS
@given(pieces(), st.sampled_from((30.0, 64.0, None)), st.sampled_from((32.0, 75.0, None)),
       st.booleans())
def test_matched_pieces_lie_on_the_print(some, along, across, half_drop):
    """Each matched point falls on the lattice of the repeat, half-drop or straight."""
    repeat = Repeat(lengthwise_mm=along, crosswise_mm=across, half_drop=half_drop)
    task = LayTask(pieces=some, width_mm=1400.0, repeat=repeat)
    answer = shortest(task, Budget(iterations=40))
    assert answer.lay is not None
    assert_sound(task, answer.lay)


@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(pieces(), st.integers(0, 1000), st.sampled_from((1, 2)))
def test_the_same_seed_and_effort_give_the_same_lay(some, seed, workers):
    """Whatever the clock and the cores do."""
    task = LayTask(pieces=some, width_mm=900.0)
    budget = Budget(seed=seed, iterations=120, workers=workers)
    assert shortest(task, budget) == shortest(task, budget)


def test_two_workers_agree_on_the_winner_of_a_fixed_cut():
    """The worker that needed least work wins, not the one that was quicker."""
    leg = ((0, 20), (300, 0), (900, 40), (900, 250), (300, 330), (220, 240), (0, 240))
    piece = Piece(name="leg", outline_mm=leg, quantity=4, mirrored_pair=True)
    task = LayTask(pieces=(piece,), cloth=Outline.rectangle(1190, 905))
    budget = Budget(seed=3, iterations=800, workers=2)
    assert solve(task, budget) == solve(task, budget)


def test_a_stopped_search_still_answers():
    """Stopping at once leaves the first lay."""
    piece = Piece(name="square", outline_mm=((0, 0), (100, 0), (100, 100), (0, 100)), quantity=7)
    answer = shortest(LayTask(pieces=(piece,), width_mm=250.0), Budget(stop=lambda: True))
    assert answer.lay.length_mm == pytest.approx(400, abs=0.2)


def test_progress_only_ever_gets_shorter():
    """Each lay that the search reports is shorter than the one before."""
    ring = ((0, 0), (300, 30), (200, 240), (40, 200))
    piece = Piece(name="gusset", outline_mm=ring, quantity=9)
    seen = []
    task = LayTask(pieces=(piece,), width_mm=800.0)
    shortest(task, Budget(iterations=400), progress=lambda lay: seen.append(lay.length_mm))
    assert seen == sorted(seen, reverse=True)
