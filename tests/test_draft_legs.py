"""Trousers and shorts, checked as a cutter checks them and against published drafts."""

from __future__ import annotations

import csv
from math import hypot
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stash.draft import shorts, trousers
from stash.draft.body import complete
from stash.draft.body_table import thigh_p95
from stash.draft.catalogue import draft
from stash.draft.geometry import length
from stash.draft.leg import Leg, front_points
from stash.draft.legs import Legs
from stash.draft.trouser_waist import leg_for, seat_ease
from stash.errors import InvalidInput
from stash.model import Outline

GOLDEN = Path(__file__).parent / "golden"
INCH = 25.4


def rosenfeld_front() -> dict[str, tuple[float, float]]:
    """His points, inches: across from the side, down from the hip line."""
    text = (GOLDEN / "rosenfeld_1918_lesson_411_front.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(text.splitlines()[1:])
    return {r["point"]: (float(r["x_in"]), float(r["y_in"])) for r in rows}


@pytest.mark.parametrize("point", ["A", "B", "C", "H", "I", "J", "R", "X", "P", "Q", "U"])
def test_the_front_is_rosenfelds_point_by_point(point: str):
    """Rosenfeld (1918), Lesson 411, hip 43, waist 25, rise 12, length 26 in.

    V and T are left out: his bloomers fall straight from the fork, our legs taper.
    """
    leg = Leg(
        hip=43 * INCH, rise=12 * INCH, hem_down=26 * INCH, hem_girth=800,
        front_fullness=1.5 * INCH, back_fullness=0, front_waist=(25 / 4 + 2) * INCH,
        back_waist=300, front_fork=3.625 * INCH, seat_raise=60,
    )
    across_in, below_hip_in = rosenfeld_front()[point]

    down, across = front_points(leg)[point]

    assert (across / INCH, down / INCH - 12) == pytest.approx((across_in, below_hip_in), abs=1e-9)


def test_front_of_1911():
    """Rosenfeld (1911), Lesson 82: hip 42 gives 10 1/2 across and a fork of 2 5/8 in;
    a 16 in bottom gives a front 8 in wide about the crease, which lies in the middle of
    the crotch line; the knee is midway from crotch to hem, raised 2 in.
    """
    leg = Leg(
        hip=42 * INCH, rise=10 * INCH, hem_down=40 * INCH, hem_girth=16 * INCH,
        front_fullness=0, back_fullness=0, front_waist=250, back_waist=300,
        front_fork=42 * INCH / 16, seat_raise=60, hem_balance=0,
    )

    p = front_points(leg)

    assert p["H"][1] / INCH == pytest.approx(10.5)
    assert (p["I"][1] - p["H"][1]) / INCH == pytest.approx(2.625)
    assert p["crease"][1] == pytest.approx((p["U"][1] + p["I"][1]) / 2)
    assert (p["hem inside"][1] - p["hem side"][1]) / INCH == pytest.approx(8)
    assert (p["hem inside"][1] + p["hem side"][1]) / 2 == pytest.approx(p["crease"][1])
    assert p["knee"][0] / INCH == pytest.approx(10 + 30 / 2 - 2)


@pytest.mark.parametrize(("hip_in", "ease_in"), [(34, 0.5), (37, 0.75), (40, 1.0)])
def test_seat_ease(hip_in: float, ease_in: float):
    """NMSU Guide C-209: 1/2 in below a hip of 36 in, 3/4 in between, 1 in above 38 in."""
    assert seat_ease(hip_in * INCH) == pytest.approx(ease_in * INCH)


bodies = st.builds(
    lambda hip, share, kind: ({"hip": hip, "waist": hip * share}, kind),
    st.floats(850, 1350), st.floats(0.62, 1.1), st.sampled_from(["women", "men"]),
)
children = st.builds(
    lambda hip, share: ({"hip": hip, "waist": hip * share}, "children"),
    st.floats(560, 880), st.floats(0.72, 1.0),
)
garments = st.sampled_from([trousers, shorts])
waists = st.sampled_from(["elastic", "fitted"])


def drawn(module, body, **options) -> tuple[Legs, object]:
    """The lines of trousers or shorts before allowances, and the completed body."""
    measurements, kind = body
    wanted = (*module.GARMENT.measurements, *module.GARMENT.estimates)
    whole = complete(measurements, wanted, kind)
    return module.draw(whole, module.GARMENT.read_options(options)), whole


@settings(max_examples=60, deadline=None)
@given(garments, bodies | children, waists)
def test_seams_that_meet_are_equally_long(module, body, waist):
    """Front and back agree at the side and the inside leg within half a millimetre."""
    legs, _ = drawn(module, body, waist=waist)

    assert length(legs.back.side) == pytest.approx(length(legs.front.side), abs=0.5)
    assert length(legs.back.inside_leg) == pytest.approx(length(legs.front.inside_leg), abs=0.5)


@settings(max_examples=60, deadline=None)
@given(garments, bodies | children)
def test_an_elastic_waist_passes_the_hips(module, body):
    """What is pulled on opens at least as wide as hips and waist."""
    legs, whole = drawn(module, body)

    assert legs.waist_mm >= max(whole["hip"], whole["waist"])


@settings(max_examples=60, deadline=None)
@given(garments, bodies | children)
def test_a_fitted_waist_is_the_waist_and_2_cm(module, body):
    """After the darts the waistline is the waist with its ease, and never less."""
    legs, whole = drawn(module, body, waist="fitted")

    assert legs.waist_mm == pytest.approx(whole["waist"] + 20, abs=8)


def girth_at(legs: Legs, down: float) -> float:
    """Girth of a leg on the paper at a level below the waist: side to inside leg."""
    total = 0.0
    for d in (legs.front, legs.back):
        crossings = []
        for path in (d.side, d.inside_leg, d.crotch):
            for (x0, y0), (x1, y1) in zip(path, path[1:], strict=False):
                if min(x0, x1) <= down <= max(x0, x1) and x0 != x1:
                    crossings.append(y0 + (y1 - y0) * (down - x0) / (x1 - x0))
        total += max(crossings) - min(crossings)
    return total


@settings(max_examples=60, deadline=None)
@given(garments, bodies | children, waists)
def test_no_leg_is_smaller_than_the_95th_percentile_thigh(module, body, waist):
    """ANSUR II: thigh over hip, 95th percentile, and 2 cm of ease just below the crotch."""
    legs, whole = drawn(module, body, waist=waist)
    below_fork = max(legs.front.points["I"][0], legs.back.points["fork"][0]) + 1

    assert girth_at(legs, below_fork) >= thigh_p95(whole.kind, whole["hip"]) + 20


@pytest.mark.parametrize("module", [trousers, shorts])
def test_a_big_thigh_that_was_measured_has_room_too(module):
    """A thigh of 78 cm on a hip of 100 cm, far beyond the table, still gets its 2 cm."""
    measured = {"hip": 1000, "waist": 780, "thigh": 780}
    legs, _ = drawn(module, (measured, "women"))

    assert girth_at(legs, legs.back.points["fork"][0] + 1) >= 800


@settings(max_examples=60, deadline=None)
@given(bodies | children)
def test_the_hem_of_trousers_passes_the_heel(body):
    """Foot entry is the girth round heel and instep, its 95th percentile unless measured."""
    legs, whole = drawn(trousers, body)

    assert length(legs.front.hem) + length(legs.back.hem) >= whole["foot_entry"] + 10


@settings(max_examples=60, deadline=None)
@given(garments, bodies.filter(lambda body: 880 <= body[0]["hip"] <= 1200))
def test_the_crotch_seam_goes_round_the_seat(module, body):
    """Longer than the body's crotch length from the navel (ANSUR II medians by hip) plus
    4 cm for the higher waist at each end, and not half as long again; hips 88 to 120 cm,
    as far as the table goes.
    """
    measurements, kind = body
    legs, _ = drawn(module, body)
    crotch = length(legs.front.crotch) + length(legs.back.crotch)
    round_seat = complete(measurements, ["crotch_length"], kind)["crotch_length"]

    assert round_seat + 80 <= crotch <= 1.5 * round_seat


@settings(max_examples=60, deadline=None)
@given(garments, bodies | children, waists)
def test_the_back_is_wider_and_higher_than_the_front(module, body, waist):
    """Back fork further out, seat raised above the front and leaning in by up to hip/24,
    the crease common to both.
    """
    legs, _ = drawn(module, body, waist=waist)
    front, back = legs.front.points, legs.back.points

    assert back["fork"][1] > front["I"][1]
    assert back["K"][0] < front["X"][0]
    assert 0 < back["H"][1] - back["K"][1] <= legs.leg.hip / 24
    assert back["crease"] == front["crease"]


def test_cut_pieces_are_bigger_than_their_stitching_lines_by_the_allowance():
    """A 15 mm seam at the side, 40 mm at the hem, a casing of 25 mm elastic at the waist:
    25 + 6 mm deep and 6 mm turned in (SEW-lutions guideline 12.150).
    """
    front = draft("trousers", {"hip": 1000, "waist": 780}).pieces[0]
    cut, sewn = Outline(front.outline_mm), Outline(front.stitch_mm)

    assert sewn.bounds_mm[0] - cut.bounds_mm[0] == pytest.approx(37, abs=0.5)
    assert cut.bounds_mm[2] - sewn.bounds_mm[2] == pytest.approx(40)
    assert sewn.bounds_mm[1] - cut.bounds_mm[1] == pytest.approx(15, abs=0.5)


def test_a_hem_allowance_mirrors_the_leg_so_that_it_lies_flat_turned_up():
    """Corner of the hem allowance, mirrored in the hem line, lies on the side's cut edge."""
    front = draft("trousers", {"hip": 1000, "waist": 780}).pieces[0]
    hem_down = Outline(front.stitch_mm).bounds_mm[2]
    corners = [p for p in front.outline_mm if p[0] > hem_down + 39]
    at_fold = [p for p in front.outline_mm if abs(p[0] - hem_down) < 1e-6]

    spread = max(y for _, y in corners) - min(y for _, y in corners)

    assert len(corners) == len(at_fold) == 2
    assert spread > hypot(*(a - b for a, b in zip(*at_fold, strict=True)))


@pytest.mark.parametrize("garment", ["trousers", "shorts"])
def test_the_waistband_is_as_long_as_the_waist(garment: str):
    """A separate casing is sewn to the whole waist; pieced, its two halves make it."""
    measured = {"hip": 1000, "waist": 780}
    one = draft(garment, measured, {"waistband": "separate"})
    two = draft(garment, measured, {"waistband": "pieced"})
    module = {"trousers": trousers, "shorts": shorts}[garment]
    legs, _ = drawn(module, (measured, None), waistband="separate")

    whole = next(p for p in one.pieces if p.name == "waistband")
    half = next(p for p in two.pieces if p.name == "waistband")

    assert Outline(whole.outline_mm).length_mm == pytest.approx(legs.waist_mm + 30)
    assert half.quantity == 2
    assert Outline(half.outline_mm).length_mm == pytest.approx(legs.waist_mm / 2 + 30)


def test_longer_trousers_are_the_same_but_longer():
    """4 cm more length moves the hem 4 cm and leaves the seat alone."""
    usual, longer = (
        draft("trousers", {"hip": 1000, "waist": 780}, {"length": mm}) for mm in (1000, 1040)
    )

    grown = Outline(longer.pieces[0].outline_mm).length_mm

    assert grown - Outline(usual.pieces[0].outline_mm).length_mm == pytest.approx(40, abs=0.5)


@pytest.mark.parametrize(
    ("measured", "says"),
    [
        ({"hip": 1000, "waist": 100}, "waist of 10 cm"),
        ({"hip": 3000, "waist": 780}, "hip of 300 cm"),
        ({"hip": 1000, "waist": float("nan")}, "waist"),
        ({"hip": 900, "waist": 1300}, "waist of 130 cm does not belong to a hip of 90 cm"),
        ({"hip": 1000}, "waist"),
        ({"hip": 1000, "waist": 780, "hips": 1000}, "hips"),
        ({"hip": 1000, "waist": 780, "inside_leg": 2000}, "inside leg of 200 cm"),
    ],
)
def test_impossible_measurements_are_named(measured: dict, says: str, sentence):
    """One sentence with the measurement, its value and what can be used."""
    with pytest.raises(InvalidInput) as refused:
        draft("trousers", measured)

    assert says in sentence(refused.value)


@pytest.mark.parametrize(
    ("garment", "options", "says"),
    [
        ("trousers", {"leg_width": 250}, "does not pass the heel"),
        ("trousers", {"length": "20 cm"}, "length can be from"),
        ("shorts", {"length": 290}, "crotch line"),
        ("shorts", {"leg_width": 400}, "too tight for the thigh"),
        ("shorts", {"collar": "big"}, "no option “collar”"),
        ("shorts", {"waist": "loose"}, "elastic or fitted"),
    ],
)
def test_options_that_cannot_be_sewn_are_refused(garment: str, options: dict, says: str, sentence):
    """The sentence says what can be had instead."""
    with pytest.raises(InvalidInput) as refused:
        draft(garment, {"hip": 1000, "waist": 780}, options)

    assert says in sentence(refused.value)


def test_estimates_are_listed_and_a_measured_value_wins():
    """ANSUR II women with a hip of 98 to 102 cm: inside leg 78.0 cm at the median."""
    estimated = draft("trousers", {"hip": 1000, "waist": 780}, body="women")
    measured = draft("trousers", {"hip": 1000, "waist": 780, "inside_leg": 820}, body="women")

    assert estimated.measurements_mm["inside_leg"] == pytest.approx(780)
    assert "inside_leg" in estimated.estimated
    assert "inside_leg" not in measured.estimated
    assert leg_length(measured) - leg_length(estimated) == pytest.approx(40, abs=0.5)


def leg_length(pattern) -> float:
    """Length of the front's cutting outline along the grain."""
    return Outline(pattern.pieces[0].outline_mm).length_mm


def test_ease_is_shared_two_to_three():
    """The back gets the bigger share of the room round the hip."""
    body = complete({"hip": 1000, "waist": 780}, trousers.GARMENT.estimates, "women")

    leg = leg_for(body, trousers.GARMENT.read_options({"ease": 100}), hem_down=1000, hem_girth=440)

    assert (leg.front_fullness, leg.back_fullness) == pytest.approx((20, 30))
    assert leg.front_fork == pytest.approx(1000 / 16)


@pytest.mark.parametrize("garment", ["trousers", "shorts"])
def test_a_pattern_says_how_long_it_came_out(garment: str):
    """The length worked out by the draft is in its options, and asking for it changes nothing."""
    usual = draft(garment, {"hip": 1000, "waist": 780})

    asked = draft(garment, {"hip": 1000, "waist": 780}, {"length": usual.options["length"]})

    assert asked.pieces == usual.pieces
