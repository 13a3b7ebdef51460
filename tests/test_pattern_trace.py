"""Photographs of paper pieces, rendered so that the truth is known.

The renderer (``bench/trace_photo.py``) bends by Brown's forward model while the tracing fits
an inverse polynomial, so neither can flatter the other. All errors: ``bench/trace_error.py``.
"""

from __future__ import annotations

import re
from dataclasses import replace

import cv2
import numpy as np
import pytest
from shapely.geometry import Polygon
from trace_photo import Camera, Scene, photograph

from stash.errors import InvalidInput
from stash.eye.floor.bow import bow
from stash.eye.floor.find_sheets import find_sheets
from stash.eye.floor.seen_floor import Straight, fit_floor
from stash.eye.floor.upright import read_picture
from stash.eye.outlines.clean_outline import clean_outline
from stash.eye.outlines.remnant import trace_remnant
from stash.eye.outlines.trace import trace_photo
from stash.model.outline import ring_area_mm2
from stash.pattern.drawn import longest_axis_deg
from stash.pattern.traced import trace_over

FRONT = ((230, -120), (420, -140), (470, -60), (450, 60), (480, 440), (250, 455))
POCKET = ((-300, 190), (-150, 190), (-150, 330), (-225, 370), (-300, 330))
PIECES = (FRONT, POCKET)
HARD = Camera(
    target_mm=(90, 150), height_mm=1050, tilt_deg=35, roll_deg=4, size_px=(3264, 2448),
    bend=(-0.02, 0.006),
)
PLAIN = Scene(pieces=PIECES, density=2.0, window=(-600, -400, 700, 650))
SMALL = Camera(target_mm=(60, 130), height_mm=1100, size_px=(1800, 1350))


def true_ring(ring) -> Polygon:
    """A piece of the scene as traced shapes are given: y upwards."""
    return Polygon([(x, -y) for x, y in ring])


def sides(ring) -> np.ndarray:
    """Length and width of the smallest rectangle around a ring."""
    corners = np.array(Polygon(ring).minimum_rotated_rectangle.exterior.coords)
    return np.sort(np.hypot(*np.diff(corners[:3], axis=0).T))[::-1]


@pytest.fixture(scope="module")
def hard_photo() -> bytes:
    """8 MP, tilted 35 degrees, a bending lens, a hard shadow over the scene, writing on paper."""
    return photograph(Scene(pieces=PIECES, hard_shadow=True, shadow=0.2, writing=True), HARD)


@pytest.fixture(scope="module")
def hard_tracing(hard_photo):
    """What is traced from it."""
    return trace_photo(hard_photo)


@pytest.fixture(scope="module")
def plain_photo() -> bytes:
    """2.4 MP, straight from above."""
    return photograph(PLAIN, SMALL)


def test_lengths_and_widths_are_within_half_a_percent_and_a_millimetre(hard_tracing):
    """The promised bound, for pieces up to 60 cm beside one sheet."""
    for shape, ring in zip(hard_tracing.shapes, PIECES, strict=True):
        true = sides(ring)
        assert (np.abs(sides(shape.outline.ring_mm) - true) <= 0.005 * true + 1).all()


def test_the_whole_outline_is_true_and_not_mirrored(hard_tracing):
    """Nowhere further from the truth than 4 mm, in the frame of the sheet half a metre away."""
    for shape, ring in zip(hard_tracing.shapes, PIECES, strict=True):
        assert Polygon(shape.outline.ring_mm).hausdorff_distance(true_ring(ring)) < 4


def test_corners_stay_corners_and_lines_stay_lines(hard_tracing):
    """The six-cornered front needs no more than a dozen points; its area is true to 1 %."""
    outline = hard_tracing.shapes[0].outline

    assert len(outline.ring_mm) <= 14
    assert outline.area_mm2 == pytest.approx(ring_area_mm2(FRONT), rel=0.01)


def test_the_stated_error_covers_the_true_one(hard_tracing):
    """Two standard errors of the longest measure."""
    for shape, ring in zip(hard_tracing.shapes, PIECES, strict=True):
        assert abs(sides(shape.outline.ring_mm)[0] - sides(ring)[0]) <= shape.error_mm


