"""No-fit regions and their charts, held to shapely and to shapes known by hand."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, affinity

from stash.errors import InvalidInput
from stash.lay import nofit
from stash.lay.bounds import inner
from stash.lay.chart import chart, depth
from stash.lay.compiled import kernel
from stash.lay.profile import least_between, profile
from stash.lay.shapes import convex_parts, grown, piece_polygon

SQUARE = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))
ELL = ((0.0, 0.0), (30.0, 0.0), (30.0, 10.0), (10.0, 10.0), (10.0, 40.0), (0.0, 40.0))


@kernel
def deep(charts, region, x, y):
    """The kernel as callers compile it."""
    return depth(charts, region, x, y)


@st.composite
def stars(draw) -> tuple[tuple[float, float], ...]:
    """Star-shaped rings with many concave corners, on a grid so that coordinates coincide."""
    corners = draw(st.integers(4, 12))
    far = [draw(st.integers(3, 20)) for _ in range(corners)]
    angles = np.linspace(0, 2 * np.pi, corners, endpoint=False)
    ring = [(round(r * np.cos(a)), round(r * np.sin(a))) for r, a in zip(far, angles, strict=True)]
    polygon = Polygon(ring).buffer(0)
    if polygon.geom_type != "Polygon" or polygon.area < 10:
        return ELL
    return tuple(shapely.geometry.polygon.orient(Polygon(polygon.exterior)).exterior.coords[:-1])


def test_the_region_of_two_squares_is_a_square_of_both_sides():
    """A 10 mm square may not come within (-10, 10) of another in both directions."""
    edges = nofit.between(SQUARE, SQUARE, (1, 1))
    assert edges.reshape(-1, 2).min(0).tolist() == [-10, -10]
    assert edges.reshape(-1, 2).max(0).tolist() == [10, 10]
    charts = chart([edges])
    assert deep(charts, 0, 0.0, 0.0)[0] == pytest.approx(10)
    assert deep(charts, 0, 7.0, 1.0) == pytest.approx((3.0, 3.0, 0.0))
    assert deep(charts, 0, 10.0, 0.0)[0] == 0


def test_a_notch_that_fits_exactly_stays_open_only_when_it_has_room():
    """A 10 mm square fits the 20 mm wide notch of a U, and its region has that hole."""
    u = ((0, 0), (40, 0), (40, 30), (30, 30), (30, 10), (10, 10), (10, 30), (0, 30))
    charts = chart([nofit.between(tuple(map(tuple, np.array(u, float))), SQUARE, (1, 1))])
    assert deep(charts, 0, 15.0, 12.0)[0] == 0
    assert deep(charts, 0, 5.0, 12.0)[0] > 0


@settings(max_examples=150, deadline=None)
@given(stars(), stars(), st.sampled_from(((1, 1), (-1, 1), (1, -1), (-1, -1))),
       st.lists(st.tuples(st.integers(-40, 40), st.integers(-40, 40)), min_size=8, max_size=30))
def test_depth_says_what_shapely_says(a, b, flip, places):
    """Depth is above nothing exactly where the shapes overlap, and its step out ends that."""
    charts = chart([nofit.between(a, b, flip)])
    still = Polygon(a)
    moving = affinity.scale(Polygon(b), *flip, origin=(0, 0))
    for x, y in [*places, *(tuple(c) for c in charts.edges[:, :2])]:
        d, dx, dy = deep(charts, 0, float(x), float(y))
        overlap = still.intersection(affinity.translate(moving, x, y)).area
        assert (d > 1e-6) >= (overlap > 1e-4)
        if d > 1e-6:
            out = affinity.translate(moving, x + dx, y + dy).buffer(-1e-6)
            assert not still.buffer(-1e-6).intersects(out)
            assert d == pytest.approx(np.hypot(dx, dy))


@settings(max_examples=60, deadline=None)
@given(stars())
def test_convex_parts_cover_the_shape_without_overlap(ring):
    """Areas add up, and every part is convex."""
    polygon = Polygon(ring)
    parts = [Polygon(p) for p in convex_parts(polygon)]
    assert sum(p.area for p in parts) == pytest.approx(polygon.area)
    assert all(p.convex_hull.area == pytest.approx(p.area) for p in parts)


@settings(max_examples=40, deadline=None)
@given(stars(), st.sampled_from((0.01, 2.5)))
def test_a_grown_outline_contains_the_outline_and_its_room(ring, room):
    """Also when it is simplified: 400 points become few, always outward."""
    polygon = Polygon(ring).segmentize(0.5).buffer(0.2)
    many = tuple(Polygon(polygon.exterior).exterior.coords[:-1])
    wide = Polygon(grown(many, room))
    assert wide.buffer(1e-6).contains(Polygon(many).buffer(room * 0.98))
    assert len(wide.exterior.coords) < 80


def test_the_least_cross_section_is_exact():
    """An L of 30 x 40 shows 40 mm, then 10 mm, to a line that moves along it."""
    p = profile(ELL, 0)
    assert least_between(p.at_mm, p.near_mm, p.far_mm, 2.0, 8.0) == pytest.approx(40)
    assert least_between(p.at_mm, p.near_mm, p.far_mm, 2.0, 18.0) == pytest.approx(10)
    assert least_between(p.at_mm, p.near_mm, p.far_mm, -1.0, 18.0) == 0


@pytest.mark.parametrize(("ring", "fault"), [
    (((0, 0), (100, 100), (100, 0), (0, 100)), "crosses itself"),
    (((0, 0), (100, 0), (200, 0)), "has no area"),
    (((0, 0), (100, 0), (float("nan"), 50)), "not a number"),
    (((0, 0), (100, 0)), "at least three points"),
    (tuple((float(k), float(k % 7)) for k in range(100_000)), "100,000 points"),
])
def test_an_outline_that_cannot_be_cut_is_refused_in_a_sentence(ring, fault):
    """Each names the piece and what is wrong with it."""
    with pytest.raises(InvalidInput, match=fault) as caught:
        piece_polygon("gusset", ring)
    assert "“gusset”" in str(caught.value)


def test_a_ring_of_very_many_points_is_bounded_from_inside():
    """What the plainer ring needs, the piece needs: it never claims more cross-section."""
    angles = np.linspace(0, 2 * np.pi, 5000, endpoint=False)
    ring = tuple(zip((300 * np.cos(angles)).tolist(), (200 * np.sin(angles)).tolist(), strict=True))
    plain = inner(ring)
    assert len(plain) < 300
    assert Polygon(ring).buffer(1e-9).contains(Polygon(plain))
    rough = tuple((k * 0.05, 100.0 + k % 2 * 30) for k in range(4000)) + ((200.0, 0.0), (0.0, 0.0))
    assert Polygon(rough).buffer(1e-9).contains(Polygon(inner(rough)))
