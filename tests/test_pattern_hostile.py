"""Files that mean harm or mean nothing: one clear sentence each, never a hang or a traceback."""

from __future__ import annotations

import io
import re

import ezdxf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stash.errors import InvalidInput
from stash.model import Piece
from stash.pattern.drawn import Reading
from stash.pattern.dxf_writing import write_dxf
from stash.pattern.importing import read_pattern
from stash.pattern.pieces_svg import write_svg
from stash.sentences import Reader, say
from stash.units import System

SVG = b'<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="90mm" viewBox="0 0 90 90">'
BOMB = (
    b'<?xml version="1.0"?><!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa">'
    + b"".join(b'<!ENTITY b%d "&%s;&%s;">' % (i, p, p) for i, p in
               [(i, b"a" if i == 0 else b"b%d" % (i - 1)) for i in range(30)])
    + b']><svg xmlns="http://www.w3.org/2000/svg"><text>&b29;</text></svg>'
)
DOUBLINGS = b"".join(
    b'<g id="n%d"><use href="#n%d"/><use href="#n%d"/></g>' % (i, i - 1, i - 1)
    for i in range(1, 40)
)
FOREIGN_PREFIX = (
    b'<v:svg xmlns:v="http://www.w3.org/2000/svg" xmlns:k="http://www.w3.org/1999/xlink" '
    b'width="90mm" height="90mm" viewBox="0 0 90 90">'
    b'<v:g id="n0"><v:rect width="9" height="9"/></v:g>'
    + b"".join(b'<v:g id="n%d">%s</v:g>' % (i, b'<v:use k:href="#n%d"/>' % (i - 1) * 10)
               for i in range(1, 9))
    + b"</v:svg>"
)
ARCS = SVG + b'<path d="M0 0 ' + b"A5 5 0 0 1 9 9 1 1" * 60_000 + b'"/></svg>'
CURVES = SVG + b'<path d="M0 0 c' + b"5 5 9 0 1 2 " * 20_000 + b'"/></svg>'
PIECE = Piece(name="front", outline_mm=((0, 0), (200, 0), (200, 90), (0, 90)), quantity=2)


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", "empty"),
        (b"   \n", "empty"),
        (b"hello there", "neither an SVG nor a DXF"),
        (b"\x89PNG\r\n\x1a\n" + b"\0" * 50, "neither an SVG nor a DXF"),
        (b"<html><body/></html>", "not an SVG file"),
        (SVG + b"<g>", "line 1"),
        (BOMB, "entities"),
        (b'<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/passwd">]>' + SVG + b"</svg>", "entities"),
        (SVG + b"<g>" * 5000 + b"</g>" * 5000 + b"</svg>", "nested too deep"),
        (SVG + b"<path d='M0 0'/>" * 60_000 + b"</svg>", "more shapes"),
        (SVG + b'<g id="n0"><rect width="9" height="9"/></g>' + DOUBLINGS + b"</svg>", "too often"),
        (FOREIGN_PREFIX, "too often"),
        (ARCS, "too often"),
        (CURVES, "too often"),
        (SVG + b'<g id="a"><use href="#a"/></g></svg>', "without end"),
        (SVG + b"</svg>", "no closed shape"),
        (SVG + b'<path d="M0 0 L50 50"/></svg>', "no closed shape"),
        (SVG + b'<path d="M0 0 L1e9 0 L1e9 1e9 z"/></svg>', "units"),
        (SVG + b'<path d="M0,0 L60,60 L60,0 L0,60 z"/></svg>', "crosses itself"),
        (SVG + b" " * 11_000_000 + b"</svg>", "larger than 10 MB"),
        (b"0\nSECTION\n2\nHEADER\n" + b"9\n" * 2000, "."),
        (b"0\nSECTION\n" + b"\0" * 21_000_000, "larger than 20 MB"),
    ],
)
def test_each_gets_its_sentence(data, says, sentence):
    """The message says what is wrong and ends like a sentence."""
    with pytest.raises(InvalidInput) as refusal:
        read_pattern(data)
    assert re.search(says, sentence(refusal.value))
    assert sentence(refusal.value).endswith(".")


def test_not_a_number_is_no_point():
    """A DXF with NaN coordinates yields a sentence or nothing, never a piece of NaN."""
    drawing = ezdxf.new("R2010", units=4)
    block = drawing.blocks.new("A")
    ring = [(0, 0), (float("nan"), 0), (100, 100)]
    block.add_polyline2d(ring, close=True, dxfattribs={"layer": "1"})
    stream = io.StringIO()
    drawing.write(stream)

    with pytest.raises(InvalidInput):
        read_pattern(stream.getvalue().encode())


def test_blocks_that_contain_each_other_do_not_hang():
    """Inserts inside blocks are not followed."""
    drawing = ezdxf.new("R2010", units=4)
    a, b = drawing.blocks.new("A"), drawing.blocks.new("B")
    a.add_blockref("B", (0, 0))
    b.add_blockref("A", (0, 0))
    a.add_lwpolyline([(0, 0), (90, 0), (90, 90)], close=True, dxfattribs={"layer": "1"})
    stream = io.StringIO()
    drawing.write(stream)

    assert len(read_pattern(stream.getvalue().encode()).pieces) == 1


def told_or_read(data: bytes) -> None:
    """Either a reading or the sentence of an InvalidInput."""
    try:
        assert isinstance(read_pattern(data, "mm"), Reading)
    except InvalidInput as error:
        assert say(error.fact, Reader(System.METRIC)).endswith(".")


damage = st.lists(
    st.tuples(st.floats(0, 1), st.binary(min_size=0, max_size=4), st.integers(0, 30)), max_size=6
)


def damaged(data: bytes, damage: list[tuple[float, bytes, int]]) -> bytes:
    """The bytes with some cut out and others put in."""
    for share, put, cut in damage:
        at = int(share * len(data))
        data = data[:at] + put + data[at + cut :]
    return data


@settings(deadline=None, max_examples=120)
@given(damage)
def test_a_damaged_svg_is_read_or_refused(damage):
    """Whatever is cut out of it or written over it."""
    told_or_read(damaged(write_svg([PIECE]).encode(), damage))


DXF = write_dxf([PIECE])


@settings(deadline=None, max_examples=60)
@given(damage)
def test_a_damaged_dxf_is_read_or_refused(damage):
    """Whatever is cut out of it or written over it."""
    told_or_read(damaged(DXF, damage))


@settings(deadline=None)
@given(st.text(max_size=60))
def test_any_path_data_is_read_or_refused(text):
    """The d attribute holds anything that XML allows."""
    from xml.sax.saxutils import quoteattr

    clean = "".join(c for c in text if c.isprintable())
    told_or_read(SVG + f"<path d={quoteattr('M0,0 ' + clean)}/></svg>".encode())
