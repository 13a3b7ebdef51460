"""Buttons on a front: published sizes, holes and overlaps, and spacing that closes."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import InvalidInput
from stash.model import Closure, NotionKind
from stash.notions import (
    best_count,
    button_need,
    button_plan,
    buttonhole_mm,
    closure_for,
    counts_that_hold,
    loose_button_need,
    mixed_plan,
    overlap_least_mm,
    overlap_strict_mm,
    respace,
    widest_button_mm,
    widest_gap_mm,
    with_spare,
)
from stash.notions.published_tables import rows
from stash.units import SOLD_LIGNES, format_button, sold_ligne

SHIRT = Closure(length_mm=640.0, bust_mm=250.0, overlap_mm=20.0, first_mm=12.0, last_mm=550.0)
FRONTS = st.builds(
    lambda first, run, share: Closure(
        length_mm=first + run + 60, bust_mm=first + share * run, overlap_mm=20.0,
        first_mm=first, last_mm=first + run,
    ),
    st.floats(5, 40), st.floats(80, 1200), st.floats(0, 1),
)


@pytest.mark.parametrize(("mm", "ligne"), [(10.0, 16), (12.7, 20), (18.0, 28)])
def test_millimetres_become_the_ligne_of_the_published_examples(mm, ligne):
    """10 mm is 15.75 and sold as 16L, 12.7 mm is 20L, 18 mm is 28.3 and sold as 28L.

    Source: textilecalculations.com and cxbuttons.com.
    """
    assert sold_ligne(mm) == ligne


def test_forty_lignes_an_inch_agrees_with_three_published_tables():
    """Every printed size is within 0.75 mm of 0.635 x ligne, but for one.

    Sources: A cxbuttons.com, B gentsshop.co.uk, C textilecalculations.com; table A
    prints 30 mm for 45L, which 40 lignes to the inch makes 28.6 mm.
    """
    printed = {
        (int(row["ligne"]), table): float(row[table])
        for row in rows("lignes")
        for table in ("table_a_mm", "table_b_mm", "table_c_mm")
        if row[table]
    }
    off = {where for where, mm in printed.items() if abs(mm - 0.635 * where[0]) > 0.75}

    assert off == {(45, "table_a_mm")}
    assert len(printed) > 50


def test_a_buttonhole_is_an_eighth_of_an_inch_longer_than_the_button():
    """Source: sewing handbook, trantor.is reprint, ch. 7 (1/8 in, 3 mm)."""
    assert buttonhole_mm(20.0) == 23.0


def test_the_overlap_is_at_least_three_quarters_of_the_button():
    """Source: Singer 1288 manual, p. 67."""
    assert overlap_least_mm(20.0) == 15.0
    assert widest_button_mm(15.0) == 20.0


def test_the_stricter_overlap_is_half_the_button_and_a_quarter_inch():
    """Source: ASDP Standards of Quality Custom Clothing, p. 24."""
    assert overlap_strict_mm(20.0) == 16.35


def test_a_shirt_front_gets_the_usual_seven_or_eight_buttons():
    """7 to 8 on a shirt front: common practice, no source."""
    assert best_count(SHIRT) in {7, 8}


def test_four_buttons_close_a_pyjama_jacket():
    """Source: Burton, School Sewing (1916), lists 4 buttons for a pyjama jacket.

    The front below its turned-back collar, about 36 cm, is an assumption.
    """
    jacket = Closure(length_mm=460, bust_mm=0, overlap_mm=20, first_mm=0, last_mm=360)

    assert counts_that_hold(jacket, 15.0)[0] == 4


def test_a_shirt_respaced_to_five_still_has_one_at_the_bust():
    """The cutter's rule: one at the bust, first and last kept, the rest even."""
    places = respace(SHIRT, 5)

    assert places[0] == 12.0
    assert places[-1] == 550.0
    assert min(abs(p - 250.0) for p in places) <= 15.0
    assert widest_gap_mm(SHIRT, places) == pytest.approx(142.5)


@given(FRONTS, st.integers(1, 30))
def test_every_respacing_keeps_count_order_and_a_button_at_the_bust(front, count):
    """Whatever the front and the count."""
    places = respace(front, count)

    assert len(places) == count
    assert list(places) == sorted(places)
    assert front.first_mm - 1e-6 <= places[0] <= places[-1] <= front.last_mm + 1e-6
    assert min(abs(p - front.bust_mm) for p in places) <= 15.0 + 1e-6


@given(FRONTS, st.integers(3, 30))
def test_three_or_more_buttons_keep_the_first_and_the_last(front, count):
    """The neck and the hem end never fall open."""
    places = respace(front, count)

    assert places[0] == front.first_mm
    assert places[-1] == pytest.approx(front.last_mm)


@given(FRONTS, st.integers(1, 20), st.booleans())
def test_one_button_more_never_opens_a_front_wider(front, count, has_bust):
    """With a bust level and without: unless two close it already, at neck and hem."""
    front = front if has_bust else replace(front, bust_mm=0.0)
    fewer, more = (widest_gap_mm(front, respace(front, n)) for n in (count, count + 1))

    assert more <= max(fewer, 120 if count == 1 else 0) + 1e-6


