"""Whose table fills in what was not measured: said with its reason, and asked when not certain."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stash.draft.body import complete
from stash.draft.catalogue import draft
from stash.draft.whose_table import Why, likely_table
from stash.reference import table


def test_a_short_woman_is_not_a_child():
    """ANSUR II's 5th percentile of women's height is 152.5 cm, so that many are shorter: at
    149 cm with a hip of 95 cm the women's table serves, and no child's cautions are shown.
    """
    pattern = draft("trousers", {"hip": 950, "waist": 780, "height": 1490})

    assert pattern.measurements_mm["body_rise"] > 240
    assert pattern.cautions == ()


@settings(deadline=None)
@given(st.integers(1400, 1600), st.integers(860, 1200))
def test_no_centimetre_of_height_changes_the_rise_by_more_than_a_millimetre_or_two(height, hip):
    """Where the girth is a grown body's, the rise goes with the height without a step."""
    def rise(mm):
        return complete({"hip": hip, "waist": 0.8 * hip, "height": mm}, ["body_rise"])["body_rise"]

    assert 0 <= rise(height + 10) - rise(height) < 3


@pytest.mark.parametrize(
    ("measured", "kind", "why", "certain"),
    [
        ({"height": 1160}, "children", Why.HEIGHT, True),
        ({"height": 1160, "hip": 660}, "children", Why.HEIGHT, True),
        ({"height": 1310, "hip": 900}, "children", Why.HEIGHT, False),
        ({"height": 1500, "hip": 800}, "children", Why.HEIGHT, True),
        ({"height": 1490, "hip": 900, "waist": 700}, "women", Why.WAIST, False),
        ({"height": 1490, "hip": 1000, "waist": 770}, "women", Why.WAIST, True),
        ({"height": 1700, "hip": 1000, "waist": 770}, "women", Why.WAIST, True),
        ({"hip": 620}, "children", Why.SMALL, True),
        ({"hip": 790}, "children", Why.SMALL, False),
        ({"hip": 1000}, "women", Why.USUAL, False),
        ({"hip": 1000, "waist": 950}, "men", Why.WAIST, False),
    ],
)
def test_what_nobody_said_is_presumed_and_marked(measured, kind, why, certain):
    """A child of 116 cm has a hip of 66 (Scandinavian tables), a stout body of 131 cm may be
    grown; the waist over the hip is 0.84 of women and 0.92 of men on average (ANSUR II), so
    above 0.9 it may be either's.
    """
    whose = likely_table(measured)

    assert (whose.kind, whose.why, whose.certain) == (kind, why, certain)


def test_what_was_said_is_certain():
    """A stated body is never second-guessed."""
    body = complete({"hip": 950, "waist": 930}, ["body_rise"], "women")

    assert (body.table.kind, body.table.why, body.table.certain) == ("women", Why.SAID, True)


@pytest.mark.parametrize("kind", ["women", "men"])
def test_the_rise_goes_on_growing_beyond_the_table(kind):
    """Beyond a hip of 120 (124) cm the rise goes on as it grew (ANSUR II: about 1.1 mm a cm of
    hip) and is marked as an estimate beyond the table; the leg bones do not.
    """
    inside, over, far = (
        complete({"hip": hip, "waist": 0.85 * hip}, ["body_rise", "inside_leg"], kind)
        for hip in (1100, 1300, 1500)
    )

    assert inside.beyond == ()
    assert far.beyond == ("body_rise", "inside_leg")
    assert 15 < far["body_rise"] - over["body_rise"] < 30
    assert far["inside_leg"] == over["inside_leg"]


def test_a_childs_rise_grows_with_height():
    """Row by row of the children's tables, and between them."""
    rises = [complete({"height": mm}, ["body_rise"], "children")["body_rise"]
             for mm in range(700, 1700, 10)]

    assert rises == sorted(rises)
    assert len(set(rises)) == len(rises)


def test_a_childs_leg_grows_evenly():
    """The rise and the leg of the rows up to 98 cm, nappy room apart, follow the taller rows:
    from row to row (6 cm of height) the leg gains 3 to 4.5 cm.
    """
    legs = [float(row["inside_leg_cm"]) for row in table("bodies_children")]

    assert all(3 <= b - a <= 4.5 for a, b in zip(legs, legs[1:], strict=False))
