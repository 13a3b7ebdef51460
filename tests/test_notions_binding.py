"""Bias binding: strip length, joins, and the cloth it is cut from."""

from __future__ import annotations

import re
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, box

from stash.errors import InvalidInput
from stash.model import NotionKind
from stash.notions import bias_strips, binding_length_mm, binding_need, strip_width_mm


def test_a_single_binding_is_cut_four_times_its_finished_width():
    """Common practice, no source."""
    assert strip_width_mm(10.0) == 40.0


def test_one_strip_between_the_selvedges_is_the_width_times_root_two():
    """Arithmetic: 1 m of cloth gives a slant of 141.4 cm, less the squared ends."""
    assert bias_strips(1000 * sqrt(2) - 40, 40.0, 1000.0).strips == 1
    assert bias_strips(1000 * sqrt(2) - 39, 40.0, 1000.0).strips == 2


@given(st.floats(100, 20000), st.floats(15, 80), st.floats(300, 1600))
def test_the_strips_hold_the_length_and_one_fewer_would_not(length, strip, width):
    """Length won = strips x slant, less the joins and the squared ends."""
    cut = bias_strips(length, strip, width)
    join = 2 * 6 * sqrt(2)

    def won(strips: int) -> float:
        return strips * width * sqrt(2) - (strips - 1) * join - strip

    assert won(cut.strips) >= length - 1e-6
    assert cut.strips == 1 or won(cut.strips - 1) < length
    assert cut.joins == cut.strips - 1
    assert cut.area_mm2 >= length * strip - 1e-6


@given(st.integers(1, 12), st.floats(15, 80), st.floats(300, 1600))
def test_the_slanting_strips_lie_inside_the_stated_cloth(strips, strip, width):
    """Drawn with shapely: parallelograms at 45 degrees, edge to edge, none outside."""
    join = 2 * 6 * sqrt(2)
    length = strips * width * sqrt(2) - (strips - 1) * join - strip
    cut = bias_strips(length, strip, width)
    step = strip * sqrt(2)
    drawn = [
        Polygon([(i * step, 0), ((i + 1) * step, 0),
                 ((i + 1) * step + width, width), (i * step + width, width)])
        for i in range(cut.strips)
    ]
    cloth = box(0, 0, cut.cloth_length_mm, width).buffer(1e-6)

    assert all(cloth.covers(shape) for shape in drawn)
    assert sum(shape.area for shape in drawn) == pytest.approx(cut.area_mm2)


def test_ends_are_turned_in():
    """5 cm more than the edge: common practice, no source."""
    assert binding_length_mm(1500.0) == 1550.0


def test_a_binding_need_names_its_finished_width():
    """The neck of a tunic, 10 mm showing."""
    need = binding_need(600.0, 10.0, "neck")

    assert (need.kind, need.length_mm, need.size_mm[1]) == (NotionKind.BINDING, 650.0, 10.0)


def test_cloth_narrower_than_two_strips_gives_no_binding(sentence):
    """The message says why."""
    with pytest.raises(InvalidInput) as refused:
        bias_strips(500.0, 40.0, 80.0)
    assert re.search("too narrow", sentence(refused.value))
