"""Bodies: what is measured, what the open body tables say of the rest."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stash.draft.body import RANGE_MM, complete, how
from stash.draft.body_table import estimate, percentile, thigh_p95
from stash.draft.whose_table import likely_table
from stash.errors import InvalidInput

EVERYTHING = ("hip", "bust", "waist", "height", "inside_leg", "body_rise", "thigh", "neck_base",
              "back_width", "shoulder", "scye_depth", "back_waist", "arm_length", "upper_arm",
              "wrist", "head", "waist_to_hip", "foot_entry")


@pytest.mark.parametrize(
    ("kind", "hip", "name", "cm"),
    [
        ("women", 100, "inside_leg", 78.0), ("women", 100, "thigh", 60.1),
        ("women", 88, "bust", 83.2), ("men", 104, "bust", 107.7), ("men", 104, "height", 175.9),
        ("men", 84, "neck_base", 39.8),
    ],
)
def test_a_row_of_the_table_is_the_published_median(kind: str, hip: int, name: str, cm: float):
    """ANSUR II (US Army survey 2012, distribution unlimited), medians by 4 cm of hip."""
    body = complete({"hip": hip * 10}, [name], kind)

    assert body[name] == pytest.approx(cm * 10)


def test_between_two_rows_lies_the_middle():
    """ANSUR II women: thigh 60.1 at a hip of 100, 62.9 at 104; 61.5 at 102."""
    assert complete({"hip": 1020}, ["thigh"], "women")["thigh"] == pytest.approx(615)


def test_children_are_read_by_height():
    """Scandinavian tables (leenas.com; a second chart agrees): 116 cm tall, hip 66, waist 57."""
    body = complete({"height": 1160}, ["hip", "waist", "body_rise"], "children")

    assert (body["hip"], body["waist"], body["body_rise"]) == pytest.approx((660, 570, 190))


def test_a_child_outside_the_adult_table_is_known_by_its_size():
    """Below 1.50 m, or girths under the smallest adult row, the children's table serves."""
    assert likely_table({"height": 1310, "hip": 850}).kind == "children"
    assert likely_table({"hip": 700}).kind == "children"
    assert likely_table({"hip": 1000, "waist": 780}).kind == "women"
    assert likely_table({"hip": 1000, "waist": 950}).kind == "men"
    assert likely_table({"bust": 1000}, said_chest=True).kind == "men"


@settings(max_examples=100, deadline=None)
@given(
    st.tuples(st.sampled_from(["women", "men"]), st.floats(700, 1350))
    | st.tuples(st.just("children"), st.floats(520, 900)),
    st.sampled_from(["hip", "bust", "waist"]),
)
def test_an_estimated_body_is_one_that_can_be_drafted(known: tuple[str, float], name: str):
    """From one girth every measurement follows, each in the range a body can have, or nearly:
    beyond the tables' ends girths go on in proportion.
    """
    kind, mm = known

    body = complete({name: mm}, EVERYTHING, kind)

    for measure in EVERYTHING:
        least, most = RANGE_MM[measure]
        assert 0.7 * least <= body[measure] <= 1.3 * most, measure


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(["women", "men"]), st.floats(860, 1240), st.floats(0, 60))
def test_a_bigger_hip_has_a_bigger_thigh(kind: str, hip: float, more: float):
    """The tables rise."""
    assert estimate(kind, {"hip": hip + more})["thigh"] >= estimate(kind, {"hip": hip})["thigh"]


def test_a_tall_body_has_long_legs():
    """A height 10 % above the median of its hip lengthens the leg by 10 %."""
    usual = complete({"hip": 1000}, ["height", "inside_leg"], "women")
    tall = complete({"hip": 1000, "height": 1.1 * usual["height"]}, ["inside_leg"], "women")

    assert tall["inside_leg"] == pytest.approx(1.1 * usual["inside_leg"])


def test_percentiles_are_the_published_ones():
    """ANSUR II: women's thigh is 63.6 % of the hip at the 95th percentile, men's 64.6 %;
    the foot passes through 33.7 cm and 37.2 cm.
    """
    assert thigh_p95("women", 1000) == pytest.approx(636)
    assert thigh_p95("men", 1000) == pytest.approx(646)
    assert percentile("women", "foot_entry", "p95") == pytest.approx(337)
    assert percentile("men", "foot_entry", "p95") == pytest.approx(372)


def test_a_bust_chooses_the_row_for_what_hangs_from_the_shoulders():
    """Bust 108, hip 100: neck and arm are those of the bust's row, legs those of the hip's."""
    body = complete({"hip": 1000, "bust": 1094}, ["neck_base", "thigh"], "women")

    assert body["neck_base"] == pytest.approx(395)
    assert body["thigh"] == pytest.approx(601)


@pytest.mark.parametrize(
    ("measured", "says"),
    [
        ({"hip": float("inf")}, "hip"),
        ({"hip": -5}, "hip"),
        ({"hip": 1000, "thigh": 900}, "thigh of 90 cm does not belong to a hip of 100 cm"),
        ({"height": 1700, "inside_leg": 400}, "inside leg"),
        ({"bust": 900, "neck_base": 650}, "neck base girth"),
        ({"tail": 300}, "tail"),
        ({}, "hip, or the bust"),
    ],
)
def test_what_no_body_has_is_named(measured: dict, says: str, sentence):
    """The sentence names the measurement and what can be used."""
    with pytest.raises(InvalidInput) as refused:
        complete(measured, ["thigh"])

    assert says in sentence(refused.value)


def test_a_body_of_another_kind_is_refused(sentence):
    """Women, men or children."""
    with pytest.raises(InvalidInput) as refused:
        complete({"hip": 1000}, ["thigh"], "giants")

    assert "women, men or children" in sentence(refused.value)


def astm_rows() -> list[dict[str, float]]:
    """Sizes 00 to 20 of ASTM D5585-11e1, mm."""
    file = Path(__file__).parent / "golden" / "astm_d5585_in.csv"
    rows = csv.DictReader(file.read_text(encoding="utf-8").splitlines()[1:])
    return [{k: float(v) * 25.4 for k, v in row.items() if k != "size"} for row in rows]


@pytest.mark.parametrize("row", astm_rows(), ids=lambda r: f"bust {r['bust'] / 10:.0f} cm")
def test_necks_and_heads_agree_with_another_table(row: dict[str, float]):
    """ASTM D5585-11e1 (another survey): from the bust alone, the neck base is within 15 mm
    and the head within 25 mm.
    """
    body = complete({"bust": row["bust"]}, ["neck_base", "head"], "women")

    assert body["neck_base"] == pytest.approx(row["neck_base"], abs=15)
    assert body["head"] == pytest.approx(row["head"], abs=25)


def test_every_measurement_says_how_it_is_taken():
    """Short words for the tape, and a range with a least and a most."""
    for name, (least, most) in RANGE_MM.items():
        assert how(name)
        assert 0 < least < most
