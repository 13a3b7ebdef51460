"""Pieces out of SVG drawings."""

from __future__ import annotations

import re
from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.affinity import translate
from shapely.geometry import Polygon

from stash.errors import InvalidInput
from stash.fact import fact
from stash.model import Piece
from stash.pattern.pieces_svg import write_svg
from stash.pattern.svg_reading import read_svg

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '


def drawing(body: str, size: str = 'width="400mm" height="600mm" viewBox="0 0 400 600"') -> bytes:
    """An SVG file around some shapes."""
    return f"{HEAD}{size}>{body}</svg>".encode()


def sizes(data: bytes, **options) -> list[tuple[float, float]]:
    """Width and height of each piece as drawn."""
    return [tuple(round(v, 2) for v in s) for s in read_svg(data, **options).drawn_mm]


@pytest.mark.parametrize(
    ("size", "expected"),
    [
        ('width="400mm" height="600mm" viewBox="0 0 400 600"', (300, 500)),
        ('width="40cm" height="60cm" viewBox="0 0 400 600"', (300, 500)),
        ('width="4in" height="6in" viewBox="0 0 400 600"', (76.2, 127)),
        ('width="800mm" height="1200mm" viewBox="0 0 400 600"', (600, 1000)),
        ('width="288pt" height="432pt" viewBox="0 0 400 600"', (76.2, 127)),
    ],
)
def test_the_physical_size_sets_the_scale(size, expected):
    """A rectangle of 300 x 500 units; 72 pt are one inch (CSS Values and Units)."""
    data = drawing('<rect x="20" y="30" width="300" height="500"/>', size)

    assert sizes(data) == [pytest.approx(expected, abs=0.01)]


@pytest.mark.parametrize("size", ['width="400" height="600"', 'width="400px" height="600px"', "",
                                  'width="100%" height="100%" viewBox="0 0 4 6"', 'width="40cm"'])
def test_without_a_physical_size_it_is_refused_saying_why(size, sentence):
    """Pixels have no size; the sentence says so and what to do."""
    with pytest.raises(InvalidInput) as refusal:
        read_svg(drawing('<rect width="300" height="500"/>', size))
    assert re.search("pixels have no fixed size", sentence(refusal.value))
    assert "--units" in sentence(refusal.value)


def test_units_can_be_given_instead():
    """Then one unit of the drawing is one centimetre, whatever the page."""
    data = drawing('<rect width="30" height="50"/>', 'width="800" height="800" viewBox="0 0 80 80"')

    assert sizes(data, units="cm") == [(300, 500)]


def test_transforms_are_applied():
    """Scaled, turned and shifted through nested groups."""
    body = (
        '<g transform="translate(200,200) scale(2)"><g transform="rotate(90)">'
        '<path d="M0,0 h50 v20 h-50 z"/></g></g>'
    )

    assert sizes(drawing(body)) == [(40, 100)]


def test_repeated_shapes_are_pieces_and_definitions_are_not():
    """``use`` draws what ``defs`` only keeps."""
    body = '<defs><rect id="a" width="50" height="90"/></defs><use xlink:href="#a" x="9" y="9"/>'

    assert sizes(drawing(body)) == [(50, 90)]


def test_curves_keep_to_a_tenth_of_a_millimetre():
    """A circle of radius 150 mm has its area within 0.1 mm of radius."""
    (piece,) = read_svg(drawing('<circle cx="200" cy="200" r="150"/>')).pieces
    area = Polygon(piece.outline_mm).area

    assert pi * 149.9**2 < area <= pi * 150**2


def test_bezier_curves_keep_to_a_tenth_of_a_millimetre():
    """A hump whose control points stand h over its ends encloses 3/5 w h (by integration)."""
    (piece,) = read_svg(drawing('<path d="M0,300 C0,100 300,100 300,300 z"/>')).pieces

    assert Polygon(piece.outline_mm).area == pytest.approx(0.6 * 200 * 300, rel=0.001)


def test_the_grain_runs_down_the_page_unless_said():
    """The longer side of an upright piece becomes its length along the grain."""
    data = drawing('<rect width="300" height="500"/>')
    upright, level = read_svg(data).pieces[0], read_svg(data, grain_deg=0.0).pieces[0]

    assert Polygon(upright.outline_mm).bounds == pytest.approx((0, 0, 500, 300), abs=0.01)
    assert Polygon(level.outline_mm).bounds == pytest.approx((0, 0, 300, 500), abs=0.01)


