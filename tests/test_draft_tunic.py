"""The collarless tunic, checked as a cutter checks it."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stash.draft import tunic
from stash.draft.body import Body, complete
from stash.draft.catalogue import draft
from stash.draft.garment import Allowances
from stash.draft.geometry import length
from stash.draft.tunic import TunicLines, neck_facing
from stash.errors import InvalidInput
from stash.model import NotionKind

bodies = st.builds(
    lambda bust, kind: ({"bust": bust}, kind),
    st.floats(780, 1300), st.sampled_from(["women", "men"]),
) | st.builds(lambda bust: ({"bust": bust}, "children"), st.floats(500, 860))


def drawn(body) -> tuple[TunicLines, Body]:
    """The lines of the tunic before allowances, and the completed body."""
    measured, kind = body
    whole = complete(measured, tunic.GARMENT.estimates, kind)
    return tunic.draw(whole, tunic.GARMENT.read_options({})), whole


@settings(max_examples=50, deadline=None)
@given(bodies)
def test_the_head_passes_the_neck(body):
    """The neckline is at least 2 cm longer than the head is round."""
    lines, whole = drawn(body)

    assert lines.neck_mm >= whole["head"] + 19.9


@settings(max_examples=50, deadline=None)
@given(bodies)
def test_a_widened_neck_leaves_a_shoulder(body):
    """At least 3 cm of shoulder seam are left, and the neck stays above the underarm."""
    lines, _ = drawn(body)

    assert length(lines.back.shoulder) >= 30
    assert lines.front.points["centre"][0] < lines.front.points["underarm"][0]


@settings(max_examples=50, deadline=None)
@given(bodies)
def test_seams_that_meet_are_equally_long(body):
    """Shoulders, sides, and a sleeve cap 0 to 40 mm longer than the armhole."""
    lines, _ = drawn(body)
    cap = length(lines.sleeve.front_cap) + length(lines.sleeve.back_cap)
    armhole = length(lines.front.armhole) + length(lines.back.armhole)

    assert length(lines.front.shoulder) == pytest.approx(length(lines.back.shoulder), abs=0.5)
    assert length(lines.front.side) == pytest.approx(length(lines.back.side), abs=0.5)
    assert 0 <= cap - armhole <= 40


@settings(max_examples=50, deadline=None)
@given(bodies)
def test_the_facing_is_the_neckline_again(body):
    """The facing's neck edge is the front's own line."""
    lines, _ = drawn(body)

    facing = neck_facing("front facing", lines.front, 60, Allowances(15, 25))

    assert facing.edge("neck").path == lines.front.neck


def test_bound_it_needs_binding_as_long_as_its_neck():
    """The binding covers the neckline, and 5 cm for turning in its ends."""
    pattern = draft("tunic", {"bust": 920}, {"facing": "binding"}, body="women")
    lines, _ = drawn(({"bust": 920}, "women"))
    binding = next(n for n in pattern.notions if n.kind is NotionKind.BINDING)

    assert binding.length_mm == pytest.approx(lines.neck_mm + 50)


def test_a_tunic_that_ends_at_the_armhole_is_refused(sentence):
    """The sentence says from which length it can be drafted."""
    with pytest.raises(InvalidInput) as refused:
        draft("tunic", {"bust": 920}, {"length": 310})

    assert "ends at the armhole" in sentence(refused.value)
