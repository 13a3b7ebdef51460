"""Strips beside the calibration sheet, and two places pointed at."""

from __future__ import annotations

import numpy as np
import pytest
from eye_strips import strip_photo
from trace_photo import Camera, Scene, photograph

from stash.errors import InvalidInput
from stash.eye.floor.find_sheets import find_sheets
from stash.eye.floor.seen_floor import fit_floor
from stash.eye.strips.stops import between
from stash.eye.strips.strip import measure_strips


def test_three_strips_are_measured_across_and_along():
    """Widths of 4 to 38 mm within 0.2 mm, lengths within 2 mm, however they bend."""
    data, true = strip_photo(610)
    found = measure_strips(data)

    for strip in true:
        [mine] = [f for f in found if abs(f.width_mm - strip.width_mm) < 1
                  and abs(f.length_mm - strip.length_mm) < 12]
        assert mine.width_mm == pytest.approx(strip.width_mm, abs=0.2)
        assert mine.length_mm == pytest.approx(strip.length_mm, abs=2)


def test_an_end_that_lies_on_the_white_sheet_is_said_not_to_be_seen():
    """A white strip reaches onto white paper: the others are told, its stated error holds it."""
    data, true = strip_photo(88_005)
    found = {round(f.width_mm): f for f in measure_strips(data)}

    assert {width: f.ended for width, f in found.items()} == {15: True, 38: True, 20: False}
    for strip in true:
        mine = found[round(strip.width_mm)]
        assert abs(mine.length_mm - strip.length_mm) < mine.length_error_mm
    assert found[20].length_error_mm > 10


def test_a_dark_streak_in_the_floor_is_no_strip():
    """A streak 3.6 mm wide and 28 cm long fades into the wood; cloth ends at once."""
    data, true = strip_photo(88_002)

    assert sorted(round(f.width_mm) for f in measure_strips(data)) == sorted(
        strip.width_mm for strip in true)


def test_a_streak_that_runs_out_of_the_picture_is_no_strip():
    """A streak 3 mm wide and 10 cm long ends where the picture does: nobody saw its end."""
    data, true = strip_photo(5025)

    assert sorted(round(f.width_mm) for f in measure_strips(data)) == sorted(
        strip.width_mm for strip in true)


@pytest.fixture(scope="module")
def bar():
    """A photograph of a bar of 160 mm, and where its ends lie in it."""
    import cv2

    scene = Scene(pieces=(((260, 20), (420, 20), (420, 34), (260, 34)),), planks=False,
                  window=(-350, -350, 900, 700), density=3.0)
    camera = Camera(tilt_deg=15, target_mm=(230, 100), height_mm=800, size_px=(2000, 1500))
    data = photograph(scene, camera)
    grey = cv2.imdecode(np.frombuffer(data, np.uint8), cv2.IMREAD_GRAYSCALE)
    floor = fit_floor(find_sheets(grey), (2000, 1500))
    return data, floor.to_image(np.array([(260.0, 27.0), (420.0, 27.0)]))


@pytest.mark.parametrize("off_px", [(0, 0), (3, -1), (-3, 1)])
def test_a_finger_that_misses_by_a_millimetre_or_two_snaps_to_the_stop(bar, off_px):
    """160 mm within 1 mm, wherever near the ends was pointed."""
    data, ends = bar
    found = between(data, tuple(ends[0] + off_px), tuple(ends[1] - off_px))

    assert found.length.value == pytest.approx(160, abs=1)
    assert found.length.error < 1


def test_without_snapping_the_finger_is_believed_and_its_error_told(bar):
    """Each end within two millimetres."""
    data, ends = bar
    found = between(data, tuple(ends[0] + 4), tuple(ends[1]), snap=False)

    assert abs(found.length.value - 160) < found.length.error
    assert found.length.error > 2


