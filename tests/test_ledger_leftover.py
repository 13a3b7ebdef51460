"""What is left after cutting out is true to its shape, and only what is worth it gets a label."""

from __future__ import annotations

import pytest
import shapely
from hypothesis import example, given
from hypothesis import strategies as st
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from stash.ledger.leftover import GRID_MM, REMNANT_MM, leftover
from stash.ledger.shapes import checked, polygon
from stash.model import Outline

CLOTH = Outline.rectangle(3000.0, 1400.0)
EDGE_MM2 = GRID_MM * 5000
"""Five metres of edge, off by one step of the grid."""


def test_a_lay_over_the_full_width_leaves_the_far_end():
    """1.80 m used of 3.00 m: a straight 1.20 m is left."""
    left = leftover(CLOTH, [box(0, 0, 1800, 1400)])
    assert left.rest.bounds_mm == (1800, 0, 3000, 1400)
    assert left.rest.is_rectangle
    assert (left.remnants, left.waste_mm2) == ((), pytest.approx(0))


def test_a_piece_along_one_selvedge_leaves_an_l_shape():
    """The strip beside the piece stays on the rest: 60 cm wide, 1.80 m long."""
    left = leftover(CLOTH, [box(0, 0, 1800, 800)])
    assert left.rest.area_mm2 == pytest.approx(3000 * 1400 - 1800 * 800)
    assert left.rest.length_mm == 3000


def test_a_strip_too_narrow_to_use_is_waste():
    """2 cm beside the piece is not kept; the rest is straight."""
    left = leftover(CLOTH, [box(0, 0, 1800, 1380)])
    assert left.rest.is_rectangle
    assert left.rest.length_mm == pytest.approx(1200)
    assert left.waste_mm2 == pytest.approx(1800 * 20)


def test_a_piece_of_cloth_between_two_pieces_becomes_a_remnant():
    """A gap of 40 cm over the full width, cut off from the rest by the second piece."""
    left = leftover(CLOTH, [box(0, 0, 600, 1400), box(1000, 0, 1800, 1400)])
    assert [r.bounds_mm for r in left.remnants] == [(600, 0, 1000, 1400)]


def test_nothing_is_left_when_all_is_used():
    """Not even a remnant."""
    left = leftover(CLOTH, [box(0, 0, 2950, 1400)])
    assert (left.rest, left.remnants) == (None, ())


def test_flaws_stay_in_what_is_left():
    """A hole in the far end is still there."""
    flaw = ((2500.0, 500.0), (2600.0, 500.0), (2600.0, 600.0))
    left = leftover(Outline(CLOTH.ring_mm, (flaw,)), [box(0, 0, 1000, 1400)])
    assert len(left.rest.holes_mm) == 1


triangles = st.lists(
    st.tuples(st.floats(0, 2400), st.floats(0, 1000), st.floats(100, 600), st.floats(100, 400)),
    min_size=1, max_size=8,
)


@given(triangles)
@example([(0.0, 0.0, 100.0, 100.0), (0.0625, 0.0, 100.0, 100.0)])
@example([(0.0, 0.125, 100.0, 100.0), (4.0e-191, 1.2e-287, 100.0, 100.0)])
@example([(0.0, 1.0, 100.0, 100.0), (4.0e-191, 1.2e-287, 100.0, 100.0)])
def test_no_leftover_takes_cloth_that_was_cut(corners):
    """Whatever the pieces: leftovers lie in the cloth, off every piece and off each other."""
    pieces = [Polygon([(x, y), (x + w, y), (x, y + h)]) for x, y, w, h in corners]
    left = leftover(CLOTH, pieces)
    parts = [polygon(checked(o)) for o in (left.rest, *left.remnants) if o]
    used = shapely.union_all(shapely.set_precision(pieces, 0.001))
    assert all(part.intersection(used).area < EDGE_MM2 for part in parts)
    assert all(part.difference(polygon(CLOTH)).area < EDGE_MM2 for part in parts)
    assert unary_union(parts).area == pytest.approx(sum(p.area for p in parts), abs=EDGE_MM2)
    assert all(not part.buffer(-REMNANT_MM / 2 + 1).is_empty for part in parts)
    whole = polygon(CLOTH).area
    assert sum(p.area for p in parts) + left.waste_mm2 + used.area == pytest.approx(whole, rel=1e-4)
