"""No-fit regions and their charts, held to shapely and to shapes known by hand."""

from __future__ import annotations

import re

import numpy as np
import pytest
import shapely
from hypothesis import example, given, settings
from hypothesis import strategies as st
from shapely import Polygon, affinity

from stash.errors import InvalidInput
from stash.lay.cloth.outlines import convex_parts, grown, piece_polygon
from stash.lay.compiled import alone, kernel
from stash.lay.nofit import region as nofit
from stash.lay.nofit.depth import beside, chart, depth
from stash.lay.nofit.halfplanes import halfplanes
from stash.lay.proof import cross_sections
from stash.lay.proof.bounds import inner
from stash.lay.proof.cross_sections import profile
from stash.lay.search.linear_programme import MOST_PLANES

SQUARE = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))
ELL = ((0.0, 0.0), (30.0, 0.0), (30.0, 10.0), (10.0, 10.0), (10.0, 40.0), (0.0, 40.0))
REACH = 12.0
FLIPS = ((1, 1), (-1, 1), (1, -1), (-1, -1))


@kernel
def deep(charts, region, x, y):
    """The kernel as callers compile it."""
    return depth(charts, region, x, y, np.inf)


@kernel
def depth_or_enough(charts, region, x, y, enough):
    """The same, stopping early."""
    return depth(charts, region, x, y, enough)