def test_a_piece_is_turned_never_mirrored():
    """An L-shaped piece stays the same hand: its cut-out corner keeps its side."""
    data = drawing('<path d="M0,0 h200 v100 h-100 v300 h-100 z"/>')
    (piece,) = read_svg(data).pieces
    shape = Polygon(piece.outline_mm)
    drawn_left, foot_of_leg = shape.bounds[1], shape.bounds[2]

    assert shape.distance(Polygon([(foot_of_leg, drawn_left), (foot_of_leg, drawn_left + 1),
                                   (foot_of_leg - 1, drawn_left)])) == 0


def test_names_quantities_and_inner_lines_are_read():
    """The group's name, the words on the piece, and what is drawn inside it."""
    body = (
        '<g id="sleeve"><path id="path7" d="M0,0 h200 v300 h-200 z"/>'
        '<text x="50" y="90">cut 1 pair</text><path d="M100,50 v200"/>'
        '<circle cx="60" cy="200" r="9"/></g>'
    )
    (piece,) = read_svg(drawing(body)).pieces

    assert (piece.name, piece.quantity, piece.mirrored_pair) == ("sleeve", 2, True)
    assert len(piece.marks_mm) == 2


def test_a_fold_that_is_only_spoken_of_is_pointed_out():
    """Which edge lies on the fold cannot be known, so nobody guesses."""
    body = '<rect id="back" width="100" height="300"/><text x="9" y="90">cut 1 on fold</text>'
    reading = read_svg(drawing(body))

    assert not reading.pieces[0].on_fold
    assert fact("fold_not_drawn", piece="back") in reading.notes


def test_the_frame_of_the_page_is_no_piece():
    """A background is left out and said to be."""
    body = '<rect width="400" height="600"/><rect x="20" y="20" width="90" height="200"/>'
    reading = read_svg(drawing(body))

    assert [tuple(map(round, s)) for s in reading.drawn_mm] == [(90, 200)]
    assert fact("page_frame_left_out") in reading.notes


PIECE = Piece(
    name="front", outline_mm=((0, 0), (0, 200), (280, 300), (1040, 210), (1040, 40), (300, 0)),
    stitch_mm=((15, 15), (15, 185), (270, 280), (1000, 195), (1000, 55), (300, 15)),
    notches_mm=((300.0, 0.0),), quantity=2, mirrored_pair=True,
)
FOLDED = Piece(
    name="yoke", outline_mm=((0, -200), (30, 0), (0, 200), (140, 210), (150, 0), (140, -210)),
    on_fold=True,
)


@pytest.mark.parametrize("piece", [PIECE, FOLDED])
def test_our_own_drawing_comes_back_as_it_was(piece):
    """Full-size SVG out and in again: outline to 0.01 mm, and everything said about it."""
    (back,) = read_svg(write_svg([piece]).encode()).pieces
    shape, true = Polygon(back.outline_mm), Polygon(piece.outline_mm)
    moved = translate(shape, true.bounds[0] - shape.bounds[0], true.bounds[1] - shape.bounds[1])

    assert moved.hausdorff_distance(true) < 0.01
    assert (back.name, back.quantity, back.mirrored_pair, back.on_fold) == (
        piece.name, piece.quantity, piece.mirrored_pair, piece.on_fold
    )
    assert len(back.notches_mm) == len(piece.notches_mm)


@settings(deadline=None, max_examples=25)
@given(st.floats(-180, 180), st.floats(0.2, 3), st.floats(-50, 50))
def test_area_scales_with_any_transform(turn, scale, shift):
    """Turning and shifting change no area; scaling changes it by its square."""
    body = (
        f'<path transform="translate({shift:.3f},{shift:.3f}) rotate({turn:.3f}) '
        f'scale({scale:.4f})" d="M0,0 L200,0 L150,120 z"/>'
    )
    (piece,) = read_svg(drawing(body)).pieces

    assert Polygon(piece.outline_mm).area == pytest.approx(12_000 * scale**2, rel=0.002)
