"""What cutting does to an outline, checked by shapely where it is not a rectangle."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon, box

from stash.errors import Conflict, InvalidInput
from stash.ledger.shapes import at_origin, checked, scaled, shortened, without_stretch
from stash.model import Outline

BITTEN = Outline(((0, 0), (950, 0), (950, 1400), (400, 1400), (400, 850), (0, 850)))
"""0.95 x 1.40 m with a corner of 40 x 55 cm gone."""


@given(st.lists(st.floats(1, 900), min_size=1, max_size=12))
def test_lengths_add_up_exactly_in_millimetres(cuts):
    """However many lengths are cut off, cut and remainder are the whole."""
    whole = Outline.rectangle(20_000.0, 1400.0)
    left = whole
    for length in cuts:
        left = shortened(left, left.length_mm - length)
    assert left.length_mm == pytest.approx(20_000.0 - sum(cuts), abs=1e-6)
    assert left.width_mm == 1400.0


@given(st.floats(1, 949))
def test_a_remnant_is_shortened_as_shapely_would(left_mm):
    """The area kept is that of the remnant before the line of the cut."""
    shape = Polygon(BITTEN.ring_mm)
    kept = shortened(BITTEN, left_mm)
    assert kept.area_mm2 == pytest.approx(shape.intersection(box(0, 0, left_mm, 1400)).area)


def test_a_cut_that_would_fall_apart_is_refused(sentence):
    """A fork whose base is cut off has two prongs: two pieces, not one."""
    prongs = ((0, 600), (700, 600), (700, 300), (0, 300))
    fork = Outline(((0, 0), (900, 0), (900, 900), (0, 900), *prongs))
    with pytest.raises(Conflict) as refused:
        shortened(fork, 500.0)
    assert re.search("falls apart", sentence(refused.value))


def test_holes_stay_where_they_are():
    """A flaw before the line of the cut remains; one after it is gone."""
    flawed = Outline(
        Outline.rectangle(2000, 1000).ring_mm,
        (((100, 100), (200, 100), (200, 200)), ((1500, 100), (1600, 100), (1600, 200))),
    )
    assert len(shortened(flawed, 1000.0).holes_mm) == 1


def test_shrinking_scales_each_way_by_its_own():
    """2 m x 1 m at 0.95 and 0.98."""
    assert scaled(Outline.rectangle(2000, 1000), 0.95, 0.98).bounds_mm == (0, 0, 1900, 980)


def test_an_outline_is_moved_to_the_start_of_the_cloth():
    """Its size does not change."""
    away = Outline(((500, 20), (900, 20), (900, 320), (500, 320)))
    assert at_origin(away) == Outline.rectangle(400, 300)


def test_the_stretch_between_two_holds_can_be_free():
    """Of two stretches left the larger counts; none when all is held."""
    whole = Outline.rectangle(3000, 1000)
    assert without_stretch(whole, 500, 1200).bounds_mm[:3:2] == (1200, 3000)
    assert without_stretch(whole, 0, 3000) is None
    assert without_stretch(BITTEN, 0, 400).bounds_mm == (400, 0, 950, 1400)


@pytest.mark.parametrize(
    "ring",
    [
        ((0, 0), (100, 100), (100, 0), (0, 100)),
        ((0, 0), (100, 0)),
        ((0, 0), (float("nan"), 0), (100, 100)),
        ((0, 0), (1e12, 0), (100, 100)),
        ((0, 0), (0, 0), (100, 0), (100, 100)),
        ((0, 0), (100, 0), (200, 0)),
    ],
)
def test_what_is_not_an_outline_is_refused(ring):
    """Crossing itself, too few corners, not a number, beyond a kilometre, no area."""
    with pytest.raises(InvalidInput):
        checked(Outline(ring))
