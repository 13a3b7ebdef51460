"""Curves within their tolerance, and cutting lines, checked against shapely and arithmetic."""

from __future__ import annotations

from math import hypot, pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon

from stash.draft.catalogue import draft
from stash.draft.cutting_line import Edge, cutting_line
from stash.draft.geometry import (
    TOLERANCE_MM,
    along,
    arc,
    between,
    curve,
    distance,
    length,
    line,
    scoop,
    solve,
)
from stash.model import Outline

whole_mm = st.integers(-500, 500).map(float)
points = st.tuples(whole_mm, whole_mm)


@settings(max_examples=200, deadline=None)
@given(points, points, points, points)
def test_a_flattened_curve_stays_within_its_tolerance(a, b, c, d):
    """De Casteljau's construction, an independent one, never strays from the chords."""
    path = LineString(curve(a, b, c, d)) if a != d else None
    for step in range(1, 40) if path else ():
        t = step / 40
        ab, bc, cd = between(a, b, t), between(b, c, t), between(c, d, t)
        point = between(between(ab, bc, t), between(bc, cd, t), t)

        assert path.distance(Point(point)) <= TOLERANCE_MM + 1e-6


@pytest.mark.parametrize("radius", [30, 124, 730, 1500])
def test_an_arc_is_as_long_as_its_circle_says(radius: float):
    """A quarter of 2 pi r, short by less than the flattening."""
    quarter = arc((0.0, 0.0), radius, 0.0, pi / 2)

    assert length(quarter) == pytest.approx(radius * pi / 2, rel=3e-3)
    assert all(hypot(*p) == pytest.approx(radius) for p in quarter)


def test_a_scoop_passes_where_rosenfeld_pulls_it():
    """A square of 2 5/8 in, the chord's middle pulled 1/2 in towards the corner
    (The Practical Designer, 1911, Lesson 82).
    """
    side = 2.625 * 25.4
    path = scoop((side, 0.0), (0.0, 0.0), (0.0, side), 12.7)
    pulled = side * 2**0.5 / 2 - 12.7

    assert LineString(path).distance(Point(0, 0)) == pytest.approx(pulled, abs=TOLERANCE_MM)


def test_a_point_along_a_path():
    """Measured along it, and never beyond its ends."""
    path = line((0.0, 0.0), (30.0, 0.0), (30.0, 40.0))

    assert along(path, 50) == pytest.approx((30, 20))
    assert along(path, -1) == (0, 0)
    assert along(path, 99) == (30, 40)


def test_halving_finds_the_crossing():
    """The square root of two as near as a cutter asks, and else the nearer end."""
    root = solve(lambda x: x * x - 2, 0, 2)

    assert abs(root * root - 2) < 1e-5
    assert solve(lambda x: x + 1, 0, 2) == pytest.approx(0, abs=1e-6)


def rectangle(top: float, side: float, bottom: float, *, turned: bool = False) -> list[Edge]:
    """A 300 x 200 mm piece with an allowance an edge."""
    a, b, c, d = (0.0, 0.0), (0.0, 200.0), (300.0, 200.0), (300.0, 0.0)
    return [
        Edge("top", (a, b), top), Edge("side", (b, c), side),
        Edge("hem", (c, d), bottom, turned=turned), Edge("other side", (d, a), side),
    ]


@given(st.floats(0, 50), st.floats(0, 50), st.floats(0, 80), st.booleans())
def test_every_edge_moves_by_its_own_allowance(top, side, bottom, turned):
    """A rectangle grows to a rectangle, by each edge's own amount."""
    cut = Outline(cutting_line(rectangle(top, side, bottom, turned=turned)))

    assert cut.bounds_mm == pytest.approx((-top, -side, 300 + bottom, 200 + side))
    assert cut.is_rectangle


@settings(max_examples=60, deadline=None)
@given(st.floats(1, 20), st.lists(st.floats(80, 160), min_size=5, max_size=9))
def test_one_allowance_all_round_is_a_mitred_offset(allowance, radii):
    """Shapely's mitred buffer of the stitching line is the cutting line, on round shapes."""
    count = len(radii)
    ring = [
        (r * _cos(i / count), r * _sin(i / count)) for i, r in enumerate(radii)
    ]
    hull = list(Polygon(ring).convex_hull.exterior.coords)
    edges = [Edge(str(i), (p, q), allowance) for i, (p, q) in
             enumerate(zip(hull, hull[1:], strict=False))]

    cut = Polygon(cutting_line(edges))
    offset = Polygon(hull).buffer(allowance, join_style="mitre", mitre_limit=2.5)

    assert cut.symmetric_difference(offset).area <= 0.02 * offset.area


