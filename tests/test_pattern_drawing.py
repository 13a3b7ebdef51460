"""Pieces drawn as SVG, read back through svgelements, which shares no code with the drawing."""

from __future__ import annotations

import io
from xml.etree import ElementTree

import pytest
import svgelements
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Point, Polygon, box

from stash.model import Pattern, Piece, Role
from stash.pattern.arrange import arrange
from stash.pattern.figure import Figure, Ink, Style, draw_piece
from stash.pattern.pieces_svg import preview_svg, write_svg
from stash.sentences import Reader
from stash.units import System

MM_PER_PX = 25.4 / 96
LEG = Piece(
    name="leg",
    outline_mm=((0, 0), (0, 200), (280, 300), (700, 230), (1040, 210), (1040, 40), (300, 0)),
    stitch_mm=((15, 15), (15, 185), (270, 280), (1000, 195), (1000, 55), (300, 15)),
    notches_mm=((300.0, 0.0),),
    quantity=2,
    mirrored_pair=True,
)
YOKE = Piece(
    name="yoke & <band>",
    outline_mm=((0, -200), (30, 0), (0, 200), (140, 210), (150, 0), (140, -210)),
    on_fold=True,
    quantity=2,
    role=Role.INTERFACING,
)
STRIP = Piece(name="binding", outline_mm=((0, 0), (900, 0), (900, 32), (0, 32)), grain_turn_deg=45)
PIECES = (LEG, YOKE, STRIP)


def elements(text: str, kind: str) -> list[svgelements.Shape]:
    """Shapes of one class, placed in px by svgelements."""
    document = svgelements.SVG.parse(io.StringIO(text))
    return [
        e for e in document.elements()
        if isinstance(e, svgelements.Shape) and e.values.get("class") == kind
    ]


def size_mm(shape: svgelements.Shape) -> tuple[float, float]:
    """Width and height of a shape in mm."""
    left, top, right, foot = shape.bbox()
    return (right - left) * MM_PER_PX, (foot - top) * MM_PER_PX


def test_cutting_lines_have_their_true_size():
    """The full-size drawing shows each piece upright, its length down the page, to 0.01 mm."""
    sizes = [size_mm(shape) for shape in elements(write_svg(PIECES), "cut")]

    for (width, height), piece in zip(sizes, PIECES, strict=True):
        xs, ys = zip(*piece.outline_mm, strict=True)
        assert (width, height) == pytest.approx((max(ys) - min(ys), max(xs) - min(xs)), abs=0.01)


def test_test_square_is_50_mm():
    """The square that shows whether a printer scaled measures 50 mm by another reader."""
    (square,) = elements(write_svg(PIECES), "test-square")

    assert size_mm(square) == pytest.approx((50.0, 50.0), abs=0.001)


def test_drawing_states_millimetres():
    """One user unit is one millimetre: width and height in mm equal the view box."""
    root = ElementTree.fromstring(write_svg(PIECES))
    _, _, width, height = map(float, root.get("viewBox").split())

    assert (root.get("width"), root.get("height")) == (f"{width:.3f}mm", f"{height:.3f}mm")


def test_preview_has_no_physical_size():
    """The small drawing fits wherever the page puts it."""
    root = ElementTree.fromstring(preview_svg(PIECES))

    assert root.get("width") is None
    assert root.get("viewBox")


def test_names_are_text_never_markup():
    """A piece named with markup appears literally."""
    root = ElementTree.fromstring(write_svg(PIECES, title="<script>"))
    texts = ["".join(e.itertext()) for e in root.iter()]

    assert "yoke & <band>" in texts
    assert not list(root.iter("{http://www.w3.org/2000/svg}script"))


def test_words_say_how_many_to_cut():
    """Quantity, mirrored pairs, fold, bias and role stand beside the name."""
    text = write_svg(PIECES)

    assert "cut 2, a mirrored pair" in text
    assert "cut 2 on the fold" in text
    assert "interfacing" in text
    assert "on the bias" in text


def test_dimensions_follow_the_persons_units():
    """The length of the leg is 104 cm, or 41 in: a pattern is never in metres or yards."""
    assert "104 cm" in write_svg([LEG])
    assert "41 in" in write_svg([LEG], reader=Reader(System.INCHES))


def test_a_pattern_gives_its_garment_as_title():
    """Nothing else was said, so the garment is the title."""
    assert "<title>apron</title>" in write_svg(Pattern(garment="apron", pieces=(LEG,)))


def test_the_grainline_lies_on_the_piece_along_its_length():
    """Shaft and piece: inside, and straight down the page unless on the bias."""
    for piece in (LEG, YOKE):
        figure = draw_piece(piece, Style())
        shaft = next(s for s in figure.strokes if s.ink is Ink.GRAIN)
        (x0, y0), (x1, y1) = shaft.points_mm
        assert x0 == pytest.approx(x1)
        assert figure.shape.contains(box(x0 - 0.1, min(y0, y1), x0 + 0.1, max(y0, y1)))


def test_a_bias_piece_shows_its_grain_at_45_degrees():
    """The strip's arrow runs as far across as down."""
    shaft = next(s for s in draw_piece(STRIP, Style()).strokes if s.ink is Ink.GRAIN)
    (x0, y0), (x1, y1) = shaft.points_mm

    assert abs(x1 - x0) == pytest.approx(abs(y1 - y0))


def test_a_fold_piece_can_be_drawn_as_its_half():
    """For printing, the half that lies on the fold is half the area."""
    half = draw_piece(YOKE, Style(half_on_fold=True)).shape

    assert half.area == pytest.approx(Polygon(YOKE.outline_mm).area / 2)


def test_a_notch_reaches_inwards_from_the_edge():
    """It starts on the cutting line and ends inside."""
    figure = draw_piece(LEG, Style())
    (notch,) = [s for s in figure.strokes if s.ink is Ink.NOTCH]
    start, end = map(Point, notch.points_mm)

    assert figure.shape.exterior.distance(start) < 0.01
    assert figure.shape.contains(end)


sizes_mm = st.tuples(st.floats(20, 1500), st.floats(20, 900))


@settings(deadline=None)
@given(st.lists(sizes_mm, min_size=1, max_size=12), st.floats(1, 60))
def test_no_two_pieces_overlap_and_all_keep_their_distance(sizes, gap):
    """Whatever their sizes, figures lie apart and inside the sheet."""
    figures = [Figure(STRIP, box(0, 0, w, h), (), (), w, h) for w, h in sizes]
    sheet = arrange(figures, gap_mm=gap)

    boxes = [box(*f.shape.bounds) for f in sheet.figures]
    for i, one in enumerate(boxes):
        for other in boxes[i + 1 :]:
            assert one.distance(other) >= gap - 1e-6
        assert one.bounds[0] >= -1e-6 and one.bounds[1] >= -1e-6
        assert one.bounds[2] <= sheet.width_mm + 1e-6
        assert one.bounds[3] <= sheet.height_mm + 1e-6
