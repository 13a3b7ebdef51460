"""Pattern DXF by the layers of ASTM D6673-10 (layer table as reproduced in public documentation).

Files are written and read on the other side by ezdxf alone.
"""

from __future__ import annotations

import io
import re
from math import cos, pi, sin

import ezdxf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.affinity import translate
from shapely.geometry import Polygon

from stash.errors import InvalidInput
from stash.model import Piece, Role
from stash.pattern.dxf_reading import read_dxf
from stash.pattern.dxf_writing import block_names, write_dxf

FRONT = Piece(
    name="front",
    outline_mm=((0, 0), (0, 200), (280, 300), (1040, 210), (1040, 40), (300, 0)),
    stitch_mm=((15, 15), (15, 185), (270, 280), (1000, 195), (1000, 55), (300, 15)),
    notches_mm=((300.0, 0.0),),
    marks_mm=(((100.0, 50.0), (160.0, 80.0), (100.0, 110.0)),),
    quantity=2,
    mirrored_pair=True,
)
YOKE = Piece(
    name="yoke",
    outline_mm=((0, -200), (30, 0), (0, 200), (140, 210), (150, 0), (140, -210)),
    quantity=2,
    on_fold=True,
    role=Role.INTERFACING,
)


def document(data: bytes) -> ezdxf.document.Drawing:
    """The file as ezdxf reads it."""
    return ezdxf.read(io.StringIO(data.decode("ascii")))


def saved(drawing: ezdxf.document.Drawing) -> bytes:
    """The bytes of a drawing made with ezdxf."""
    stream = io.StringIO()
    drawing.write(stream)
    return stream.getvalue().encode("utf-8")


def square_block(drawing: ezdxf.document.Drawing, name: str = "BACK", size: float = 300.0):
    """A block with a square boundary on layer 1, used once."""
    block = drawing.blocks.new(name)
    ring = [(0, 0), (size, 0), (size, size), (0, size)]
    block.add_polyline2d(ring, close=True, dxfattribs={"layer": "1"})
    drawing.modelspace().add_blockref(name, (0, 0))
    return block


def in_place(piece: Piece) -> Polygon:
    """A piece's outline with its box at the origin."""
    shape = Polygon(piece.outline_mm)
    return translate(shape, -shape.bounds[0], -shape.bounds[1])


def test_one_block_a_piece_with_numbered_layers():
    """Boundary 1, turn and curve points 2 and 3, notch 4, mirror 6, grain 7, internal 8, sew 14,
    text 15."""
    drawing = document(write_dxf([FRONT, YOKE]))
    layers = {e.dxf.layer for e in drawing.blocks.get("FRONT")}

    assert layers == {"1", "2", "3", "4", "7", "8", "14", "15"}
    assert "6" in {e.dxf.layer for e in drawing.blocks.get("YOKE")}
    assert drawing.header["$INSUNITS"] == 4


def test_the_boundary_has_the_pieces_area():
    """ezdxf's polyline encloses what the outline encloses."""
    (boundary,) = document(write_dxf([FRONT])).blocks.get("FRONT").query('POLYLINE[layer=="1"]')
    shape = Polygon([(v.x, v.y) for v in boundary.points()])

    assert shape.area == pytest.approx(Polygon(FRONT.outline_mm).area)


def test_texts_are_seven_bit_and_names_keep_their_letters():
    """The standard asks for 7-bit ASCII; "Rückenteil" survives the round trip all the same."""
    data = write_dxf([Piece(name="Rückenteil", outline_mm=FRONT.outline_mm)])
    data.decode("ascii")

    assert read_dxf(data).pieces[0].name == "Rückenteil"


def test_block_names_differ_however_alike_the_pieces_are():
    """"a b", "a/b" and "??" become plain, different names."""
    assert block_names(["a b", "a/b", "??"]) == ["A_B", "A_B_2", "PIECE"]


@pytest.mark.parametrize("piece", [FRONT, YOKE])
def test_a_piece_comes_back_as_it_was(piece):
    """Outline, quantity, pair, fold, role, stitching line and notches survive."""
    (back,) = read_dxf(write_dxf([piece])).pieces

    assert in_place(back).symmetric_difference(in_place(piece)).area < 0.01
    assert (back.name, back.quantity, back.mirrored_pair, back.on_fold, back.role) == (
        piece.name, piece.quantity, piece.mirrored_pair, piece.on_fold, piece.role
    )
    assert len(back.notches_mm) == len(piece.notches_mm)
    assert Polygon(back.stitch_mm).area == pytest.approx(Polygon(piece.stitch_mm).area)


radii = st.lists(st.floats(60, 400), min_size=5, max_size=24)


@settings(deadline=None, max_examples=25)
@given(radii)
def test_any_star_shaped_piece_comes_back_within_a_hundredth(radii):
    """Round trip through the file for outlines of every kind."""
    turn = 2 * pi / len(radii)
    ring = tuple((r * cos(i * turn), r * sin(i * turn)) for i, r in enumerate(radii))
    piece = Piece(name="star", outline_mm=ring)
    (back,) = read_dxf(write_dxf([piece])).pieces

    assert in_place(back).hausdorff_distance(in_place(piece)) < 0.05