def _cos(part: float) -> float:
    return arc((0.0, 0.0), 1.0, 0.0, 2 * pi * part)[-1][0] if part else 1.0


def _sin(part: float) -> float:
    return arc((0.0, 0.0), 1.0, 0.0, 2 * pi * part)[-1][1] if part else 0.0


def test_a_turned_hem_mirrors_slanting_sides():
    """Sides that run out 1 in 10 run back in beyond the fold, so the hem lies flat."""
    a, b, c, d = (0.0, 30.0), (0.0, 170.0), (300.0, 200.0), (300.0, 0.0)
    edges = [
        Edge("top", (a, b), 10), Edge("side", (b, c), 10), Edge("hem", (c, d), 40, turned=True),
        Edge("other side", (d, a), 10),
    ]
    cut = Polygon(cutting_line(edges))

    def width(down: float) -> float:
        return cut.intersection(LineString([(down, -50), (down, 250)])).length

    assert width(330) == pytest.approx(width(270), abs=0.01)
    assert width(300) > width(330)


def test_a_wider_allowance_along_a_straight_line_starts_with_a_step():
    """Where a bound edge runs on into a seam, the cut steps out at the notch."""
    ring = [(0.0, 0.0), (0.0, 100.0), (0.0, 200.0), (80.0, 200.0), (80.0, 0.0)]
    names = ("bound", "seam", "b", "c", "d")
    edges = [
        Edge(n, (p, q), 15.0 if n == "seam" else 0.0)
        for n, p, q in zip(names, ring, [*ring[1:], ring[0]], strict=True)
    ]

    cut = cutting_line(edges)

    assert any(distance(p, (0.0, 100.0)) < 0.01 for p in cut)
    assert any(distance(p, (-15.0, 100.0)) < 0.01 for p in cut)


def test_edges_that_enclose_nothing_have_no_cutting_line():
    """A piece whose length is all hem comes out empty, not as a traceback."""
    a, b = (0.0, 0.0), (0.0, 100.0)

    assert cutting_line([Edge("top", (a, b)), Edge("side", (b, b)), Edge("hem", (b, a))]) == ()


def test_one_edge_may_have_its_own_allowance():
    """25 mm at the side to let out later, 15 mm elsewhere: 10 mm more across each panel."""
    measured = {"hip": 1000, "waist": 780}
    usual = draft("trousers", measured)
    wide = draft("trousers", measured, {"seam_side": "25 mm"})

    for before, after in zip(usual.pieces, wide.pieces, strict=True):
        grown = Outline(after.outline_mm).width_mm - Outline(before.outline_mm).width_mm
        assert grown == pytest.approx(10, abs=0.2)
        assert after.stitch_mm == before.stitch_mm


def test_beside_a_bound_edge_an_allowance_is_whole_to_its_end():
    """A shoulder beside a neck that is bound: the allowance is 15 mm wide from the first stitch on,
    and folded along the seam its end lies on the neck's edge.
    """
    neck, shoulder = ((0.0, 0.0), (-10.0, 84.0)), ((-10.0, 84.0), (10.0, 130.0))
    edges = [
        Edge("neck", neck), Edge("shoulder", shoulder, 15.0),
        Edge("side", ((10.0, 130.0), (200.0, 130.0)), 15.0),
        Edge("hem", ((200.0, 130.0), (200.0, 0.0)), 20.0, turned=True),
        Edge("fold", ((200.0, 0.0), (0.0, 0.0))),
    ]
    for ring in (edges, [Edge(e.name, e.path[::-1], e.allowance_mm, e.turned)
                         for e in reversed(edges)]):
        cut, seam = Polygon(cutting_line(ring)), LineString(shoulder)
        for mm in (0.5, 5.0, 20.0):
            here = seam.interpolate(mm)
            out = LineString([here, (here.x - 100 * 46 / hypot(20, 46),
                                     here.y + 100 * 20 / hypot(20, 46))])
            assert here.distance(out.intersection(cut.exterior)) == pytest.approx(15, abs=0.1)
