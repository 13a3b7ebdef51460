"""Pieces typed in from paper."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon

from stash.errors import InvalidInput
from stash.model import Part, Role
from stash.pattern.annotation import read_annotation
from stash.pattern.part_words import part_named
from stash.pattern.typed import TypedPiece, parse_typed, typed_piece


def test_a_rectangle_is_length_by_width():
    """104 cm along the grain, 30 cm across, cut twice as a mirrored pair."""
    piece = parse_typed("front, 104cm x 30cm, cut 2, mirrored")
    left, low, right, high = Polygon(piece.outline_mm).bounds

    assert (piece.name, piece.quantity, piece.mirrored_pair) == ("front", 2, True)
    assert (right - left, high - low) == (1040, 300)


def test_on_the_fold_the_width_is_measured_from_the_fold():
    """The paper is half the piece: 20 cm at the top, 28 cm at the foot open out to twice that."""
    piece = parse_typed("back, 70cm x 20cm-28cm, on fold")
    shape = Polygon(piece.outline_mm)

    assert piece.on_fold
    assert shape.bounds == (0, -280, 700, 280)
    assert shape.area == pytest.approx(700 * (400 + 560) / 2)


def test_inches_and_fractions_are_understood():
    """10 in x 5 1/2 in of interfacing."""
    piece = parse_typed("band, 10in x 5 1/2in, interfacing")
    left, low, right, high = Polygon(piece.outline_mm).bounds

    assert (right - left, high - low) == pytest.approx((254, 139.7))
    assert piece.role is Role.INTERFACING


@pytest.mark.parametrize(
    "text", ["", "front", "front, long", ", 10cm x 10cm", "front, 0cm x 10cm", "front, 20m x 1cm",
             "front, 10cm x 0cm", "front, 10cm x 10cm x 10cm"],
)
def test_what_is_no_piece_gets_one_sentence(text, sentence):
    """And no piece."""
    with pytest.raises(InvalidInput) as refusal:
        parse_typed(text)
    assert sentence(refusal.value).endswith(".")


def test_an_odd_number_of_mirrored_pieces_is_refused(sentence):
    """Pairs are even."""
    with pytest.raises(InvalidInput) as refused:
        typed_piece(TypedPiece(name="a", length_mm=9, widths_mm=(9,), quantity=3,
                               mirrored_pair=True))
    assert re.search("even", sentence(refused.value))


@given(st.floats(10, 3000), st.lists(st.floats(5, 900), min_size=1, max_size=6), st.booleans())
def test_the_outline_is_as_wide_as_said_and_symmetrical(length, widths, on_fold):
    """Greatest width as typed (twice it on the fold), the same on both sides of y = 0."""
    typed = TypedPiece(name="a", length_mm=length, widths_mm=tuple(widths), on_fold=on_fold)
    shape = Polygon(typed_piece(typed).outline_mm)
    left, low, right, high = shape.bounds

    assert right - left == pytest.approx(length)
    assert high - low == pytest.approx(max(widths) * (2 if on_fold else 1))
    assert low == pytest.approx(-high)


@pytest.mark.parametrize(
    ("text", "quantity", "pair", "fold"),
    [
        ("cut 2 on fold", 2, False, True),
        ("2 x", 2, False, False),
        ("x4 mirrored", 4, True, False),
        ("cut two pairs", 4, True, False),
        ("mirror line", None, False, False),
        ("Size: 40", None, False, False),
        ("cut 0", None, False, False),
    ],
)
def test_cutting_words(text, quantity, pair, fold):
    """Words as they stand on paper patterns (common practice, no source)."""
    said = read_annotation([text])

    assert (said.quantity, said.mirrored_pair, said.on_fold) == (quantity, pair, fold)


@pytest.mark.parametrize(
    ("name", "part"),
    [("Front", Part.FRONT), ("front facing", Part.FACING), ("Collar stand", Part.COLLAR_STAND),
     ("pocket-bag", Part.POCKET), ("Waistband (cut 1)", Part.WAISTBAND), ("Manche", Part.SLEEVE),
     ("back yoke", Part.YOKE), ("Rückenteil", Part.BACK), ("gusset", Part.BODY)],
)
def test_a_name_says_once_which_part_a_piece_is(name, part):
    """Read where the piece comes in; what is read wrongly is set right afterwards."""
    assert part_named(name) is part
    assert parse_typed(f"{name}, 20cm x 10cm").part is part