def test_a_half_piece_with_a_mirror_line_is_opened_out():
    """Layer 6 on its edge: the piece is given whole and cut on the fold."""
    drawing = ezdxf.new("R2000", units=4)
    block = square_block(drawing, size=200.0)
    block.add_line((0, 0), (200, 0), dxfattribs={"layer": "6"})
    block.add_line((50, 100), (150, 100), dxfattribs={"layer": "7"})
    (piece,) = read_dxf(saved(drawing)).pieces

    assert piece.on_fold
    assert Polygon(piece.outline_mm).bounds == pytest.approx((0, -200, 200, 200))


def test_the_grainline_turns_the_piece():
    """A grain drawn upwards in the file becomes the x axis of the piece."""
    drawing = ezdxf.new("R2000", units=4)
    block = drawing.blocks.new("BACK")
    ring = [(0, 0), (100, 0), (100, 400), (0, 400)]
    block.add_polyline2d(ring, close=True, dxfattribs={"layer": "1"})
    block.add_line((50, 50), (50, 350), dxfattribs={"layer": "7"})
    reading = read_dxf(saved(drawing))
    left, low, right, high = Polygon(reading.pieces[0].outline_mm).bounds

    assert (right - left, high - low) == pytest.approx((400, 100))
    assert reading.drawn_mm[0] == pytest.approx((100, 400))


@pytest.mark.parametrize(
    ("texts", "quantity", "pair"),
    [
        (["Piece Name: BACK", "Quantity: 3"], 3, False),
        (["Quantity: 1,1"], 2, True),
        (["QTY=2", "mirrored"], 2, True),
        (["cut a pair"], 2, True),
        (["CUT 4"], 4, False),
        (["Left & Right"], 2, True),
        ([], 1, False),
    ],
)
def test_quantity_and_pairs_are_read_where_the_file_says_them(texts, quantity, pair):
    """From the annotation texts of the block."""
    drawing = ezdxf.new("R2000", units=4)
    block = square_block(drawing)
    for text in texts:
        block.add_text(text, dxfattribs={"layer": "15"})
    (piece,) = read_dxf(saved(drawing)).pieces

    assert (piece.quantity, piece.mirrored_pair) == (quantity, pair)


def test_a_block_used_twice_once_mirrored_is_a_pair():
    """Where no text says it, the number of times the block is used does."""
    drawing = ezdxf.new("R2000", units=4)
    square_block(drawing)
    drawing.modelspace().add_blockref("BACK", (900, 0), dxfattribs={"xscale": -1})
    (piece,) = read_dxf(saved(drawing)).pieces

    assert (piece.quantity, piece.mirrored_pair) == (2, True)


def test_r12_has_no_units_so_they_are_asked_for(sentence):
    """The sentence names the option; with it the same file is read."""
    drawing = ezdxf.new("R12")
    square_block(drawing, size=30.0)
    data = saved(drawing)

    with pytest.raises(InvalidInput) as refusal:
        read_dxf(data)
    assert re.search("--units mm", sentence(refusal.value))
    assert refusal.value.field == "units"
    assert read_dxf(data, "cm").drawn_mm[0] == pytest.approx((300, 300))


def test_inches_are_converted_as_the_header_says():
    """$INSUNITS 1 is inches (DXF Reference): a 12 in square is 304.8 mm."""
    drawing = ezdxf.new("R2010", units=1)
    square_block(drawing, size=12.0)

    assert read_dxf(saved(drawing)).drawn_mm[0] == pytest.approx((304.8, 304.8))


def test_arcs_and_loose_lines_are_joined():
    """A half disc of a line and an arc has the area of one to 0.1 mm on its radius."""
    drawing = ezdxf.new("R2010", units=4)
    space = drawing.modelspace()
    space.add_line((-100, 0), (100, 0))
    space.add_arc((0, 0), 100, 0, 180)
    (piece,) = read_dxf(saved(drawing)).pieces

    assert Polygon(piece.outline_mm).area == pytest.approx(pi * 100**2 / 2, rel=0.002)


def test_plain_closed_lines_are_pieces_and_what_lies_in_them_marks():
    """A file without blocks or numbered layers."""
    drawing = ezdxf.new("R2010", units=4)
    space = drawing.modelspace()
    space.add_lwpolyline([(0, 0), (300, 0), (300, 200), (0, 200)], close=True)
    space.add_circle((100, 100), 20)
    space.add_lwpolyline([(400, 0), (500, 0), (500, 200), (400, 200)], close=True)
    pieces = read_dxf(saved(drawing)).pieces

    assert [len(p.marks_mm) for p in pieces] == [1, 0]
    assert len({p.name for p in pieces}) == 2


def test_a_piece_forty_metres_long_means_wrong_units(sentence):
    """It says so, and which option helps."""
    drawing = ezdxf.new("R2010", units=6)
    square_block(drawing, size=40.0)

    with pytest.raises(InvalidInput) as refused:
        read_dxf(saved(drawing))
    assert re.search("--units", sentence(refused.value))
