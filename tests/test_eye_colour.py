"""Colours corrected by five greys, against measured spectra seen by published cameras."""

from __future__ import annotations

import numpy as np
import pytest

from stash.eye.colour.greys import coded, correction_by, written


@pytest.fixture(scope="module")
def spectra():
    """The bench's camera, light and printer (spectra of colour-science)."""
    import eye_colour

    return eye_colour


def test_daylight_colours_are_within_4_for_half_and_8_for_nine_in_ten(spectra):
    """CIEDE2000 over three sets of measured colour checkers, two cameras (NPL), five daylights."""
    error = spectra.errors(77, spectra.DAYLIGHT, 10)["five steps"]

    assert np.percentile(error, 50) < 4
    assert np.percentile(error, 90) < 8


def test_the_greys_do_better_than_the_white_alone_and_that_than_nothing(spectra):
    """In daylight and under lamps."""
    for lights in (spectra.DAYLIGHT, spectra.WARM):
        error = {name: np.median(e) for name, e in spectra.errors(78, lights, 12).items()}

        assert error["five steps"] < error["white only"] < error["plain photograph"]


def test_two_things_in_one_picture_are_compared_far_better_than_either_is_known(spectra):
    """Light and camera are the same for both."""
    error = spectra.errors(79, spectra.WARM, 10)

    assert np.percentile(error["two compared"], 90) < 0.6 * np.percentile(error["five steps"], 90)


def test_greys_that_do_not_darken_are_no_scale():
    """Something lay on them, or they are out of the picture."""
    steps = np.repeat(np.array([230.0, 180, 185, 80, 30])[:, None], 3, axis=1)

    assert correction_by(steps) is None


def test_a_step_is_grey_again_whatever_light_fell_on_it():
    """Each channel is bent by itself, so that every step comes out with three equal channels."""
    steps = np.array([(250, 235, 190), (200, 180, 140), (150, 128, 95), (90, 72, 50), (45, 33, 20)])

    light = correction_by(steps.astype(float)).reflectance(steps)

    assert np.ptp(light, axis=1).max() < 1e-6
    assert (np.diff(light[:, 0]) < 0).all()


def test_a_colour_is_written_as_its_srgb():
    """Mid grey: sRGB 188 is a linear half (IEC 61966-2-1)."""
    assert written(np.full(3, 0.5)) == "#bcbcbc"
    assert coded(np.full((1, 3), 0.5))[0, 0] * 255 == pytest.approx(187.5, abs=0.1)


def test_a_thin_ribbons_colour_is_taken_along_it():
    """4 to 38 mm wide, nearly white or nearly black as drawn; the floor beside is neither."""
    from eye_strips import strip_photo

    from stash.eye.colour.photographed import colours_along
    from stash.eye.strips.strip import measure_strips

    data, _ = strip_photo(610)
    lines = [strip.line_px for strip in measure_strips(data)]
    lightness = [seen.lab[0] for seen in colours_along(data, lines)]

    assert len(lightness) == 3
    assert min(lightness) > 75 or max(lightness) < 25
