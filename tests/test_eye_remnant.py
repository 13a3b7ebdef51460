"""A remnant on the floor keeps its grain and its selvedge, also over several photographs."""

from __future__ import annotations

from dataclasses import replace
from math import cos, radians, sin

import pytest
from trace_photo import Camera, Scene, photograph

from stash.errors import InvalidInput
from stash.eye.outlines.remnant import trace_remnant

GRAIN_DEG = 23.0  # of the cloth on the floor, y down


def cloth(corners, at_mm=(250, -160)):
    """A cloth drawn along its grain, then laid on the floor at an angle."""
    c, s = cos(radians(GRAIN_DEG)), sin(radians(GRAIN_DEG))
    return tuple((at_mm[0] + x * c - y * s, at_mm[1] + x * s + y * c) for x, y in corners)


WIDER_THAN_LONG = ((0, 0), (300, 0), (260, 380), (0, 420))  # its longest axis is not its grain
SCENE = Scene(
    pieces=(cloth(WIDER_THAN_LONG, (430, -160)),), cards=((427, 2, GRAIN_DEG),),
    paper=(120, 80, 60), floor=(190, 200, 205), planks=False, density=2.5,
    window=(-400, -450, 1000, 720))
CAMERA = Camera(target_mm=(320, 80), height_mm=1000, tilt_deg=12, size_px=(2000, 1500))


def test_the_arrow_card_tells_the_grain_and_leaves_no_hole():
    """Laid at 23 degrees: 300 mm along, 420 across, within 3 mm; one edge along is the selvedge."""
    found = trace_remnant(photograph(SCENE, CAMERA))

    assert found.grain == "arrow"
    assert found.outline.holes_mm == ()
    assert found.outline.length_mm == pytest.approx(300, abs=3)
    assert found.outline.width_mm == pytest.approx(420, abs=3)
    [edge] = found.selvedges
    assert abs(edge[1][1] - edge[0][1]) / abs(edge[1][0] - edge[0][0]) < 0.0175  # 1 degree


def test_without_the_card_the_longest_axis_is_taken_and_said_so():
    """Then the grain is only presumed."""
    found = trace_remnant(photograph(replace(SCENE, cards=()), CAMERA))

    assert found.grain == "longest"
    assert found.grain_error_deg > 1
    assert found.selvedges == ()


LONG = ((0, 0), (900, 0), (900, 300), (0, 300))


def joined_scene():
    """A long cloth with a sheet at each end and one in the middle."""
    return Scene(
        pieces=(tuple((x + 30, y - 430) for x, y in LONG),), paper=(120, 80, 60),
        floor=(190, 200, 205), planks=False, density=2.0, window=(-300, -700, 1200, 500),
        sheets=((0.0, 0.0, 0.0, 1), (380.0, 20.0, 0.0, 2), (760.0, 0.0, 0.0, 3)))


@pytest.mark.parametrize("shift", [0, 120])
def test_two_photographs_with_a_sheet_in_both_make_one_cloth(shift):
    """900 x 300 mm, of which either photograph shows two thirds, within 6 mm."""
    camera = Camera(height_mm=800, size_px=(1800, 1350))
    photos = [
        photograph(joined_scene(), replace(camera, target_mm=(x, -110)))
        for x in (210 + shift / 4, 740 - shift / 4)
    ]

    found = trace_remnant(photos)

    assert found.outline.length_mm == pytest.approx(900, abs=6)
    assert found.outline.width_mm == pytest.approx(300, abs=4)


def test_photographs_without_a_common_sheet_do_not_join():
    """The sentence says what joins them."""
    camera = Camera(height_mm=800, size_px=(1800, 1350), target_mm=(210, -110))
    first = photograph(replace(joined_scene(), sheets=((0.0, 0.0, 0.0, 1),)), camera)
    second = photograph(replace(joined_scene(), sheets=((0.0, 0.0, 0.0, 5),)), camera)

    with pytest.raises(InvalidInput) as refused:
        trace_remnant([first, second])
    assert refused.value.fact.kind == "photographs_not_joined"