def test_two_buttons_on_a_short_front_with_the_bust_beside_the_first_still_close_it():
    """At neck and hem they would leave 121 mm; the second goes to the middle instead."""
    front = Closure(length_mm=186, bust_mm=12.5, overlap_mm=20, first_mm=5, last_mm=126)

    assert respace(front, 2) == (5, 65.5)


@given(FRONTS)
def test_the_counts_that_hold_are_one_unbroken_run(front):
    """When one count holds, so does the next, until buttons crowd."""
    holding = counts_that_hold(front, 12.0)

    assert holding == tuple(range(holding[0], holding[-1] + 1))
    assert all(widest_gap_mm(front, respace(front, n)) <= 120 for n in holding)


def test_without_a_bust_level_buttons_are_even():
    """A bust outside the closed stretch has no say."""
    plain = Closure(length_mm=400, bust_mm=0, overlap_mm=15, first_mm=10, last_mm=310)

    assert respace(plain, 4) == (10, 110, 210, 310)


def test_three_buttons_do_not_hold_a_front_of_62_cm(sentence):
    """And the reason says how much is left open."""
    plan = button_plan(closure_for(620.0, 20.0), [20.0] * 3)

    assert not plan.holds
    assert sentence(plan.reason) == (
        "With 3, 257 mm stays unheld; a front stays closed up to 120 mm.")


def test_a_button_wider_than_the_overlap_allows_does_not_hold(sentence):
    """A 30 mm button needs 22.5 mm to the edge; the shirt has 20."""
    plan = button_plan(SHIRT, [30.0] * 7)

    assert not plan.holds
    assert "22.5 mm" in sentence(plan.reason)


def test_buttons_that_would_lie_on_each_other_do_not_hold(sentence):
    """Thirty of 25 mm on 54 cm."""
    plan = button_plan(SHIRT, [25.0] * 30)

    assert not plan.holds
    assert "use fewer" in sentence(plan.reason)


def test_two_bins_serve_one_front_with_the_sizes_interleaved():
    """Each button keeps the hole of its own size."""
    plan = mixed_plan(SHIRT, [(11.0, 4), (13.0, 3)], 7)

    assert plan.diameters_mm == (11.0, 13.0, 11.0, 13.0, 11.0, 13.0, 11.0)
    assert plan.buttonholes_mm[:2] == (14.0, 16.0)
    assert plan.holds


def test_too_few_buttons_in_all_bins_is_said(sentence):
    """Nothing is promised that is not there."""
    with pytest.raises(InvalidInput) as refused:
        mixed_plan(SHIRT, [(11.0, 4)], 7)
    assert re.search("fewer than 7", sentence(refused.value))


def test_the_need_of_a_front_runs_to_the_widest_button_its_overlap_covers():
    """20 mm of overlap cover a button of 26.7 mm."""
    need = button_need(SHIRT)

    assert need.kind is NotionKind.BUTTON
    assert need.count == best_count(SHIRT)
    assert need.size_mm == pytest.approx((9.144, 11.43, 26.667), abs=1e-3)


def test_cuff_buttons_stay_apart_from_front_buttons():
    """So that a second bin can serve the cuffs."""
    assert loose_button_need(4, 9.5, "cuffs").group == "cuffs"


@pytest.mark.parametrize("count", [0, -1, 61])
def test_an_impossible_count_is_refused(count, sentence):
    """With the range that can be spaced."""
    with pytest.raises(InvalidInput) as refused:
        respace(SHIRT, count)
    assert re.search("1 to 60", sentence(refused.value))


def test_a_few_spare_buttons_are_bought():
    """3 % more at least (textilecalculations.com): one spare up to 33, two for 34."""
    assert [with_spare(n) for n in (6, 33, 34)] == [7, 34, 36]


def test_a_front_too_short_for_its_button_is_refused(sentence):
    """The message names both."""
    with pytest.raises(InvalidInput) as refused:
        closure_for(15.0, 20.0)
    assert re.search("too short", sentence(refused.value))


def test_the_sizes_sold_are_those_of_the_makers_tables():
    """lignes.csv names the tables; the unit reader has the same sizes."""
    assert tuple(int(row["ligne"]) for row in rows("lignes")) == SOLD_LIGNES


def test_a_button_of_20_mm_is_named_as_it_is_sold():
    """32L in all three makers' tables of lignes.csv, though 20 mm are 31.5 lignes."""
    assert format_button(20.0) == "20 mm (32L)"


def test_a_thick_or_domed_button_wants_a_longer_hole():
    """Diameter and thickness (from memory); a dome passes on its edge (common practice)."""
    assert buttonhole_mm(20.0) == 23.0
    assert buttonhole_mm(20.0, 5.0) == 25.0
    assert buttonhole_mm(20.0, 5.0, shank=True) == 30.0
    assert buttonhole_mm(20.0, 1.0) == 23.0
