"""Buttons on the printed tray: counted, measured, and asked about where it is not sure.

Rendered photographs (``bench/eye_scene.py``) in which every place is known; the tables over
many pours are printed by ``bench/eye_bench.py``.
"""

from __future__ import annotations

import warnings
from dataclasses import replace

import cv2
import numpy as np
import pypdfium2
import pytest
from eye_plain import hidden_on_plain
from eye_pours import a_pour, heaped
from eye_scene import photograph
from hypothesis import given
from hypothesis import strategies as st

from labels.arrow_card_on_paper import arrow_card_pdf
from labels.calibration_on_paper import calibration_sheet_pdf
from labels.tray_on_paper import tray_pdf
from stash.errors import InvalidInput
from stash.eye.floor.seen_floor import fit_floor
from stash.eye.floor.standpoint import camera_stand
from stash.eye.rounds.find import find_rounds
from stash.eye.rounds.kinds import groups
from stash.eye.rounds.leaning import leaning
from stash.eye.tray.pour import count_pour
from stash.eye.tray.rim import find_rim
from stash.model.arrow_card import ARROW
from stash.model.calibration import BOARD, INK_SHARES
from stash.model.tray import TRAY

DPI = 254
PX_PER_MM = DPI / 25.4


def page(pdf: bytes) -> np.ndarray:
    """The first page in grey, ten pixels a millimetre."""
    document = pypdfium2.PdfDocument(pdf)
    image = document[0].render(scale=DPI / 72, grayscale=True).to_numpy().squeeze().copy()
    document.close()
    return image


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_printed_rim_is_found_whole_and_true_to_scale(paper):
    """All 56 markers, ten pixels a millimetre to 0.15 mm anywhere on the page."""
    rim = find_rim(page(tray_pdf(paper)))
    offset = (rim.image_px / PX_PER_MM - rim.board_mm).mean(axis=0)

    assert len(rim.board_mm) == 4 * len(TRAY.rim) == 224
    assert np.abs(rim.image_px / PX_PER_MM - rim.board_mm - offset).max() < 0.15


def test_the_printed_check_is_dark_and_light_by_turns_a_millimetre_each():
    """The middle of each square of the first rows, as printed."""
    image, rim = page(tray_pdf()), find_rim(page(tray_pdf()))
    corner = (rim.image_px / PX_PER_MM - rim.board_mm).mean(axis=0)
    left, top = corner + TRAY.check_mm[:2]
    middles = [
        [image[round((top + r + 0.5) * PX_PER_MM), round((left + c + 0.5) * PX_PER_MM)] < 128
         for c in range(30)] for r in range(30)
    ]

    assert (np.array(middles) == (np.add.outer(range(30), range(30)) % 2 == 0)).all()


@pytest.mark.parametrize(("pdf", "board", "corner_mm"), [
    (tray_pdf(), TRAY, (7.5, 8.0)), (calibration_sheet_pdf(), BOARD, (17.5, 15.0))])
def test_the_printed_greys_darken_step_by_step(pdf, board, corner_mm):
    """Bare paper, then a quarter more ink each."""
    image = page(pdf)
    seen = [
        image[round((corner_mm[1] + (top + foot) / 2) * PX_PER_MM),
              round((corner_mm[0] + (left + right) / 2) * PX_PER_MM)]
        for left, top, right, foot in board.grey_boxes
    ]

    assert np.array(seen) == pytest.approx(255 * (1 - np.array(INK_SHARES)), abs=2)


def test_the_arrow_card_runs_straight_across_its_page():
    """Its four markers, found by the general library, lie on one level line."""
    words = cv2.aruco.getPredefinedDictionary(getattr(cv2.aruco, ARROW.dictionary))
    corners, ids, _ = cv2.aruco.ArucoDetector(words).detectMarkers(page(arrow_card_pdf()))

    assert sorted(ids.ravel()) == [ARROW.first_id + n for n in range(ARROW.markers)]
    assert np.ptp([quad[0, 0, 1] for quad in corners]) <= 1


@pytest.mark.parametrize(("kind", "count", "seed"), [
    ("four holes", 40, 301), ("translucent", 15, 302), ("ring", 12, 303)])
def test_a_pour_is_counted_and_its_size_told(kind, count, seed):
    """Every one of them, nothing asked, the diameter within 0.4 mm."""
    table, camera = a_pour(seed, kind=kind, count=count, megapixels=2.4)

    pour = count_pour(photograph(table, camera))

    assert (pour.count, pour.asks) == (count, ())
    [size] = pour.sizes
    assert size.diameter_mm == pytest.approx(2 * table.bodies[0].radius_mm, abs=0.4)


@pytest.mark.parametrize(("kind", "seed"), [
    ("shank", 9_300_002), ("snap", 9_300_011), ("bead", 9_300_069)])
def test_one_that_leans_or_stands_close_is_counted_like_its_fellows(kind, seed):
    """One leans far over, one's holes look like the check, one has others all round it."""
    table, camera = a_pour(seed, kind=kind, megapixels=3.0)

    pour = count_pour(photograph(table, camera))

    assert pour.count == len(table.bodies)


