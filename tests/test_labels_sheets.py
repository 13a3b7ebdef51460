"""Where labels lie on the paper."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from labels.sheets import LETTER_MM, SHEETS, own_grid, roll, sheet_named
from stash.errors import InvalidInput


@pytest.mark.parametrize("name", SHEETS)
def test_the_labels_lie_on_the_page_and_apart(name):
    """The labels lie on the page and apart."""
    sheet = SHEETS[name]
    corners = [sheet.corner_mm(n) for n in range(sheet.per_page)]
    (width, height), page = sheet.label_mm, sheet.page_mm

    assert all(0 <= x <= page[0] - width + 0.01 and 0 <= y <= page[1] - height + 0.01
               for x, y in corners)
    assert all(
        abs(x0 - x1) >= width - 0.01 or abs(y0 - y1) >= height - 0.01
        for i, (x0, y0) in enumerate(corners) for x1, y1 in corners[:i]
    )


@pytest.mark.parametrize("name", ["a4-24", "a4-24-wide", "a4-21", "a4-65", "letter-30"])
def test_the_grid_lies_in_the_middle_of_the_page(name):
    """The margins left and right, top and bottom, are equal to half a millimetre."""
    sheet = SHEETS[name]
    x, y = sheet.corner_mm(sheet.per_page - 1)

    assert sheet.left_mm == pytest.approx(sheet.page_mm[0] - x - sheet.label_mm[0], abs=0.5)
    assert sheet.top_mm == pytest.approx(sheet.page_mm[1] - y - sheet.label_mm[1], abs=0.5)


def test_letter_labels_are_one_inch_by_two_and_five_eighths():
    """Letter labels are one inch by two and five eighths."""
    sheet = SHEETS["letter-30"]

    assert (sheet.page_mm, sheet.per_page) == (LETTER_MM, 30)
    assert [side / 25.4 for side in sheet.label_mm] == pytest.approx([2.625, 1.0])


@given(st.integers(1, 24), st.integers(1, 100))
def test_printing_begins_at_the_free_place_and_skips_none(start, count):
    """Printing begins at the free place and skips none."""
    sheet = SHEETS["a4-24"]
    places = [page * 24 + position for page, position in sheet.positions(count, start)]

    assert places == list(range(start - 1, start - 1 + count))


@pytest.mark.parametrize("start", [0, -3, 25])
def test_a_place_that_the_sheet_does_not_have_is_refused(start, sentence):
    """A place that the sheet does not have is refused."""
    with pytest.raises(InvalidInput) as refused:
        list(SHEETS["a4-24"].positions(1, start))
    assert re.search("places 1 to 24", sentence(refused.value))


def test_an_own_grid_says_the_same_as_the_sheet():
    """An own grid says the same as the sheet."""
    sheet = own_grid("3x8,63.5x33.9,7.25,12.9,2.5,0")

    assert [sheet.corner_mm(n) for n in range(24)] == [
        SHEETS["a4-24"].corner_mm(n) for n in range(24)
    ]


def test_gaps_may_be_left_out():
    """Gaps may be left out."""
    assert own_grid("2x2,50x50,10,10").gap_mm == (0.0, 0.0)


@pytest.mark.parametrize(
    "text", ["", "3x8", "3x8,63", "axb,1x1,0,0", "3x8,63.5x33.9,7,12,2", "3x8,80x33,7,12,2,0",
             "0x8,63.5x33.9,7,12,2,0", "3x8,63.5x33.9,-7,12,2,0", "3x8,5x5,0,0", "1,2,3,4,5,6,7"],
)
def test_what_is_no_grid_is_refused_in_one_sentence(text, sentence):
    """What is no grid is refused in one sentence."""
    with pytest.raises(InvalidInput) as refused:
        own_grid(text)

    assert sentence(refused.value).endswith(".")


def test_a_continuous_roll_takes_its_width_and_chooses_a_length():
    """A continuous roll takes its width and chooses a length."""
    assert roll("60mm").page_mm == (60.0, pytest.approx(33.0))
    assert roll("30 mm").page_mm[1] > 30


def test_a_die_cut_roll_takes_both():
    """A die cut roll takes both."""
    assert roll("60x80mm").page_mm == (60.0, 80.0)


@pytest.mark.parametrize("text", ["", "wide", "5mm", "400mm", "60x3mm", "1x2x3mm"])
def test_what_is_no_roll_is_refused(text):
    """What is no roll is refused."""
    with pytest.raises(InvalidInput):
        roll(text)


def test_an_unknown_sheet_names_the_known_ones(sentence):
    """An unknown sheet names the known ones."""
    with pytest.raises(InvalidInput) as refused:
        sheet_named("a5-3")
    assert re.search("a4-24, .*letter-30", sentence(refused.value))


def test_the_printers_correction_moves_every_label():
    """The printers correction moves every label."""
    plain, moved = SHEETS["a4-21"], SHEETS["a4-21"].shifted(0.5, -1.0)

    assert all(
        moved.corner_mm(n) == pytest.approx((x + 0.5, y - 1.0))
        for n in range(21) for x, y in [plain.corner_mm(n)]
    )
