"""When a cut came: as far as anybody remembers it, and never what is no day.

Days are those of ISO 8601, which allows a year, or a year and a month, by themselves.
"""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import InvalidInput
from stash.model.came import first_day, parse_came


@pytest.mark.parametrize(("typed", "kept"), [
    ("2024-03-09", "2024-03-09"), ("2024-03", "2024-03"), (" 2019 ", "2019"),
    ("9.3.2024", "2024-03-09"), ("31/12/2023", "2023-12-31"), ("5/5/2023", "2023-05-05"),
    ("3/2024", "2024-03"),
])
def test_a_day_a_month_or_a_year_is_kept_year_first(typed, kept):
    """However it was written, where it can mean one thing."""
    assert parse_came(typed) == kept


@pytest.mark.parametrize("typed", [
    "yesterday", "3/4/2024", "2024-02-30", "2024-13", "30.2.2024", "13/2024", "24", "", "0000",
])
def test_what_is_no_day_or_may_be_two_is_asked_about(typed):
    """A word, the third of April or the fourth of March, a day that never was."""
    with pytest.raises(InvalidInput):
        parse_came(typed)


@given(st.dates())
def test_every_day_is_read_back(day):
    """Whole, and by its month, and by its year."""
    assert first_day(parse_came(day.isoformat())) == day
    assert first_day(parse_came(day.isoformat()[:7])) == day.replace(day=1)
    assert first_day(parse_came(day.isoformat()[:4])) == date(day.year, 1, 1)