def test_pieces_lie_along_their_longest_axis(plain_photo):
    """As pieces they start at the origin with the grain along x."""
    found = trace_over([plain_photo])
    reading, errors = found.reading, found.errors_mm
    left, low, right, high = Polygon(reading.pieces[0].outline_mm).bounds

    assert [p.name for p in reading.pieces] == ["piece", "piece 2"]
    assert (left, low) == pytest.approx((0, 0))
    assert right - left > high - low
    assert reading.drawn_mm[0] == pytest.approx((high - low, right - left))
    assert len(errors) == 2


def test_a_mismeasured_ruler_scales_everything(plain_photo):
    """Printed one per cent small: everything is one per cent smaller."""
    full = trace_photo(plain_photo).shapes[0].outline.ring_mm
    small = trace_photo(plain_photo, ruler_mm=148.5).shapes[0].outline.ring_mm

    assert sides(small) == pytest.approx(0.99 * sides(full), abs=0.5)


def test_black_corners_of_a_turned_picture_are_no_floor(plain_photo):
    """A picture straightened by 5 degrees, as editing programs leave it, traces the same."""
    image = cv2.imdecode(np.frombuffer(plain_photo, np.uint8), cv2.IMREAD_COLOR)
    height, width = image.shape[:2]
    spin = cv2.getRotationMatrix2D((width / 2, height / 2), 5, 0.9)
    turned = cv2.imencode(".png", cv2.warpAffine(image, spin, (width, height)))[1].tobytes()
    shapes = trace_photo(turned).shapes

    assert len(shapes) == 2
    assert sides(shapes[0].outline.ring_mm) == pytest.approx(sides(FRONT), abs=4)


def test_dark_pieces_on_a_light_floor_are_traced_too():
    """Whichever reaches the rim of the picture is the floor."""
    scene = replace(PLAIN, paper=(70, 60, 50), floor=(200, 205, 210), planks=False)
    shapes = trace_photo(photograph(scene, SMALL)).shapes

    assert len(shapes) == 2
    assert sides(shapes[0].outline.ring_mm) == pytest.approx(sides(FRONT), abs=4)


def test_three_sheets_measure_a_piece_of_a_metre():
    """With sheets around it, a metre is true to 2 mm."""
    tall = ((230, -300), (430, -310), (520, 100), (470, 690), (240, 700), (225, 100))
    sheets = ((0.0, 0.0, 0.0, 1), (20.0, 420.0, 8.0, 2), (560.0, -250.0, -15.0, 3))
    camera = Camera(
        target_mm=(250, 180), height_mm=1400, tilt_deg=15, bend=(-0.02, 0.006),
        size_px=(2400, 1800),
    )
    scene = replace(PLAIN, pieces=(tall,), sheets=sheets, window=(-600, -500, 900, 850))
    (shape,) = trace_photo(photograph(scene, camera)).shapes

    assert sides(shape.outline.ring_mm) == pytest.approx(sides(tall), abs=2)
    assert shape.error_mm < 2


def test_a_remnant_is_measured_with_its_hole():
    """The hole left by a cut-out pocket is part of the shape."""
    outer = [(230, -120), (560, -120), (560, 420), (230, 420)]
    hole = [(330, 100), (430, 100), (430, 220), (330, 220)]
    slit_ring = (*outer, outer[0], hole[0], *reversed(hole[1:]), hole[0])
    remnant = trace_remnant(photograph(replace(PLAIN, pieces=(slit_ring,)), SMALL))

    assert remnant.outline.length_mm == pytest.approx(540, abs=4)
    assert remnant.outline.width_mm == pytest.approx(330, abs=3)
    assert [ring_area_mm2(h) for h in remnant.outline.holes_mm] == [
        pytest.approx(12_000, rel=0.06)
    ]


def test_a_piece_cut_off_by_the_picture_is_refused(sentence):
    """The sentence says to step back."""
    off = ((620, 0), (1400, 0), (1400, 300), (620, 300))
    scene = replace(PLAIN, pieces=(FRONT, off), window=(-600, -400, 1450, 650))
    with pytest.raises(InvalidInput) as refused:
        trace_photo(photograph(scene, SMALL))
    assert re.search("runs out of the picture", sentence(refused.value))


def test_a_piece_lying_on_the_sheet_is_refused(sentence):
    """It must be moved away."""
    scene = replace(PLAIN, pieces=(((186, 20), (420, 10), (420, 300), (186, 300)),))
    with pytest.raises(InvalidInput) as refused:
        trace_photo(photograph(scene, SMALL))
    assert re.search("touches the calibration sheet", sentence(refused.value))


