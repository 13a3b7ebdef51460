"""Zips, hooks, snaps, tape and interfacing."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import InvalidInput
from stash.model import Notion, NotionKind, Outline, Piece, Role
from stash.notions import (
    hook_need,
    interfacing_length_mm,
    interfacing_need,
    opening_least_mm,
    snap_need,
    tape_need,
    zip_need,
    zip_serves,
    zip_sold_mm,
)
from stash.notions.fastenings import BOTTOM, EXACT, TOP


def a_zip(length_mm: float, *, shortenable: bool) -> Notion:
    """A zip on hand."""
    return Notion(kind=NotionKind.ZIP, name="zip", size_mm=length_mm, shortenable=shortenable)


@pytest.mark.parametrize(
    ("length_mm", "shortenable", "at_bottom", "at_top"),
    [
        (200.0, False, True, True),
        (195.0, False, True, True),
        (190.0, True, False, False),
        (250.0, True, True, True),
        (250.0, False, False, True),
        (700.0, True, False, False),
    ],
)
def test_a_coil_is_shortened_at_the_bottom_and_any_zip_at_the_top(
    length_mm, shortenable, at_bottom, at_top
):
    """For an opening of 20 cm. Under a waistband coil and metal are cut at the top.

    Coil at the bottom: amypowpow.blogspot.com 2013, sewfeet.com. Top, coil or metal:
    marymackmademine.com 2012, patternscoutstudio.com.
    """
    on_hand = a_zip(length_mm, shortenable=shortenable)

    assert zip_serves(on_hand, 200.0, BOTTOM).serves is at_bottom
    assert zip_serves(on_hand, 200.0, TOP).serves is at_top


def test_an_open_end_is_never_cut_at_the_bottom():
    """Box and pin: common practice, no source."""
    assert not zip_serves(a_zip(250.0, shortenable=True), 200.0, EXACT).serves


def test_the_reason_says_how_much_to_take_off_and_where(sentence):
    """3/4 in of tape stays below a new stop: sewfeet.com; wholesalezippersusa 2013."""
    on_hand = a_zip(250.0, shortenable=True)

    assert sentence(zip_serves(on_hand, 200.0, BOTTOM).why).startswith(
        "Shorten it by 5 cm at the bottom with a sewn stop")
    assert sentence(zip_serves(on_hand, 200.0, TOP).why).startswith("Cut 5 cm off at the top")


def test_a_zip_of_unknown_length_is_not_promised():
    """What is not known is not guessed."""
    verdict = zip_serves(Notion(kind=NotionKind.ZIP, name="?"), 200.0)

    assert not verdict.serves
    assert verdict.why.kind == "zip_length_unknown"


@pytest.mark.parametrize(("opening_mm", "sold_mm"), [(168.0, 180.0), (180.0, 180.0), (183.0, 180.0),
                                                     (186.0, 200.0), (900.0, 600.0)])
def test_a_zip_is_asked_for_by_a_length_that_shops_sell(opening_mm, sold_mm):
    """18 cm serves a fly of 16.8: metric closed-end range, common practice, no source."""
    assert zip_sold_mm(opening_mm, TOP) == sold_mm


@pytest.mark.parametrize(("hip_mm", "waist_mm", "least_mm"), [(960, 700, 155), (900, 640, 155)])
def test_an_opening_lets_the_hips_through(hip_mm, waist_mm, least_mm):
    """(hip + 5 cm - waist) / 2: Threads magazine, K. Howland, on fly zips."""
    assert opening_least_mm(hip_mm, waist_mm) == least_mm


def test_a_zip_need_is_one_zip_of_the_openings_length():
    """Longer ones are looked at too, because some can be shortened."""
    need = zip_need(200.0, "fly")

    assert (need.count, need.size_mm[1]) == (1, 200.0)
    assert need.size_mm[2] > 500


@pytest.mark.parametrize(("length_mm", "count"), [(40.0, 2), (100.0, 3), (101.0, 4)])
def test_snaps_are_no_more_than_5_cm_apart(length_mm, count):
    """Both ends included: common practice, no source."""
    assert snap_need(length_mm, "placket").count == count


def test_hooks_and_tape_are_counted_and_measured():
    """Tape turns in 2 cm at each end."""
    assert hook_need(2, "waistband").count == 2
    assert tape_need(900.0, 12.0, "ties").length_mm == 940.0


def fused(length_mm: float, width_mm: float, quantity: int = 1) -> Piece:
    """A rectangle of interfacing."""
    return Piece(
        name="collar", outline_mm=Outline.rectangle(length_mm, width_mm).ring_mm,
        quantity=quantity, role=Role.INTERFACING,
    )


def test_interfacing_rows_are_filled_across_the_width():
    """Three pieces 950 x 400 on 900: two in the first row, one in the second."""
    assert interfacing_length_mm([fused(950.0, 400.0, 3)], 900.0) == 1900.0


def test_a_waistband_takes_its_depth_of_interfacing_not_its_length():
    """85 x 9 cm lies across a width of 90 cm: 9 cm are bought, not 85."""
    assert interfacing_length_mm([fused(850.0, 90.0)], 900.0) == 90.0


@given(st.lists(st.tuples(st.floats(20, 800), st.floats(20, 800)), min_size=1, max_size=8))
def test_interfacing_is_never_less_than_its_area_asks(sizes):
    """And never more than all pieces end to end."""
    pieces = [fused(long, wide) for long, wide in sizes]
    length = interfacing_length_mm(pieces, 900.0)

    assert length >= sum(long * wide for long, wide in sizes) / 900.0 - 1e-6
    assert length <= sum(long for long, _ in sizes) + 1e-6


def test_a_piece_wider_than_the_interfacing_is_said():
    """Nothing is silently cut in two."""
    with pytest.raises(InvalidInput, match="wider_than_interfacing"):
        interfacing_need([fused(920.0, 950.0)])
