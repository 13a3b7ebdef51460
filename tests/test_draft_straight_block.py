"""Robe and nightshirt over real bodies: seams meet, the head and hands pass, cloth goes round."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon

from stash.draft.body import complete
from stash.draft.body_table import percentile
from stash.draft.catalogue import about, draft
from stash.draft.nightshirt import GARMENT as NIGHTSHIRT
from stash.draft.nightshirt import neck_for
from stash.draft.nightshirt import panels as nightshirt_panels
from stash.draft.robe import GARMENT as ROBE
from stash.draft.robe import belt_mm, front_edge
from stash.draft.robe import body_panels as robe_panels
from stash.draft.straight_block import ESTIMATES, StraightOptions, straight_block

INCH = 25.4


def between(kind: str, name: str) -> st.SearchStrategy[float]:
    """From the 5th to the 95th percentile of ANSUR II (2012 survey, public files)."""
    return st.floats(percentile(kind, name, "p05"), percentile(kind, name, "p95"))


def adults(kind: str) -> st.SearchStrategy:
    """A body of the survey, girths and height independent of each other."""
    names = ("bust", "hip", "waist", "height", "neck_base", "arm_length")
    return st.fixed_dictionaries({n: between(kind, n) for n in names}).map(
        lambda known: complete(known, ESTIMATES, kind)
    )


CHILDREN = st.floats(800, 1640).map(lambda tall: complete({"height": tall}, ESTIMATES, "children"))
BODIES = st.one_of(adults("women"), adults("men"), CHILDREN)
SLEEVES = st.sampled_from(("long", "short"))


def block_of(body, sleeve="long", ease=200.0):
    """The block at the usual length."""
    return straight_block(body, ease, 0.6 * body["height"], sleeve, StraightOptions())


def test_the_width_at_the_underarm_is_baldts():
    """CH = bust/4 + 2 in from the centre, with 8 in of ease in all.

    Source: L. I. Baldt, Clothing for Women (1916), Fig. 60 (kimono gown).
    """
    body = complete({"bust": 36 * INCH, "hip": 36 * INCH}, ESTIMATES, "women")

    assert block_of(body, ease=8 * INCH).underarm[1] == pytest.approx(9 * INCH + 2 * INCH)


def test_two_lengths_make_a_nightgown_as_published():
    """55 in shoulder to floor and a 3 in hem took 2 x 58 = 116 in, from cloth 36 in wide or more.

    Source: Kinne and Cooley, Clothing and Health (1916), Lesson 2. Ours has shoulder
    seams, four allowances more at most.
    """
    body = {"bust": 32 * INCH, "hip": 34 * INCH, "height": 66 * INCH}
    sewn = draft("nightshirt", body, {"length": 55 * INCH, "hem": 3 * INCH, "ease": 150})
    back, front = (Polygon(p.outline_mm).bounds for p in sewn.pieces[:2])
    lengths = [x1 - x0 for x0, _, x1, _ in (back, front)]

    assert 116 * INCH - 2 * 20 <= sum(lengths) <= 116 * INCH + 4 * 15
    assert all(y1 - y0 <= 36 * INCH for _, y0, _, y1 in (back, front))


@given(BODIES, SLEEVES)
@settings(max_examples=60, deadline=None)
def test_seams_that_meet_are_equal(body, sleeve):
    """Side to side, shoulder to shoulder, and the sleeve round both armholes without ease."""
    block = block_of(body, sleeve)
    edge, neck = front_edge(block, body), neck_for(body, block)
    shirt = {p.name: p for p in nightshirt_panels(block, neck, NIGHTSHIRT.read_options({}))}
    robe = {p.name: p for p in robe_panels(block, edge, ROBE.read_options({}))}

    for panels in (shirt, robe):
        for seam in ("shoulder", "side", "armhole"):
            assert panels["front"].length(seam) == pytest.approx(panels["back"].length(seam))
        assert panels["sleeve"].length("armhole") == pytest.approx(panels["back"].length("armhole"))
    assert shirt["front facing"].length("neck") == pytest.approx(shirt["front"].length("neck"))
    assert shirt["back facing"].length("neck") == pytest.approx(shirt["back"].length("neck"))


@given(BODIES, SLEEVES)
@settings(max_examples=60, deadline=None)
def test_head_hands_and_body_pass(body, sleeve):
    """The neck and slit over the head, the cuff over the hand, cloth round bust and hip."""
    block = block_of(body, sleeve)

    assert neck_for(body, block).opens_mm >= body["head"] + 20 - 1e-6
    assert 2 * block.cuff_mm >= body["wrist"] + 100 - 1e-6
    assert 4 * block.underarm[1] >= max(body["bust"], body["hip"]) + 200 - 1e-6
    assert 2 * block.armhole_mm >= body["upper_arm"] + 100


@given(BODIES)
@settings(max_examples=60, deadline=None)
def test_a_long_sleeve_reaches_the_wrist(body):
    """Along shoulder seam and sleeve, from neck point to wrist, as on the body."""
    block = block_of(body)
    reach = LineString([block.neck, block.shoulder]).length + block.sleeve_mm

    assert reach == pytest.approx(body["shoulder"] + body["arm_length"])


@given(BODIES)
@settings(max_examples=60, deadline=None)
def test_the_robe_laps_and_its_belt_goes_round(body):
    """Each front passes the centre by a tenth of the bust; the belt leaves ends to tie."""
    edge = front_edge(block_of(body), body)
    lap = -edge[0][1]

    assert lap == pytest.approx(0.1 * body["bust"])
    assert edge[-1] == block_of(body).neck
    assert belt_mm(body) >= body["waist"] + 450


@given(BODIES, st.data())
@settings(max_examples=80, deadline=None)
def test_every_piece_is_whole_whatever_the_options(body, data):
    """One simple outline each, symmetrical where it is cut on the fold."""
    name = data.draw(st.sampled_from(("robe", "nightshirt")))
    options = {
        o.name: data.draw(st.sampled_from(o.words))
        for o in about(name).options if hasattr(o, "words")
    }
    options |= {"seam": data.draw(st.sampled_from((0, 6, 15, 30)))}
    options |= {"hem": data.draw(st.sampled_from((0, 20, 120)))}
    measured = {k: v for k, v in body.values.items() if k != "chest"}

    for piece in draft(name, measured, options, body.kind).pieces:
        shape = Polygon(piece.outline_mm)
        assert shape.is_valid
        assert shape.area > 1000
        assert shape.buffer(0.2).covers(Polygon(piece.stitch_mm))
        if piece.on_fold:
            other = Polygon([(x, -y) for x, y in piece.outline_mm])
            assert shape.symmetric_difference(other).area < 1.0
