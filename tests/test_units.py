"""Lengths, sizes and weights as people write them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash import units
from stash.errors import InvalidInput
from stash.units import System, format_error


@pytest.mark.parametrize(
    ("typed", "mm"),
    [
        ("1.5 m", 1500),
        ("1,20 m", 1200),
        ("62cm", 620),
        ("2 m 30 cm", 2300),
        ("1 yd", 914.4),  # international yard, exact definition
        ("1 1/2 yd", 1371.6),
        ("1½ yd", 1371.6),
        ('45"', 1143),
        ("45 in", 1143),  # international inch, exact definition
        ("40L", 25.4),  # 40 lignes to the inch
    ],
)
def test_a_length_is_read_as_people_write_it(typed, mm):
    """Metric, imperial, fractions and lignes all become millimetres."""
    assert units.parse_length(typed) == pytest.approx(mm)


@pytest.mark.parametrize(
    "typed", ["", "abc", "-3 cm", "0 cm", "nan cm", "1e9 m", "3 kg", "1/0 in", "9" * 400 + " cm"]
)
def test_what_is_not_a_length_is_refused_with_a_sentence(typed, sentence):
    """The refusal is a StashError that ends like a sentence and names the field."""
    with pytest.raises(InvalidInput) as refused:
        units.parse_length(typed, field="cut_off")

    assert sentence(refused.value).endswith(".")


def test_a_bare_number_needs_its_unit_unless_one_is_agreed():
    """150 may be millimetres or centimetres; the caller says which, or the person does."""
    assert units.parse_length("150", unit="cm") == 1500
    with pytest.raises(InvalidInput, match="unit_wanted"):
        units.parse_length("150")


@given(st.floats(1, 50_000))
def test_what_is_shown_in_metric_reads_back_within_its_rounding(mm):
    """Written and read again, a length moves by less than half the last figure shown."""
    shown = units.format_length(mm, System.METRIC)

    assert units.parse_length(shown) == pytest.approx(mm, abs=5.1 if mm >= 995 else 0.51)


@given(st.floats(30, 50_000))
def test_what_is_shown_in_inches_reads_back_within_a_sixteenth(mm):
    """Inches and yards are shown in eighths, so they read back within a sixteenth."""
    shown = units.format_length(mm, System.INCHES)
    step = units.YARD_MM if mm >= units.YARD_MM else units.INCH_MM

    assert units.parse_length(shown) == pytest.approx(mm, abs=step / 16 + 1e-6)


@pytest.mark.parametrize(("lignes", "mm"), [(18, 11.43), (24, 15.24), (28, 17.78), (40, 25.4)])
def test_lignes_are_fortieths_of_an_inch(lignes, mm):
    """Source: sizes.com "buttons" and textilecalculations.com agree: 1 L = 0.635 mm."""
    assert units.mm_to_ligne(mm) == pytest.approx(lignes)


def test_cloth_weight_in_ounces_a_square_yard():
    """1 oz/yd2 = 33.90575 g/m2, exact from the NIST ounce and the international yard."""
    assert units.parse_mass("5 oz/yd2") == pytest.approx(169.52875)
    assert units.parse_mass("180 g/m2") == 180


@pytest.mark.parametrize(("degrees", "said"), [(180, "180°"), (178.0744, "178.1°"), (45.0, "45°")])
def test_turns_are_said_to_a_tenth_of_a_degree(degrees, said):
    """Finer than that nobody lays cloth."""
    assert units.format_turn(degrees) == said


@pytest.mark.parametrize(("mm", "metric", "inches"), [
    (0.26, "0.3 mm", "0.01 in"), (5.5, "6 mm", "1/4 in"), (11.0, "1 cm", "3/8 in"),
    (84.4, "8 cm", "3 in"), (123.0, "12 cm", "5 in"), (1234.0, "1.2 m", "49 in"),
])
def test_an_error_is_told_no_finer_than_it_is_known(mm, metric, inches):
    """Two figures at the most, and what is out at all is never out by nothing."""
    assert format_error(mm, System.METRIC) == metric
    assert format_error(mm, System.INCHES) == inches


@given(st.floats(0.001, 100_000), st.sampled_from(System), st.booleans())
def test_no_error_is_told_as_none_nor_in_more_than_two_figures(mm, system, fine):
    """Fractions of an inch are one figure each."""
    said = format_error(mm, system, fine=fine)
    digits = said.split(" ")[0].replace(".", "").lstrip("0")

    assert digits
    assert len(digits) <= 2 or "/" in digits or float(mm) > 2_500
