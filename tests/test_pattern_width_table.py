"""The table of widths and lengths printed on paper patterns."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import InvalidInput
from stash.pattern.width_table import WidthTable, convert_mm, parse_table
from stash.sentences.wording import WORDING

YARD, INCH = 914.4, 25.4
TABLE = WidthTable(((1140.0, 2500.0), (1500.0, 1900.0)))


@pytest.mark.parametrize(
    ("width", "length"), [(1140, 2500), (1135, 2500), (1400, 2500), (1500, 1900), (1800, 1900)]
)
def test_a_listed_width_serves_up_to_the_next(width, length):
    """Wider cloth never needs more, so the narrower row always covers it."""
    assert TABLE.need_mm(width).length_mm == length


def test_every_answer_is_marked_an_estimate():
    """Without pieces there is no lay."""
    for width in (950, 1140, 1300, 1500):
        assert TABLE.need_mm(width).reason.kind in WORDING


@pytest.mark.parametrize(
    ("yards", "from_in", "to_in", "expected"),
    [(2.75, 44.5, 35.5, 3.375), (2.0, 59, 44.5, 2.75), (1.875, 53, 39, 2.5), (2.5, 35.5, 66, 1.5)],
)
def test_the_published_chart_is_reproduced(yards, from_in, to_in, expected):
    """US fabric conversion chart (sewwithsarah.com and greenspun.com: two copies agree)."""
    got = convert_mm(yards * YARD, from_in * INCH, to_in * INCH)

    assert got / YARD == pytest.approx(expected)


def test_narrower_than_every_row_is_converted():
    """2.5 m of 114 cm cloth becomes about 3.1 m of 90 cm cloth, and never less than by area."""
    need = TABLE.need_mm(900).length_mm

    assert 2500 < need < 2500 * 1140 / 900 * 1.1


def test_far_too_narrow_is_refused(sentence):
    """Ribbon 30 cm wide cannot be judged by the table."""
    with pytest.raises(InvalidInput) as refused:
        TABLE.need_mm(300)
    assert re.search("too narrow", sentence(refused.value))


@given(st.floats(880, 2000), st.floats(880, 2000))
def test_wider_cloth_never_needs_more(one, other):
    """Monotone over the whole range."""
    narrow, wide = sorted((one, other))

    assert TABLE.need_mm(wide).length_mm <= TABLE.need_mm(narrow).length_mm + 1e-6


def test_rows_are_read_in_any_units():
    """45 in cloth, 2 3/4 yd."""
    table = parse_table(["45in=2 3/4yd", "150cm=1.9m"])

    assert table.rows_mm[0] == pytest.approx((1143, 2514.6))


@pytest.mark.parametrize(
    "rows", [[], ["114cm"], ["114cm=2m", "150cm=3m"], ["114cm=2m", "114cm=2m"], ["1cm=2m"]]
)
def test_tables_that_cannot_be_true_are_refused(rows):
    """No rows, no length, more for wider cloth, twice the same width, a width of 1 cm."""
    with pytest.raises(InvalidInput):
        parse_table(rows)