def test_a_sheet_alone_gives_nothing_to_trace(sentence):
    """One sentence on the colour of the floor."""
    with pytest.raises(InvalidInput) as refused:
        trace_photo(photograph(replace(PLAIN, pieces=()), SMALL))
    assert re.search("stands out", sentence(refused.value))


def test_without_a_sheet_nothing_is_measured(sentence):
    """Even if there are pieces."""
    with pytest.raises(InvalidInput) as refused:
        trace_photo(photograph(replace(PLAIN, sheets=()), SMALL))
    assert re.search("No calibration sheet was found", sentence(refused.value))


def test_two_sheets_of_one_number_are_refused(sentence):
    """They could not be told apart."""
    twins = ((0.0, 0.0, 0.0, 1), (240.0, 0.0, 0.0, 1))
    with pytest.raises(InvalidInput) as refused:
        trace_photo(photograph(replace(PLAIN, pieces=(), sheets=twins), SMALL))
    assert re.search("same number", sentence(refused.value))


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", "empty"),
        (b"dear diary", "not a photograph|cut short"),
        (b"\xff\xd8\xff\xe0" + b"\0" * 100, "not a photograph|cut short"),
        (b"\0" * 60_000_001, "up to 50 MB"),
        (cv2.imencode(".png", np.zeros((100, 100), np.uint8))[1].tobytes(), "too small"),
    ],
)
def test_what_is_no_photograph_gets_one_sentence(data, says, sentence):
    """A text file named .jpg among them."""
    with pytest.raises(InvalidInput) as refused:
        trace_photo(data)
    assert re.search(says, sentence(refused.value))


def test_an_absurd_ruler_is_refused(sentence):
    """No printer halves a page unasked."""
    with pytest.raises(InvalidInput) as refused:
        trace_photo(b"", ruler_mm=75)
    assert re.search("measure it again", sentence(refused.value))


def test_a_noisy_rectangle_becomes_four_corners():
    """Edges that jitter by 0.3 mm give a clean outline within 0.5 mm."""
    random = np.random.default_rng(3)
    side = np.arange(0, 200.0)
    ring = np.vstack([
        np.stack([side, 0 * side], 1), np.stack([200 + 0 * side, side], 1),
        np.stack([200 - side, 200 + 0 * side], 1), np.stack([0 * side, 200 - side], 1),
    ])
    outline = clean_outline(ring + random.normal(0, 0.15, ring.shape))
    square = Polygon([(0, 0), (200, 0), (200, 200), (0, 200)])

    assert Polygon(outline).hausdorff_distance(square) < 0.5
    assert len(outline) <= 16


def test_the_longest_axis_of_a_slanted_strip():
    """A strip drawn at 30 degrees has its axis there."""
    turn = np.radians(30)
    spin = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    ring = np.array([(0, 0), (300, 0), (300, 40), (0, 40)]) @ spin

    assert longest_axis_deg(ring) == pytest.approx(30)


def test_straight_edges_tell_how_much_the_lens_bends(hard_photo):
    """Two ruled edges far from the middle more than halve the error of the bend."""
    image = read_picture(hard_photo)
    size = image.shape[1], image.shape[0]
    sheets = find_sheets(cv2.cvtColor(image, cv2.COLOR_BGR2GRAY))
    alone = fit_floor(sheets, size)
    sides = [np.linspace((x, -300.0), (x, 500.0), 31) for x in (-450.0, 650.0)]
    ruled = [Straight(alone.to_image(side), 0.3) for side in sides]
    helped = fit_floor(sheets, size, straight=ruled)

    assert np.linalg.norm(helped.spread[8]) < 0.5 * np.linalg.norm(alone.spread[8])


def test_a_parabolas_bow_is_measured_and_a_line_has_none():
    """Points that sag by 2 mm in the middle of 300 mm."""
    x = np.linspace(-150, 150, 31)
    sagging = np.stack([x, 2 * (1 - (x / 150) ** 2)], axis=1)

    assert abs(bow(sagging)) == pytest.approx(2, rel=0.01)
    assert bow(np.stack([x, 0.3 * x], axis=1)) == pytest.approx(0, abs=1e-9)