@given(st.floats(0.7, 1), st.floats(0, 180))
def test_an_oval_as_long_as_the_others_are_wide_leans(narrow, turn):
    """Its middle is told to a cell; half of one, or one as long again, is none."""
    def left(*axes):
        blank = np.zeros((160, 160), np.uint8)
        return cv2.ellipse(blank, (80, 70), axes, turn, 0, 360, 1, -1)

    found = leaning(left(40, round(40 * narrow)), 0.2, 8.0)

    assert found.middle_mm == pytest.approx(np.array([(16, 14)]), abs=0.2)
    assert not len(leaning(left(40, 20), 0.2, 8.0))
    assert not len(leaning(left(60, 40), 0.2, 8.0))


def test_two_sizes_are_sorted():
    """Twelve of each, by their diameters."""
    table, camera = a_pour(311, kind="two holes", sizes=2, count=24, megapixels=2.4)

    pour = count_pour(photograph(table, camera))

    assert [size.count for size in pour.sizes] == [12, 12]
    true = sorted({round(2 * body.radius_mm, 2) for body in table.bodies})
    assert sorted(s.diameter_mm for s in pour.sizes) == pytest.approx(true, abs=0.5)


def test_what_is_nearly_clear_is_asked_about_not_counted_nor_passed_over():
    """Five buttons of 85 % clear plastic: each is counted, or there is a question."""
    table, camera = a_pour(321, kind="clear", count=5, megapixels=2.4)

    pour = count_pour(photograph(table, camera))

    assert pour.count <= 5
    assert pour.count == 5 or pour.asks


@pytest.mark.parametrize(("kind", "seed"), [
    ("snap", 45_018), ("bead", 41_013), ("ring", 45_005), ("four holes", 3_910_035)])
def test_one_that_lies_on_two_others_is_asked_about(kind, seed):
    """Its outline hides hardly more than theirs; still there is a question, never a silent miss."""
    table, camera = a_pour(seed, kind=kind, count=12, megapixels=3.0)

    pour = count_pour(photograph(replace(table, bodies=heaped(list(table.bodies))), camera))

    assert pour.count < 13
    assert pour.asks


def test_a_heap_is_one_question_not_one_for_each_side_of_it():
    """Small buttons, the upper one hiding the check on both sides of two others: one tap."""
    table, camera = a_pour(3_910_030, kind="four holes", count=12, megapixels=3.0)

    pour = count_pour(photograph(replace(table, bodies=heaped(list(table.bodies))), camera))

    assert pour.count == 12
    [ask] = pour.asks
    assert ask.why == "on top?"


def test_an_empty_tray_holds_nothing():
    """Nothing is counted and nothing is asked."""
    table, camera = a_pour(331, count=5, megapixels=2.4)

    pour = count_pour(photograph(replace(table, bodies=()), camera))

    assert (pour.count, pour.items, pour.asks) == (0, (), ())


def test_a_picture_without_a_tray_is_refused():
    """It says what is wanted."""
    grey = np.full((800, 800, 3), 128, np.uint8)
    with pytest.raises(InvalidInput) as refused:
        count_pour(cv2.imencode(".png", grey)[1].tobytes())
    assert refused.value.fact.kind == "no_tray_seen"


def test_the_camera_is_placed_by_the_rim():
    """Its foot within 4 mm and its height within 3 % of where the picture was computed from."""
    from trace_photo import axes

    table, camera = a_pour(341, count=5, megapixels=2.4)
    data = photograph(replace(table, curl_mm=0.0), camera)
    image = cv2.imdecode(np.frombuffer(data, np.uint8), cv2.IMREAD_COLOR)
    rim = find_rim(cv2.cvtColor(image, cv2.COLOR_BGR2GRAY))

    stand = camera_stand(fit_floor([rim], (image.shape[1], image.shape[0])))

    true = axes(camera)[0] * (1, -1, 1)
    assert np.hypot(*(np.array(stand.foot_mm) - true[:2])) < 4
    assert stand.height_mm == pytest.approx(true[2], rel=0.03)


def test_the_coins_of_a_real_photograph_are_counted():
    """scikit-image's “coins”: 24 Greek coins from Pompeii, no two of a size, on a dark ground."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        from skimage import data

        coins = data.coins()

    found = find_rounds(*hidden_on_plain(coins, 0.2))

    assert len(found.circles) == found.sure.sum() == 24
    assert len(found.rests) <= 2


@given(st.lists(st.floats(3, 20), min_size=1, max_size=40))
def test_every_radius_is_in_one_group_and_groups_do_not_touch(radii):
    """Groups part the radii, and lie more than half a millimetre from each other."""
    parts = groups(np.array(radii))

    assert sorted(int(i) for part in parts for i in part) == list(range(len(radii)))
    ends = sorted((min(radii[i] for i in p), max(radii[i] for i in p)) for p in parts)
    assert all(low - high > 0.5 for (_, high), (low, _) in zip(ends, ends[1:], strict=False))
