"""Curtains: fullness by whole and half widths, drops that follow the repeat."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon

from stash.draft.catalogue import draft
from stash.draft.curtain import GARMENT, drops
from stash.errors import InvalidInput
from stash.model import NotionKind, Role

OPTIONS = st.fixed_dictionaries(
    {
        "width": st.floats(400, 5000),
        "length": st.floats(400, 3000),
        "fullness": st.sampled_from(("1", "1.5", "1.8", "2", "2.5", "3")),
        "cloth_width": st.floats(700, 3000),
        "heading": st.sampled_from(("casing", "tape", "tabs")),
        "panels": st.sampled_from(("1", "2")),
    }
)


@given(OPTIONS)
def test_the_widths_give_the_fullness_and_half_a_width_less_would_not(options):
    """After the joins and two side hems of 5 cm: arithmetic."""
    made = drops(GARMENT.read_options(options))
    widths = made.whole + made.half / 2
    usable = options["cloth_width"] - 30

    assert widths * usable + 30 - 100 >= made.flat_mm - 1e-6
    assert widths == 0.5 or (widths - 0.5) * usable + 30 - 100 < made.flat_mm


@given(OPTIONS, st.floats(50, 900))
def test_a_drop_is_cut_in_whole_repeats(options, repeat):
    """The fewest that hold it, so that the print meets at every join."""
    plain = drops(GARMENT.read_options(options)).cut_mm
    printed = drops(GARMENT.read_options({**options, "repeat": repeat})).cut_mm

    assert printed / repeat == pytest.approx(round(printed / repeat))
    assert plain - 1e-6 <= printed < plain + repeat


def test_a_pair_of_curtains_for_a_rail_of_150_cm():
    """1.8 times 75 cm is 1.35 m flat each: one and a half widths of 137 cm cloth.

    Drop 140 cm, casing 12.5 cm with its heading, hem 10 cm.
    """
    pair = draft("curtain", {})
    cut = {p.name: (p.quantity, Polygon(p.outline_mm).bounds) for p in pair.pieces}

    assert cut["drop"] == (2, (0.0, 0.0, 1625.0, 1370.0))
    assert cut["half drop"] == (2, (0.0, 0.0, 1625.0, 685.0))


def test_all_drops_hang_the_same_way_and_start_on_the_repeat():
    """Cloth turned round shades differently: one-way always."""
    assert all(
        p.turns_deg == (0.0,) and p.match_points_mm == ((0.0, 0.0),)
        for p in draft("curtain", {}).pieces
    )


def test_a_heading_tape_is_as_long_as_the_flat_curtains():
    """2 x 1.35 m, ends turned in."""
    tape = next(
        n for n in draft("curtain", {}, {"heading": "tape"}).notions if n.kind is NotionKind.TAPE
    )

    assert tape.length_mm == pytest.approx(2 * 1350 + 40)


def test_a_lining_is_cut_like_the_curtain_from_another_cloth():
    """Same number of widths."""
    lined = draft("curtain", {}, {"lining": "full"})
    count = {
        role: sum(p.quantity for p in lined.pieces if p.role is role)
        for role in (Role.MAIN, Role.LINING)
    }

    assert count[Role.MAIN] == count[Role.LINING] == 4


def test_a_fullness_nobody_sews_is_refused(sentence):
    """With the ones that are."""
    with pytest.raises(InvalidInput) as refused:
        draft("curtain", {}, {"fullness": "10"})

    assert "1.8, 1, 1.5" in sentence(refused.value)
