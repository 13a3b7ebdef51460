"""One table says what a bare number means, and in what unit each kind of length is shown."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import InvalidInput
from stash.model import NotionKind
from stash.model.amounts import read_amount, read_notion_size
from stash.quantity import (
    Quantity,
    read_cut_size,
    read_length,
    read_new_length,
    read_size,
    show_length,
)
from stash.units import System

CLOTH = (Quantity.CUT_LENGTH, Quantity.WIDTH, Quantity.REPEAT, Quantity.BODY, Quantity.PATTERN)
ASKED = [q for q in Quantity if q.bare is None]


@pytest.mark.parametrize("quantity", CLOTH)
def test_a_bare_number_of_cloth_body_or_pattern_is_centimetres(quantity):
    """114 is the same width in every command, form and file."""
    assert read_length("114", quantity) == 1140


@pytest.mark.parametrize("typed", ["3", "1.5", "2,75", "9.9"])
def test_so_few_centimetres_of_cloth_are_asked_back(typed):
    """3 is what one writes for 3 m; with its unit either is taken; from 10 on the rule holds."""
    with pytest.raises(InvalidInput) as refused:
        read_new_length(typed)

    assert refused.value.fact.kind == "centimetres_or_metres"
    assert read_new_length(f"{typed} cm") == pytest.approx(read_new_length(f"{typed} m") / 100)
    assert read_new_length("10") == 100


@pytest.mark.parametrize("quantity", ASKED)
def test_what_has_two_usual_units_is_asked_for(quantity, sentence):
    """A bare 24 may be lignes; the refusal shows how such a thing is typed."""
    with pytest.raises(InvalidInput) as refused:
        read_length("24", quantity)

    assert refused.value.fact.kind == "unit_wanted"
    assert quantity.example(System.METRIC) in sentence(refused.value)


@pytest.mark.parametrize("quantity", list(Quantity))
def test_whoever_reads_inches_is_always_asked_for_the_unit(quantity):
    """Her 45 is inches, the record's would be centimetres: neither is guessed."""
    with pytest.raises(InvalidInput):
        read_length("45", quantity, system=System.INCHES)


@pytest.mark.parametrize("quantity", list(Quantity))
@pytest.mark.parametrize("system", list(System))
def test_three_yards_are_three_yards_whatever_one_reads(quantity, system):
    """A typed unit always counts; 1 yd = 0.9144 m exactly (international yard, 1959)."""
    assert read_length("3 yd", quantity, system=system) == pytest.approx(2743.2)


@pytest.mark.parametrize("quantity", list(Quantity))
def test_the_example_of_each_kind_is_itself_readable(quantity):
    """What a form proposes, the form takes."""
    for system in System:
        assert read_length(quantity.example(system), quantity, system=system) > 0


@given(st.floats(1, 20_000), st.sampled_from([Quantity.BODY, Quantity.PATTERN, Quantity.WIDTH]))
def test_bodies_patterns_and_widths_are_never_in_metres_or_yards(mm, quantity):
    """A hip of 104.6 cm is not "1.05 m", and not "1 1/8 yd"."""
    assert show_length(mm, quantity, System.METRIC).endswith(" cm")
    assert show_length(mm, quantity, System.INCHES).endswith(" in")


@given(st.floats(1, 20_000))
def test_lengths_of_cuts_have_one_unit_in_a_column(mm):
    """Metres for one reader, yards for the other, however short the cut."""
    assert re.fullmatch(r"\d+\.\d{2,3} m", show_length(mm, Quantity.CUT_LENGTH, System.METRIC))
    assert show_length(mm, Quantity.CUT_LENGTH, System.INCHES).endswith(" yd")


@given(st.floats(-0.04, 0.04), st.sampled_from(list(Quantity)), st.sampled_from(list(System)))
def test_what_rounds_to_nothing_has_no_sign(mm, quantity, system):
    """There is no "−0"."""
    assert "−" not in show_length(mm, quantity, system)


@given(st.floats(10, 20_000), st.sampled_from([q for q in Quantity if q is not Quantity.BUTTON]),
       st.sampled_from(list(System)))
def test_what_is_shown_reads_back_within_its_last_figure(mm, quantity, system):
    """The coarsest figure shown is an eighth of a yard, kept to a centimetre."""
    shown = show_length(mm, quantity, system)

    coarse = 29 if shown.endswith("yd") and mm < 914 else 58 if shown.endswith("yd") else 6
    assert read_length(shown, quantity) == pytest.approx(mm, abs=coarse)


def test_a_unit_after_both_sides_serves_both():
    """Nobody means 64 cm by 32 inches."""
    assert read_size("64x32", Quantity.REPEAT, Quantity.REPEAT) == (640, 320)
    assert read_size("6 x 4 in", Quantity.REPEAT, Quantity.REPEAT) == pytest.approx((152.4, 101.6))
    assert read_size("0x32mm", Quantity.REPEAT, Quantity.REPEAT) == (0, 32)
    assert read_cut_size("1.5 m × 45 in") == pytest.approx((1500, 1143))


def test_thread_and_tape_are_asked_for_their_unit():
    """A bare 2 of thread may be reels, of elastic metres."""
    for kind in (NotionKind.THREAD, NotionKind.ELASTIC):
        with pytest.raises(InvalidInput):
            read_amount(kind, "2")
    assert read_amount(NotionKind.THREAD, "0") == 0
    assert read_amount(NotionKind.BUTTON, "7") == 7


def test_a_button_is_asked_for_millimetres_or_lignes():
    """24L is 15.24 mm (40 lignes to the inch); 24 alone could be either."""
    assert read_notion_size(NotionKind.BUTTON, "24L") == pytest.approx(15.24)
    with pytest.raises(InvalidInput):
        read_notion_size(NotionKind.BUTTON, "24")
    assert read_notion_size(NotionKind.ZIP, "22") == 220
    assert read_notion_size(NotionKind.ELASTIC, " ") is None
