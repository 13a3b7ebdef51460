"""The largest rectangle inside an outline, against a brute-force grid and by hand."""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import box

from stash.errors import Conflict, InvalidInput
from stash.ledger.bites import Bite, End, LongSide, bitten
from stash.ledger.shapes import polygon
from stash.ledger.whole import whole
from stash.model import Outline

CELL = 100.0
SIDES = 10
LINES_MM = [n * CELL for n in range(SIDES + 1)]
ALL = shapely.box(*np.array([
    (x0, y0, x1, y1) for x0, y0, x1, y1 in product(LINES_MM, repeat=4) if x0 < x1 and y0 < y1
]).T)
"""Every rectangle on the grid."""

bites = st.lists(
    st.builds(
        lambda end, edge, long, wide: Bite(
            end=end, edge=edge, length_mm=long * CELL, width_mm=wide * CELL),
        st.sampled_from(End), st.sampled_from(LongSide), st.integers(1, 5), st.integers(1, 5)),
    min_size=1, max_size=3)


def by_hand_mm2(outline: Outline) -> float:
    """Every rectangle on the grid tried: the largest that lies inside."""
    shape = polygon(outline).buffer(1e-6)
    shapely.prepare(shape)
    fitting = ALL[shapely.covers(shape, ALL)]
    return float(shapely.area(fitting).max()) if len(fitting) else 0.0


@settings(max_examples=12, deadline=None)
@given(bites)
def test_it_is_the_largest_on_a_grid_where_every_corner_lies_on_the_grid(taken):
    """A metre square with up to three corners gone: all 3,025 rectangles are tried."""
    try:
        outline = bitten(Outline.rectangle(1000.0, 1000.0), taken)
    except (InvalidInput, Conflict):
        return
    assert whole(outline).area_mm2 == pytest.approx(by_hand_mm2(outline))


@settings(max_examples=25, deadline=None)
@given(st.lists(st.tuples(st.integers(0, 1000), st.integers(0, 1000)), min_size=3, max_size=12))
def test_it_lies_inside_whatever_the_outline(points):
    """Also where edges run askew, and no less than the grid finds, but for a sliver."""
    from shapely.geometry import MultiPoint

    hull = MultiPoint(points).convex_hull
    if hull.geom_type != "Polygon" or hull.area < 20_000:
        return
    outline = Outline(tuple(hull.exterior.coords[:-1]))
    found = whole(outline)
    inside = box(found.x_mm, found.y_mm, found.x_mm + found.length_mm,
                 found.y_mm + found.width_mm)
    assert polygon(outline).buffer(1e-3).covers(inside)
    assert found.area_mm2 >= 0.97 * by_hand_mm2(outline)


def test_the_largest_rectangle_in_a_triangle_is_half_of_it():
    """Polya: the largest rectangle in a triangle covers half, standing on a side at half height."""
    triangle = Outline(((0, 0), (1000, 0), (0, 600)))
    found = whole(triangle)
    assert found.area_mm2 == pytest.approx(triangle.area_mm2 / 2, rel=0.01)
    assert (found.length_mm, found.width_mm) == pytest.approx((500, 300), rel=0.08)


def test_a_hole_is_not_bridged():
    """A flaw in the middle of a square metre leaves a strip beside it."""
    flawed = bitten(Outline.rectangle(1000.0, 1000.0), [
        Bite(length_mm=200.0, width_mm=200.0, from_near_mm=400.0, from_right_mm=400.0)])
    assert whole(flawed).area_mm2 == pytest.approx(1000.0 * 400.0)


@given(st.floats(10, 990), st.floats(10, 990), st.sampled_from(End), st.sampled_from(LongSide))
def test_a_bite_takes_exactly_its_own_area(long, wide, end, edge):
    """Wherever the corner lies; against the area as reckoned by hand."""
    square = Outline.rectangle(1000.0, 1000.0)
    left = bitten(square, [Bite(end=end, edge=edge, length_mm=long, width_mm=wide)])
    assert left.area_mm2 == pytest.approx(1e6 - long * wide, rel=1e-9)


def test_left_and_right_are_as_one_looks_along_the_cloth():
    """From the near end to the far one, face up: y grows to the left."""
    corner = bitten(Outline.rectangle(1000.0, 800.0), [
        Bite(end=End.FAR, edge=LongSide.LEFT, length_mm=400.0, width_mm=300.0)])
    assert (1000.0, 800.0) not in corner.ring_mm
    assert {(600.0, 800.0), (600.0, 500.0), (1000.0, 500.0)} <= set(corner.ring_mm)


@pytest.mark.parametrize("bite", [
    Bite(), Bite(length_mm=0.0), Bite(length_mm=100.0, from_near_mm=2000.0),
    Bite(length_mm=1000.0), Bite(length_mm=100.0, from_near_mm=300.0),
])
def test_a_bite_that_cannot_be_is_refused(bite):
    """No size, beside the cloth, all of it, or the cloth in two."""
    with pytest.raises((InvalidInput, Conflict)):
        bitten(Outline.rectangle(1000.0, 1000.0), [bite])
