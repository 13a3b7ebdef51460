"""Colour difference, against its authors' published pairs and an independent library."""

from __future__ import annotations

import csv
import warnings
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import InvalidInput
from stash.eye.colour.difference import apart, difference, is_colour, lab

GOLDEN = Path(__file__).parent / "golden" / "ciede2000_pairs.csv"
channel = st.integers(0, 255)
colours = st.builds("#{:02x}{:02x}{:02x}".format, channel, channel, channel)


def published() -> np.ndarray:
    """The 34 pairs as rows of seven numbers."""
    lines = [line for line in GOLDEN.read_text().splitlines() if not line.startswith("#")]
    return np.array([[float(v) for v in row] for row in list(csv.reader(lines))[1:]])


def test_difference_matches_all_34_pairs_published_with_the_formula():
    """Sharma, Wu and Dalal (2005), table 1, to the four decimals printed there."""
    rows = published()

    assert len(rows) == 34
    assert difference(rows[:, :3], rows[:, 3:6]) == pytest.approx(rows[:, 6], abs=5.1e-5)


def test_difference_agrees_with_the_colour_science_library():
    """1,000 random pairs; the library is an independent implementation."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        import colour
    random = np.random.default_rng(7)
    first = random.uniform([0, -90, -90], [100, 90, 90], (1000, 3))
    second = random.uniform([0, -90, -90], [100, 90, 90], (1000, 3))

    assert difference(first, second) == pytest.approx(
        colour.delta_E(first, second, method="CIE 2000"), abs=1e-9
    )


def test_lab_agrees_with_the_colour_science_library():
    """sRGB to CIELAB under D65 within rounding of the matrix."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        import colour
    written = ["#7a1f2b", "#000000", "#ffffff", "#4f7c93", "#c9b691"]
    rgb = np.array([[int(w[i : i + 2], 16) / 255 for i in (1, 3, 5)] for w in written])

    assert lab(written) == pytest.approx(colour.XYZ_to_Lab(colour.sRGB_to_XYZ(rgb)), abs=0.05)


@given(colours, colours)
def test_difference_is_the_same_both_ways_and_nothing_to_itself(first: str, second: str):
    """A difference is symmetrical, never negative, and 0 for one colour."""
    assert apart(first, second) == pytest.approx(apart(second, first), abs=1e-9)
    assert apart(first, second) >= 0
    assert apart(first, first) == 0


def test_short_form_means_each_digit_twice():
    """#abc is #aabbcc."""
    assert lab(["#abc"]) == pytest.approx(lab(["#aabbcc"]))


@pytest.mark.parametrize("text", ["", "crimson", "#12345", "#gggggg", None])
def test_a_word_is_not_a_colour(text: str | None):
    """Only #rrggbb and #rgb are colours."""
    assert not is_colour(text)
    if text:
        with pytest.raises(InvalidInput, match="not_a_colour"):
            lab([text])
