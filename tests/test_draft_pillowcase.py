"""The pillowcase against published cut sizes."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon

from stash.draft.catalogue import draft

INCH = 25.4


def cut(pattern) -> dict[str, tuple[float, float]]:
    """Length and width of each piece, mm."""
    sizes = {}
    for piece in pattern.pieces:
        x0, y0, x1, y1 = Polygon(piece.outline_mm).bounds
        sizes[piece.name] = (pytest.approx(x1 - x0), pytest.approx(y1 - y0))
    return sizes


def test_the_bordered_one_has_the_published_cut_sizes():
    """Body 26 1/2 x 40 1/2 in and border 10 1/2 x 40 1/2 in with 1/2 in seams.

    Source: bluetopquiltshop.com, standard pillowcase pattern.
    """
    sewn = draft(
        "pillowcase", {},
        {"opening": "border", "length": 30.25 * INCH, "width": 19.75 * INCH,
         "flap": 4.75 * INCH, "seam": 0.5 * INCH},
    )

    assert cut(sewn) == {
        "body": (26.5 * INCH, 40.5 * INCH), "border": (10.5 * INCH, 40.5 * INCH),
    }


def test_the_flapped_one_is_cut_54_by_170_cm():
    """50 x 75 cm finished: common practice, no source; seams 2 cm, flap 16 cm."""
    sewn = draft("pillowcase", {}, {"seam": 20, "hem": 20, "flap": 160})

    assert cut(sewn) == {"pillowcase": (1700, 540)}


@given(st.floats(200, 1500), st.floats(200, 1200), st.floats(50, 400))
def test_a_flap_costs_its_own_depth(long, wide, flap):
    """Against the plain one, whatever the pillow."""
    size = {"length": long, "width": wide, "flap": flap}
    plain, flapped = (
        Polygon(draft("pillowcase", {}, {**size, "opening": o}).pieces[0].outline_mm).bounds
        for o in ("plain", "flap")
    )

    assert (flapped[2] - flapped[0]) - (plain[2] - plain[0]) == pytest.approx(flap)
