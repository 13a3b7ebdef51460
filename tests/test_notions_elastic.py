"""Elastic and cord: how long, how wide, in what casing."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import InvalidInput
from stash.model import NotionKind
from stash.notions import (
    casing_allowance_mm,
    casing_mm,
    cord_need,
    elastic_cut_mm,
    elastic_length_need,
    elastic_need,
    elastic_widths_mm,
)


@given(st.floats(450, 1800))
def test_waist_elastic_is_two_inches_less_than_the_waist(waist_mm):
    """Waist minus 2 in, and 1/2 in to lap: Snowflake USD FACS page; hastingstribune.com 2020."""
    assert waist_mm - elastic_cut_mm(waist_mm) == pytest.approx(50 - 13)


@given(st.floats(450, 1800))
def test_tight_waist_elastic_is_waist_minus_10_to_15_cm(waist_mm):
    """Common practice, no source; the whole cut length, overlap included, obeys it."""
    assert 100 <= waist_mm - elastic_cut_mm(waist_mm, tight=True) <= 150


def test_tight_elastic_for_a_waist_of_78_cm():
    """15 % off is 66.3 cm, and 1.3 cm (1/2 in, hastingstribune.com 2020) to lap."""
    assert elastic_cut_mm(780.0, tight=True) == pytest.approx(676.0)


def test_a_casing_takes_elastic_a_little_narrower_than_itself():
    """Its depth less 1/8 in at most (ASDP p. 23), less 1/4 in at best (SEW-lutions 12.150)."""
    assert elastic_widths_mm(31.0) == (18.0, 25.0, 28.0)


def test_the_published_casing_of_one_inch_elastic_lies_in_the_range():
    """1 in elastic in a 1 1/2 in casing: Snowflake USD, Pajama pants."""
    least, _, most = elastic_widths_mm(1.5 * 25.4)

    assert least <= 25.4 <= most


def test_a_casing_and_its_turned_edge_add_up_as_published():
    """1 1/2 in elastic: 1/4 in turned in, then 1 3/4 in, 2 in in all.

    Source: allpeoplequilt.com casing how-to (2018); our 6 mm stand for 1/4 in.
    """
    assert casing_mm(38.1) == pytest.approx(1.75 * 25.4, abs=0.5)
    assert casing_allowance_mm(38.1) == pytest.approx(2 * 25.4, abs=1.0)


@given(st.sampled_from((6.0, 10.0, 12.0, 20.0, 25.0, 32.0, 38.0, 50.0)))
def test_the_casing_made_for_an_elastic_takes_that_elastic(elastic_mm):
    """Best width and casing depth undo each other."""
    assert elastic_widths_mm(casing_mm(elastic_mm))[1] == pytest.approx(elastic_mm)


def test_an_elastic_need_states_length_and_widths():
    """Waist 78 cm in a casing of 31 mm."""
    need = elastic_need(780.0, 31.0)

    assert need.kind is NotionKind.ELASTIC
    assert need.length_mm == pytest.approx(743.0)
    assert elastic_need(780.0, 31.0, tight=True).length_mm == pytest.approx(676.0)
    assert need.size_mm == (18.0, 25.0, 28.0)


def test_elastic_of_a_stated_length_only_adds_its_lap():
    """A cuff of 18 cm."""
    assert elastic_length_need(180.0, 16.0, "cuff").length_mm == 193.0


def test_a_cord_leaves_its_casing_at_both_ends_with_enough_to_tie():
    """25 cm each: common practice, no source."""
    assert cord_need(800.0, 20.0, "waist").length_mm == 1300.0


@pytest.mark.parametrize("ask", [lambda: elastic_cut_mm(99.0), lambda: elastic_widths_mm(3.0)])
def test_a_waist_or_casing_too_small_for_elastic_is_refused(ask):
    """With the measure named."""
    with pytest.raises(InvalidInput):
        ask()
