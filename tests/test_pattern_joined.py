"""A whole sheet of pieces in several photographs, put together by the calibration sheets.

Rendered, so that the truth is known; each photograph has a tilt, a turn, a height and an
exposure of its own. All figures: ``bench/joined_error.py``.
"""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from joined_error import FLOOR, LONG, PIECES, SHEETS, apart_mm, cameras
from shapely.geometry import Polygon
from trace_photo import Camera, Scene, photographs

from stash.errors import InvalidInput
from stash.eye.outlines.trace import trace_photos
from stash.pattern.traced import trace_over

SIZE = (2400, 1800)
SMALL = replace(FLOOR, density=1.6)


@pytest.fixture(scope="module")
def three() -> list[bytes]:
    """Three photographs in a row, one of the sheets shared by each two neighbours."""
    return photographs(replace(SMALL, seed=41), cameras(3, 41, SIZE))


@pytest.fixture(scope="module")
def joined(three):
    """What is traced from them."""
    return trace_over(three)


def test_every_piece_is_found_once_over_the_photographs_that_show_it(joined):
    """Four pieces, of which no photograph shows all; it is said which were put together."""
    assert len(joined.reading.pieces) == len(PIECES)
    assert joined.together == ((1, 2, 3),)


def test_outlines_are_true_within_a_millimetre_and_a_half_over_a_metre_and_a_half(joined):
    """Nowhere does an outline lie further from the true one; the stated error is no larger."""
    true = sorted(PIECES, key=lambda ring: -Polygon(ring).area)
    for piece, ring, error in zip(joined.reading.pieces, true, joined.errors_mm, strict=True):
        turned = straight_from_the_floor(piece.outline_mm, ring)
        assert turned < 1.5
        assert error < 1.5


def straight_from_the_floor(outline, ring) -> float:
    """How far a piece lies from the truth, whichever way round it was laid along its grain."""
    ways = [[(x, y) for x, y in outline], [(-x, -y) for x, y in outline]]
    quarter = Polygon([(x, -y) for x, y in ring])
    from numpy import cos, radians, sin

    from stash.pattern.drawn import longest_axis_deg

    turn = radians(longest_axis_deg(list(quarter.exterior.coords)[:-1]))
    upright = [[(x * cos(turn) - y * sin(turn), x * sin(turn) + y * cos(turn)) for x, y in way]
               for way in ways]
    return min(apart_mm(way, ring) for way in upright)


def test_what_lies_under_a_piece_is_put_together_too(joined):
    """One picture a piece, wide enough for the longest, with no floor missing under it."""
    left, low, wide, high = joined.under[0].box_mm

    assert wide > 1500
    assert high > 400


def test_brown_paper_that_fills_a_photograph_is_paper_all_the_same():
    """The middle one of three shows it from side to side; over all of them it lies inside."""
    wide = ((0, 0), (1500, 0), (1500, 420), (0, 420))
    scene = replace(SMALL, pieces=(wide,), paper=(120, 160, 190), planks=False, seed=43)
    found = trace_photos(photographs(scene, cameras(3, 43, SIZE)))

    [shape] = found.shapes
    assert apart_mm(shape.outline.ring_mm, wide) < 1.5


def test_a_piece_that_runs_out_of_all_photographs_asks_for_one_more(three, sentence):
    """The sentence says what to photograph: the rest, with a sheet that a neighbour shows."""
    with pytest.raises(InvalidInput) as refused:
        trace_photos(three[:2])
    assert refused.value.fact.kind == "piece_leaves_photographs"
    assert re.search("take one more", sentence(refused.value))


def test_photographs_that_share_no_sheet_are_not_put_together(sentence):
    """It is said which one no other joins, and that neighbours must share a sheet."""
    scene = replace(SMALL, sheets=(SHEETS[0], SHEETS[2]), seed=45)
    with pytest.raises(InvalidInput) as refused:
        trace_photos(photographs(
            scene, [replace(c, height_mm=1000) for c in cameras(2, 45, SIZE)]))
    assert refused.value.fact.kind == "piece_leaves_its_photograph"
    assert re.search("share a calibration sheet", sentence(refused.value))


NEAR = Camera(target_mm=(150, 150), height_mm=900, size_px=(1800, 1350))
ONE = Scene(pieces=(((230, -40), (420, -60), (430, 330), (240, 340)),), density=1.6,
            window=(-500, -400, 900, 700), seed=46)
OTHER = replace(ONE, pieces=(((-260, 0), (-80, 0), (-90, 300), (-250, 290)),), seed=47)


def test_a_sheet_laid_beside_other_pieces_is_another_floor():
    """The same sheet serves twice: each photograph shows pieces of its own."""
    found = trace_photos([photographs(ONE, [NEAR])[0], photographs(OTHER, [NEAR])[0]])

    assert len(found.shapes) == 2
    assert found.together == ()


def test_a_photograph_without_a_sheet_is_named(sentence):
    """The second of two."""
    photos = photographs(ONE, [NEAR]) + photographs(replace(ONE, sheets=()), [NEAR])
    with pytest.raises(InvalidInput) as refused:
        trace_photos(photos)
    assert re.search("Photograph 2", sentence(refused.value))


def test_a_sheet_cut_off_by_the_picture_is_no_sheet():
    """Half a sheet at the rim of a photograph is left alone; the whole one measures."""
    scene = replace(ONE, sheets=((0.0, 0.0, 0.0, 1), (-520.0, 50.0, 0.0, 2)))
    [photo] = photographs(scene, [NEAR])

    assert len(trace_photos([photo]).shapes) == 1


def test_the_long_piece_is_a_metre_and_a_half():
    """What the figures above are about."""
    assert max(x for x, _ in LONG) - min(x for x, _ in LONG) == 1500
