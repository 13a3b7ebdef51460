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
    snap_need,
    tape_need,
    zip_need,
    zip_serves,
)


def a_zip(length_mm: float, *, shortenable: bool) -> Notion:
    """A zip on hand."""
    return Notion(kind=NotionKind.ZIP, name="zip", size_mm=length_mm, shortenable=shortenable)


@pytest.mark.parametrize(
    ("length_mm", "shortenable", "serves"),
    [
        (200.0, False, True),
        (195.0, False, True),
        (190.0, True, False),
        (250.0, True, True),
        (250.0, False, False),
        (700.0, True, False),
    ],
)
def test_a_long_coil_zip_is_shortened_a_metal_one_is_not(length_mm, shortenable, serves):
    """For an opening of 20 cm: common practice, no source."""
    assert zip_serves(a_zip(length_mm, shortenable=shortenable), 200.0)[0] is serves


def test_the_reason_says_how_much_to_take_off():
    """And where."""
    assert zip_serves(a_zip(250.0, shortenable=True), 200.0)[1] == (
        "Shorten it by 50 mm at the bottom with a sewn stop."
    )


def test_a_zip_of_unknown_length_is_not_promised():
    """What is not known is not guessed."""
    serves, reason = zip_serves(Notion(kind=NotionKind.ZIP, name="?"), 200.0)

    assert not serves
    assert "not on record" in reason


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
    """Three pieces 400 wide in 900: two in the first row, one in the second."""
    assert interfacing_length_mm([fused(600.0, 400.0, 3)], 900.0) == 1200.0


@given(st.lists(st.tuples(st.floats(20, 800), st.floats(20, 800)), min_size=1, max_size=8))
def test_interfacing_is_never_less_than_its_area_asks(sizes):
    """And never more than all pieces end to end."""
    pieces = [fused(long, wide) for long, wide in sizes]
    length = interfacing_length_mm(pieces, 900.0)

    assert length >= sum(long * wide for long, wide in sizes) / 900.0 - 1e-6
    assert length <= sum(long for long, _ in sizes) + 1e-6


def test_a_piece_wider_than_the_interfacing_is_said():
    """Nothing is silently cut in two."""
    with pytest.raises(InvalidInput, match="wider than the interfacing"):
        interfacing_need([fused(100.0, 950.0)])
