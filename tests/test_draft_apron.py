"""The apron against published cut sizes, and over real bodies."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from stash.draft.apron import GARMENT, armhole, size_for
from stash.draft.body import complete
from stash.draft.catalogue import about, draft
from stash.model import NotionKind

INCH = 25.4
ESTIMATES = ("waist", *about("apron").estimates)


def cut(pattern) -> dict[str, tuple[int, float, float]]:
    """Quantity, length and width of each piece, inches to the hundredth."""
    sizes = {}
    for piece in pattern.pieces:
        x0, y0, x1, y1 = Polygon(piece.outline_mm).bounds
        sizes[piece.name] = (
            piece.quantity, round((x1 - x0) / INCH, 2), round((y1 - y0) / INCH, 2)
        )
    return sizes


def test_the_gathered_apron_has_the_published_cut_sizes():
    """Belt waist + 3 in by 2 1/2 in, cut twice; bib 9 by 12 in; skirt its length and 6 in.

    Source: Ontario Teachers' Manuals, Household Science in Rural Schools (1918), Lesson
    XI, 1/4 in seams included; waist of 26 in from Burton, School Sewing (1916).
    """
    sewn = draft(
        "apron", {"waist": 26 * INCH},
        {"style": "gathered", "seam": 0.25 * INCH, "length": 25 * INCH, "hem": 95.0},
    )
    sizes = cut(sewn)

    assert sizes["belt"] == (2, 29.0, 2.5)
    assert sizes["bib"] == (1, 9.0, 12.0)
    assert sizes["strap"][2] == 4.5
    assert 25 + 3 <= sizes["skirt"][1] <= 25 + 6
    assert sizes["skirt"][2] == 36


def test_a_kitchen_apron_comes_out_of_a_yard_of_36_inch_cloth():
    """With tape for its ties, as published: 1 yd and tape.

    Source: Burton, School Sewing (1916), kitchen apron.
    """
    sizes = cut(draft("apron", {"waist": 26 * INCH}, {"ties": "tape", "pockets": "none"}))

    assert set(sizes) == {"apron"}
    assert sizes["apron"][1] <= 36
    assert sizes["apron"][2] <= 36


def test_tape_ties_become_a_need_instead_of_pieces():
    """Two ties and a neck loop, ends turned in."""
    taped = draft("apron", {"waist": 780.0}, {"ties": "tape"})
    tape = next(n for n in taped.notions if n.kind is NotionKind.TAPE)

    assert tape.length_mm == pytest.approx(2 * 702 + size_for(
        complete({"waist": 780.0}, ESTIMATES), GARMENT.read_options({})).neck_loop + 40)


def test_a_childs_apron_warns_of_its_ties_but_not_of_sleep():
    """16 CFR 1120.3, ASTM F1816."""
    cautions = draft("apron", {"waist": 540.0, "height": 1160.0}).cautions

    assert len(cautions) == 1
    assert "strangle" in cautions[0]


BODIES = st.one_of(
    st.floats(710, 1040).map(lambda waist: complete({"waist": waist}, ESTIMATES, "women")),
    st.floats(750, 1160).map(lambda waist: complete({"waist": waist}, ESTIMATES, "men")),
    st.floats(800, 1640).map(lambda tall: complete({"height": tall}, ESTIMATES, "children")),
)


@given(BODIES, st.data())
@settings(max_examples=60, deadline=None)
def test_every_apron_is_whole_and_goes_over_the_head(body, data):
    """Waists from ANSUR II's 5th to 95th percentile, children by height."""
    options = {
        o.name: data.draw(st.sampled_from(o.words))
        for o in about("apron").options if hasattr(o, "words")
    }
    measured = {k: v for k, v in body.values.items() if k != "chest"}
    size = size_for(body, GARMENT.read_options({}))

    assert all(
        Polygon(p.outline_mm).is_valid for p in draft("apron", measured, options, body.kind).pieces
    )
    assert size.neck_loop + 2 * size.bib_half >= body["head"] + 40 - 1e-6
    assert armhole(size)[0] == (0.0, size.bib_half)
    assert 2 * size.half < body["hip"]
