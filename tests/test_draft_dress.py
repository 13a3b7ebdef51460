"""The dress: bodice and skirt meet at the waist, and the zip lets the body in."""

from __future__ import annotations

from functools import cache

import pytest
from bodies_of_tables import varied
from hypothesis import given, settings
from hypothesis import strategies as st

from stash.draft import dress
from stash.draft.body import complete
from stash.draft.catalogue import draft
from stash.draft.dress_skirt import bodice_dart_at, sewn_waist
from stash.draft.geometry import distance, length
from stash.errors import InvalidInput
from stash.model import NotionKind
from stash.notions.fastenings import opening_least_mm


def drawn(measured, kind, **options):
    """The lines before allowances, and the completed body."""
    body = complete(measured, dress.ESTIMATES, kind)
    return dress.draw(body, dress.GARMENT.read_options(options)), body


@cache
def all_drawn():
    """Every body of the tables with its lines, drawn once."""
    return [(measured, kind, *drawn(measured, kind)) for measured, kind in varied(60)]


def test_the_waist_seams_agree():
    """Front to front and back to back, their darts sewn, to a millimetre."""
    for measured, kind, lines, _ in all_drawn():
        for quarter, half in ((lines.skirt.front, lines.bodice.front),
                              (lines.skirt.back, lines.bodice.back)):
            assert sewn_waist(quarter) == pytest.approx(half.waist.sewn_mm, abs=1), (
                measured, kind)


def test_dart_meets_dart():
    """The skirt's first dart lies below the bodice's, to 3 mm along the sewn waist; the legs of
    each are equally long.
    """
    met = 0
    for measured, kind, lines, _ in all_drawn():
        for quarter, half in ((lines.skirt.front, lines.bodice.front),
                              (lines.skirt.back, lines.bodice.back)):
            for dart in quarter.darts:
                left, tip, right = dart.mark
                assert distance(left, tip) == pytest.approx(distance(right, tip), abs=0.01)
            above = bodice_dart_at(half)
            if above is None or not quarter.darts:
                continue
            left = quarter.darts[0].mark[0]
            at = min(range(len(quarter.waist)), key=lambda i: distance(quarter.waist[i], left))
            assert length(quarter.waist[: at + 1]) == pytest.approx(above, abs=3), (
                measured, kind)
            met += 1
    assert met > 40


def test_it_goes_round_the_hips_with_its_ease():
    """At the hip line the skirt is the hip and 6 cm, to a millimetre."""
    for measured, kind, lines, body in all_drawn():
        across = [dict_at(q.side, lines.skirt.hip_down) for q in (lines.skirt.front,
                                                                  lines.skirt.back)]
        assert 2 * sum(across) == pytest.approx(body["hip"] + 60, abs=1), (measured, kind)


def dict_at(path, down):
    """How far out a side lies at a level."""
    for (x0, y0), (x1, y1) in zip(path, path[1:], strict=False):
        if x0 <= down <= x1 and x1 > x0:
            return y0 + (y1 - y0) * (down - x0) / (x1 - x0)
    raise AssertionError(down)


def test_the_zip_lets_hips_and_shoulders_through():
    """It opens the whole bodice, and below the waist as far as the rule for hips asks:
    (hip + 2 in - waist) / 2.
    """
    for measured, kind, lines, body in all_drawn():
        least = opening_least_mm(body["hip"], 2 * (
            lines.bodice.front.waist.sewn_mm + lines.bodice.back.waist.sewn_mm))
        assert lines.below >= min(least, lines.down - 40) - 1, (measured, kind)
        assert lines.opening_mm > length(lines.bodice.back.centre)
    pattern = draft("dress", {"bust": 920, "waist": 760, "hip": 1000}, body="women")
    (zip_,) = [n for n in pattern.notions if n.kind is NotionKind.ZIP]
    assert zip_.size_mm[1] == pytest.approx(600, abs=5)


@settings(max_examples=25, deadline=None)
@given(st.floats(800, 1250), st.floats(0.68, 1.05), st.floats(0.95, 1.25),
       st.sampled_from(["a-line", "straight", "gathered"]), st.floats(30, 200))
def test_any_body_has_a_waist_that_agrees(bust, waist, hip, skirt, ease):
    """Random girths, skirts and eases: every join agrees, a gathered skirt is twice its waist; or
    a sentence.
    """
    measured = {"bust": bust, "waist": waist * bust, "hip": hip * bust}
    try:
        pattern = draft("dress", measured, {"skirt": skirt, "hip_ease": ease}, "women")
    except InvalidInput:
        return
    waists = [j for j in pattern.joins if j.a[1] == "waist"]

    assert len(waists) == 2
    for join in waists:
        wanted = 2 * join.b_mm if skirt == "gathered" else join.b_mm
        assert join.a_mm == pytest.approx(wanted, abs=1)
