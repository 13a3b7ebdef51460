"""Uncut cloth is a garment too."""

from __future__ import annotations

import pytest
from shapely import Polygon

from stash.draft.catalogue import draft


def test_an_uncut_wrapper_is_two_yards_of_its_cloth_and_needs_nothing():
    """1.83 m, worn from selvedge to selvedge: common practice, no source."""
    worn = draft("wrap", {})

    assert Polygon(worn.pieces[0].outline_mm).bounds == pytest.approx((0, 0, 1830, 1100))
    assert worn.notions == ()
    assert worn.seams == ()


@pytest.mark.parametrize(
    ("edge", "length_mm", "width_mm"),
    [("uncut", 1800, 350), ("ends", 1830, 350), ("all round", 1830, 380)],
)
def test_hems_are_added_only_where_they_are_sewn(edge, length_mm, width_mm):
    """15 mm at each hemmed edge of a scarf."""
    x0, y0, x1, y1 = Polygon(
        draft("wrap", {}, {"style": "scarf", "edge": edge}).pieces[0].outline_mm
    ).bounds

    assert (x1 - x0, y1 - y0) == pytest.approx((length_mm, width_mm))


def test_a_length_and_width_of_her_own_are_kept():
    """2.5 m by 1.5 m."""
    own = draft("wrap", {}, {"length": "2.5 m", "width": "150 cm"})

    assert Polygon(own.pieces[0].outline_mm).area == pytest.approx(2500 * 1500)
