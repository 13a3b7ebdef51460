"""Straight, A-line and circle skirts, checked as a cutter checks them."""

from __future__ import annotations

import re
from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from stash.draft import a_line_skirt, circle_skirt, straight_skirt
from stash.draft.body import Body, complete
from stash.draft.catalogue import draft
from stash.draft.geometry import length
from stash.draft.skirt_block import Skirt, draw_skirt
from stash.errors import InvalidInput
from stash.model import NotionKind, Outline, Role

bodies = st.builds(
    lambda hip, share: ({"hip": hip, "waist": hip * share}, "women"),
    st.floats(850, 1350), st.floats(0.62, 1.05),
) | st.builds(
    lambda hip, share: ({"hip": hip, "waist": hip * share}, "children"),
    st.floats(560, 880), st.floats(0.75, 1.0),
)
flares = st.sampled_from([0.0, 40.0, 70.0, 150.0])


def drawn(body, flare: float, waist: str) -> tuple[Skirt, Body]:
    """The quarters of a skirt before allowances, and the completed body."""
    measured, kind = body
    garment = a_line_skirt.GARMENT
    whole = complete(measured, (*garment.measurements, *garment.estimates), kind)
    return draw_skirt(whole, garment.read_options({"waist": waist}), flare), whole


@settings(max_examples=50, deadline=None)
@given(bodies, flares, st.sampled_from(["fitted", "elastic"]))
def test_sides_meet_and_the_skirt_goes_round_the_hip(body, flare, waist):
    """Front and back sides are equally long; at hip and hem there is room for the hip."""
    skirt, whole = drawn(body, flare, waist)
    hip_round = 2 * (width_at(skirt.front, skirt.hip_down) + width_at(skirt.back, skirt.hip_down))

    assert length(skirt.front.side) == pytest.approx(length(skirt.back.side), abs=0.5)
    assert hip_round >= whole["hip"] + 45
    assert skirt.hem_mm >= whole["hip"] + 45


def width_at(quarter, down: float) -> float:
    """How far out the side is at a level below the waist."""
    for (x0, y0), (x1, y1) in zip(quarter.side, quarter.side[1:], strict=False):
        if x0 <= down <= x1:
            return y0 + (y1 - y0) * (down - x0) / ((x1 - x0) or 1)
    raise AssertionError(f"the side does not reach {down} mm")


@settings(max_examples=50, deadline=None)
@given(bodies, flares)
def test_a_fitted_waist_is_the_waist_and_1_cm(body, flare):
    """After the darts; what is under 2 mm a panel is eased onto the band."""
    skirt, whole = drawn(body, flare, "fitted")

    assert skirt.waist_mm == pytest.approx(whole["waist"] + 10, abs=8.1)


@settings(max_examples=50, deadline=None)
@given(bodies, flares)
def test_an_elastic_waist_passes_the_hips(body, flare):
    """What is pulled on opens at least as wide as hips and waist."""
    skirt, whole = drawn(body, flare, "elastic")

    assert skirt.waist_mm >= max(whole["hip"], whole["waist"])


def test_a_straight_skirt_has_a_vent_to_walk_in():
    """The backs are wider at the hem than at the hip by the vent's 4 cm."""
    back = next(
        p for p in draft("straight-skirt", {"hip": 1000, "waist": 780}).pieces if p.name == "back"
    )
    low = min(y for x, y in back.stitch_mm if x > 400)
    high = min(y for x, y in back.stitch_mm if x < 200)

    assert high - low == pytest.approx(40)
    assert back.quantity == 2


def test_an_elastic_a_line_needs_no_back_seam():
    """Front and back are both cut on the fold, and no zip is asked for."""
    pattern = draft("a-line-skirt", {"hip": 1000, "waist": 780}, {"waist": "elastic"})

    assert [(p.name, p.on_fold) for p in pattern.pieces] == [("front", True), ("back", True)]
    assert not [n for n in pattern.notions if n.kind is NotionKind.ZIP]


@pytest.mark.parametrize("name", ["straight-skirt", "a-line-skirt"])
def test_a_lining_is_cut_from_lining(name: str):
    """Its pieces have that role, and no hem allowance."""
    pattern = draft(name, {"hip": 1000, "waist": 780}, {"lining": "full"})

    lining = {p.name: p for p in pattern.pieces if p.role is Role.LINING}
    front = next(p for p in pattern.pieces if p.name == "front")

    assert set(lining) == {"front lining", "back lining"}
    assert Outline(front.outline_mm).bounds_mm[2] - 50 == pytest.approx(
        Outline(lining["front lining"].outline_mm).bounds_mm[2]
    )


@pytest.mark.parametrize(("fullness", "radius"), [("full", 780 / (2 * pi)), ("half", 780 / pi)])
def test_radius_of_the_waist(fullness: str, radius: float):
    """A full circle's is waist/(2 pi), a half circle's waist/pi: arithmetic, as at
    numberjacqui.com (2016).
    """
    garment = circle_skirt.GARMENT
    body = complete({"hip": 1000, "waist": 780}, garment.estimates, "women")

    circle = circle_skirt.draw(body, garment.read_options({"fullness": fullness}))

    assert circle.waist_radius == pytest.approx(radius)


@pytest.mark.parametrize("fullness", ["full", "half"])
@pytest.mark.parametrize("panels", ["halves", "quarters"])
def test_the_panels_make_the_whole_ring(fullness: str, panels: str):
    """Area between the stitching lines of all panels is the ring's, within the flattening."""
    chosen = {"fullness": fullness, "panels": panels, "length": 600}
    pattern = draft("circle-skirt", {"hip": 1000, "waist": 780}, chosen)
    skirt = next(p for p in pattern.pieces if p.name == "skirt")
    whole = 2 * pi if fullness == "full" else pi
    radius = 780 / whole

    sewn = Polygon(skirt.stitch_mm).area * skirt.quantity

    assert sewn == pytest.approx(whole / 2 * ((radius + 600) ** 2 - radius**2), rel=2e-3)


@pytest.mark.parametrize("name", ["straight-skirt", "a-line-skirt"])
def test_a_skirt_shorter_than_the_hips_is_refused(name: str, sentence):
    """The sentence says from which length it can be drafted."""
    with pytest.raises(InvalidInput) as refused:
        draft(name, {"hip": 1000, "waist": 780}, {"length": "21 cm"})
    assert re.search("ends above the hips", sentence(refused.value))

    assert "ends above the hips" in sentence(refused.value)


def test_skirts_share_their_measurements():
    """Hip and waist are all that is asked for."""
    modules = (straight_skirt, a_line_skirt, circle_skirt)

    assert {m.GARMENT.measurements for m in modules} == {("hip", "waist")}