def test_a_floor_with_nothing_on_it_shows_no_strip():
    """One sentence says what to do."""
    scene = Scene(pieces=(), planks=False, window=(-350, -350, 900, 700), density=2.0)
    camera = Camera(target_mm=(230, 100), height_mm=800, size_px=(3200, 2400))
    with pytest.raises(InvalidInput) as refused:
        measure_strips(photograph(scene, camera))
    assert refused.value.fact.kind == "no_strip_seen"


def test_streaks_of_a_floor_seen_from_afar_are_not_taken_for_strips():
    """At 1.3 pixels to a millimetre fifteen streaks of a wooden floor were as sharp as cloth."""
    scene = Scene(pieces=(((230, -120), (430, -120), (430, 280), (230, 280)),), density=2.0,
                  window=(-500, -400, 700, 600))
    camera = Camera(target_mm=(120, 100), height_mm=1000, size_px=(1800, 1350))
    with pytest.raises(InvalidInput) as refused:
        measure_strips(photograph(scene, camera))
    assert refused.value.fact.kind == "strips_too_far"


def frame(at_mm: tuple[float, float], inner_mm: float, turn_deg: float):
    """A buckle: a rectangular frame 4 mm thick with a bar across; its rings, and its taps.

    The taps are the ends of the bar between the sides of the frame, and the outer sides.
    """
    turn = np.radians(turn_deg)
    ahead, aside = np.array([np.cos(turn), np.sin(turn)]), np.array([-np.sin(turn), np.cos(turn)])
    half, tall = inner_mm / 2, 14.0

    def put(x, y):
        return tuple(np.array(at_mm) + x * ahead + y * aside)

    def bar(x0, y0, x1, y1):
        return (put(x0, y0), put(x1, y0), put(x1, y1), put(x0, y1))

    rings = [bar(-half - 4, -tall - 4, half + 4, -tall), bar(-half - 4, tall, half + 4, tall + 4),
             bar(-half - 4, -tall, -half, tall), bar(half, -tall, half + 4, tall),
             bar(-half, -2, half, 2)]
    return rings, (put(-half, 8), put(half, 8)), (put(-half - 4, 8), put(half + 4, 8))


@pytest.fixture(scope="module")
def buckles():
    """A slanting photograph of four buckles beside the sheet, and where to tap each."""
    import cv2

    sizes = (20.0, 25.0, 30.0, 40.0)
    drawn = [frame((270 + 70 * (n % 2), -30 + 90 * (n // 2)), size, 17.0 * n)
             for n, size in enumerate(sizes)]
    scene = Scene(pieces=[ring for rings, _, _ in drawn for ring in rings], paper=(60, 58, 55),
                  floor=(200, 205, 210), planks=False, shadow=0.2,
                  window=(-120, -230, 720, 420), density=5.0)
    data = photograph(scene, Camera(target_mm=(230, 60), height_mm=620, tilt_deg=18,
                                    size_px=(3264, 2448), bend=(-0.015, 0.004)))
    floor = fit_floor(find_sheets(cv2.imdecode(np.frombuffer(data, np.uint8),
                                               cv2.IMREAD_GRAYSCALE)), (3264, 2448))
    return data, [(size, floor.to_image(np.array(bar)), floor.to_image(np.array(outer)))
                  for size, (_, bar, outer) in zip(sizes, drawn, strict=True)]


@pytest.mark.parametrize("which", range(4))
@pytest.mark.parametrize("off_px", [(0, 0), (4, -3), (-4, 3)])
def test_the_bar_and_the_outer_size_of_a_buckle_are_told_within_their_error(
    buckles, which, off_px
):
    """Two taps a size, each about a millimetre beside the edge; what a strap needs is the bar."""
    data, seen = buckles
    size, bar, outer = seen[which]

    for true, ends in ((size, bar), (size + 8, outer)):
        found = between(data, tuple(ends[0] + off_px), tuple(ends[1] - off_px)).length
        assert abs(found.value - true) < found.error < 1