@kernel
def nearest(charts, region, x, y):
    """The same of what lies beside."""
    return beside(charts, region, x, y)


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
@given(stars(), stars(), st.sampled_from(FLIPS),
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


@settings(max_examples=100, deadline=None)
@given(stars(), stars(), st.lists(st.tuples(st.integers(-40, 40), st.integers(-40, 40)),
                                  min_size=8, max_size=30))
def test_what_lies_beside_is_the_nearest_edge(a, b, places):
    """As far inside as depth says, as far outside as shapely says; the step points away."""
    edges = nofit.between(a, b, (1, 1))
    charts, region = chart([edges]), surrounded(edges)
    for x, y in [*places, *(tuple(c) for c in edges[:, :2])]:
        near, d, nx, ny = nearest(charts, 0, float(x), float(y))
        inside = deep(charts, 0, float(x), float(y))[0]
        if not near:
            assert inside < 1e-6
            continue
        assert np.hypot(nx, ny) == pytest.approx(1.0)
        assert max(d, 0.0) == pytest.approx(inside, abs=1e-6)
        away = region.distance(shapely.Point(x, y))
        assert max(-d, 0.0) == pytest.approx(away, abs=1e-4)
        edge = shapely.Point(x + d * nx, y + d * ny)
        assert region.boundary.distance(edge) < 1e-4


@settings(max_examples=100, deadline=None)
@given(stars(), stars(), st.integers(-40, 40), st.integers(-40, 40), st.floats(0.01, 60.0))
def test_a_depth_that_is_enough_is_never_more_than_the_depth(a, b, x, y, enough):
    """What stops counting early says too little, but more than was asked about."""
    charts = chart([nofit.between(a, b, (1, 1))])
    full = deep(charts, 0, float(x), float(y))[0]
    early = depth_or_enough(charts, 0, float(x), float(y), enough)[0]
    assert early == full or enough < early <= full


def summed(a, b, flip) -> shapely.Geometry:
    """The region by shapely alone: hulls of the corner sums of all triangles, united."""
    still, moving = (
        [np.array(t.exterior.coords) for t in shapely.constrained_delaunay_triangles(p).geoms]
        for p in (Polygon(a), affinity.scale(Polygon(b), -flip[0], -flip[1], origin=(0, 0)))
    )
    hulls = [
        shapely.MultiPoint((p[:, None] + q[None]).reshape(-1, 2)).convex_hull
        for p in still for q in moving
    ]
    # On a grid: without one GEOS 3.14 loses a whole part where edges all but coincide.
    return shapely.union_all(hulls, grid_size=1e-6)


def surrounded(edges: np.ndarray) -> shapely.Geometry:
    """What the edges of a region go round."""
    return shapely.build_area(shapely.multilinestrings(edges.reshape(-1, 2, 2)))


@settings(max_examples=150, deadline=None)
@given(stars(), stars(), st.sampled_from(FLIPS), st.sampled_from((0.0, 90.0, 17.3, 180.0)),
       st.sampled_from((1.0, 36.7)))
@example(
    a=((15, 0), (3, 2), (1, 3), (0, 3), (-2, 2), (-3, 1), (-3, -1), (-2, -2), (0, -3), (1, -3),
       (17, -11)),
    b=((3, 0), (3, 2), (1, 3), (0, 3), (-2, 2), (-3, 1), (-3, -1), (-2, -2), (-3, -19), (8, -17),
       (10, -6)),
    flip=(1, 1), turn=90.0, scale=36.7,
)
def test_the_region_is_the_sum_that_shapely_finds(a, b, flip, turn, scale):
    """On coordinates that coincide as on ones that never do; its rings close to the last bit."""
    a, b = (
        tuple(affinity.scale(affinity.rotate(Polygon(r), t, origin=(0, 0)), scale, scale,
                             origin=(0, 0)).exterior.coords[:-1])
        for r, t in ((a, turn), (b, 0.0))
    )
    edges = nofit.between(a, b, flip)
    expected = summed(a, b, flip)
    assert surrounded(edges).symmetric_difference(expected).area <= 3e-5 * expected.length + 1e-3
    assert sorted(map(tuple, edges[:, :2])) == sorted(map(tuple, edges[:, 2:]))


@settings(max_examples=30, deadline=None)
@given(stars(), stars(), st.sampled_from(FLIPS))
def test_a_region_that_does_not_close_is_left_to_shapely(a, b, flip):
    """The slower way comes to the same."""
    expected = nofit.between(a, b, flip)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(nofit, "outline", lambda *given: (False, np.empty((0, 4))))
        slower = nofit.between.__wrapped__(a, b, flip)
    assert surrounded(slower).symmetric_difference(surrounded(expected)).area < 0.01


def test_an_obstacle_of_many_metres_has_its_region():
    """A selvedge flaw 30 m long keeps a 10 mm square away on all sides."""
    edges = nofit.around(shapely.box(0, 0, 30_000, 5), SQUARE, (1, 1)).reshape(-1, 2)
    assert [*edges.min(0), *edges.max(0)] == [-10, -10, 30_000, 5]


def test_an_obstacle_thinner_than_any_unit_still_has_its_region():
    """A nick a millionth of a millimetre wide is an obstacle like any other."""
    edges = nofit.around(shapely.box(0, 0, 5000, 1e-6), SQUARE, (1, 1)).reshape(-1, 2)
    assert [*edges.min(0), *edges.max(0)] == pytest.approx([-10, -10, 5000, 0], abs=1e-4)


@settings(max_examples=60, deadline=None)
@given(stars(), stars(), st.sampled_from(FLIPS),
       st.lists(st.tuples(st.floats(-40, 40), st.floats(-40, 40)), min_size=20, max_size=60))
def test_a_chart_knows_the_nearest_of_all_edges(a, b, flip, places):
    """Depth is the distance to the whole outline, as shapely measures it, and none outside."""
    edges = nofit.between(a, b, flip)
    charts, region = chart([edges, edges + 100.0]), surrounded(edges)
    for x, y in places:
        expected = region.boundary.distance(shapely.Point(x, y))
        if expected > 1e-9:
            inside = region.contains(shapely.Point(x, y))
            assert deep(charts, 0, x, y)[0] == pytest.approx(expected if inside else 0.0)
            assert deep(charts, 1, x + 100, y + 100)[0] == pytest.approx(expected if inside else 0)


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
    least_between = alone(cross_sections.least_between)
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
def test_an_outline_that_cannot_be_cut_is_refused_in_a_sentence(ring, fault, sentence):
    """Each names the piece and what is wrong with it."""
    with pytest.raises(InvalidInput) as caught:
        piece_polygon("gusset", ring)
    assert re.search(fault, sentence(caught.value))
    assert "“gusset”" in sentence(caught.value)


def test_a_ring_of_very_many_points_is_bounded_from_inside():
    """What the plainer ring needs, the piece needs: it never claims more cross-section."""
    angles = np.linspace(0, 2 * np.pi, 5000, endpoint=False)
    ring = tuple(zip((300 * np.cos(angles)).tolist(), (200 * np.sin(angles)).tolist(), strict=True))
    plain = inner(ring)
    assert len(plain) < 300
    assert Polygon(ring).buffer(1e-9).contains(Polygon(plain))
    rough = tuple((k * 0.05, 100.0 + k % 2 * 30) for k in range(4000)) + ((200.0, 0.0), (0.0, 0.0))
    assert Polygon(rough).buffer(1e-9).contains(Polygon(inner(rough)))


@settings(max_examples=200, deadline=None)
@given(stars(), stars(), st.sampled_from(FLIPS), st.integers(-40, 40), st.integers(-40, 40),
       st.integers(0, 2**32 - 1))
def test_nothing_of_a_region_lies_within_its_half_planes(a, b, flip, x, y, seed):
    """Wherever the half-planes let a piece move to, it is clear of the other."""
    charts = chart([nofit.between(a, b, flip)])
    planes = np.empty((MOST_PLANES, 3))
    count = halfplanes(charts, 0, float(x), float(y), REACH, planes)
    if count == MOST_PLANES:
        return  # no more room to write them down; the lay is measured anew after a move
    moves = np.random.default_rng(seed).uniform(-REACH, REACH, (200, 2)) / 3
    from_here = (x, y) + moves
    allowed = (planes[:count, :2] @ from_here.T >= planes[:count, 2:] - 1e-9).all(0)
    for there in from_here[allowed]:
        assert deep(charts, 0, *there)[0] < 1e-4


def test_a_point_clear_of_a_region_keeps_its_place():
    """No half-plane shuts out where the piece already lies."""
    charts = chart([nofit.between(SQUARE, SQUARE, (1, 1))])
    planes = np.empty((MOST_PLANES, 3))
    count = halfplanes(charts, 0, 13.0, 2.0, 4.0, planes)
    assert count >= 1
    assert (planes[:count, :2] @ (13.0, 2.0) >= planes[:count, 2]).all()
    assert halfplanes(charts, 0, 30.0, 2.0, 4.0, planes) == 0
