"""A cut as it was really cut: what is left is what was drawn, never more than there was."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from stash.errors import InvalidInput
from stash.ledger.bites import End
from stash.ledger.shapes import polygon
from stash.model import Cloth, Cut, Outline
from stash.store import open_stash
from stash.workroom.as_cut import cut_across, cut_along
from stash.workroom.history import undo

LONG_MM, WIDE_MM = 2000.0, 1400.0


@pytest.fixture
def stash(tmp_path):
    """An empty record."""
    with open_stash(tmp_path) as opened:
        yield opened


@pytest.fixture
def code(stash):
    """Two metres of cloth."""
    return stash.cuts.receive(Cut(
        code="", cloth=Cloth(name="Dune linen"),
        outline=Outline.rectangle(LONG_MM, WIDE_MM))).code


def test_straight_across_the_part_taken_is_gone(stash, code):
    """At 1.2 m with the near part taken, 0.8 m is left; with the far part, 1.2 m."""
    near = cut_across(stash, code, 1200.0, End.NEAR)
    assert near.now.cut.length_mm == pytest.approx(800.0)
    undo(stash, near.event.id)
    assert cut_across(stash, code, 1200.0, End.FAR).now.cut.length_mm == pytest.approx(1200.0)


def test_a_ragged_end_is_kept_as_drawn(stash, code):
    """A slanted cut: the area left is that of the ring inside the cloth."""
    ring = ((0.0, 0.0), (1500.0, 0.0), (1200.0, WIDE_MM), (0.0, WIDE_MM))
    left = cut_along(stash, code, ring).now.cut.outline
    assert left.area_mm2 == pytest.approx(Polygon(ring).area, rel=1e-9)


def test_what_comes_apart_is_a_remnant_of_its_own(stash, code):
    """Below the notch of a U only its two feet are left."""
    stash.cuts.remeasure(code, Outline(((0, 0), (800, 0), (800, 600), (1200, 600), (1200, 0),
                                        (2000, 0), (2000, 1400), (0, 1400))))
    apart = cut_along(stash, code, ((0, 0), (2000, 0), (2000, 500), (0, 500)))
    [remnant] = apart.event.arrivals
    assert {apart.now.cut.outline.area_mm2, stash.cuts.get(remnant).outline.area_mm2} == {
        800.0 * 500.0}


def test_a_ring_that_crosses_itself_is_refused(stash, code):
    """In words, and nothing is recorded."""
    with pytest.raises(InvalidInput):
        cut_along(stash, code, ((0, 0), (100, 100), (0, 100), (100, 0)))
    assert stash.cuts.get(code).length_mm == LONG_MM


@given(corners=st.lists(st.tuples(
    st.floats(0, LONG_MM), st.floats(0, WIDE_MM)), min_size=3, max_size=8))
@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
def test_no_drawing_adds_cloth(stash, corners):
    """Whatever is drawn: refused in words, or less than before and undone exactly."""
    cut = stash.cuts.receive(Cut(
        code="", cloth=Cloth(name="Dune linen"),
        outline=Outline.rectangle(LONG_MM, WIDE_MM))).code
    before = stash.ledger.cached()
    try:
        done = cut_along(stash, cut, corners)
    except InvalidInput:
        assert stash.ledger.cached() == before
        return
    left = polygon(done.now.cut.outline).area + sum(
        stash.cuts.get(code).outline.area_mm2 for code in done.event.arrivals)
    assert left < LONG_MM * WIDE_MM
    undo(stash, done.event.id)
    assert stash.ledger.cached() == before
