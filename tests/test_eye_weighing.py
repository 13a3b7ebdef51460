"""Weights and rolls: the formulas by hand, and errors that hold the truth."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest

from stash.errors import InvalidInput
from stash.eye.weighing.mass_per_area import by_cut, by_label, by_swatch
from stash.eye.weighing.moisture import moisture_share
from stash.eye.weighing.roll import board_length, rolled_length
from stash.eye.weighing.scale import Scale
from stash.eye.weighing.weighed_bin import Known, count_by_weight, enough, strip_by_weight
from stash.eye.weighing.weighed_length import WeighedCloth, length_by_weight
from stash.model.measured import Measured, Origin, better

COARSE, FINE = Scale(step_g=1.0), Scale(step_g=0.1)


def weighed(grams, mass, scale=COARSE):
    """A cotton cut 1.4 m wide on a scale."""
    return length_by_weight(WeighedCloth(
        grams=grams, width_mm=1400, mass_gsm=mass, moisture_share=moisture_share({"cotton": 100}),
        scale=scale))


def test_a_length_is_mass_over_mass_per_area_and_width():
    """By hand: 504 g of 180 g/m2, 1.4 m wide: 504 / (180 x 1.4) = 2.00 m."""
    found = weighed(504, by_label(180))

    assert found.figure.value == pytest.approx(2000)
    assert found.useful
    assert found.figure.error > 0.05 * 2000  # the label alone is within a twentieth
    assert [fact.kind for fact in found.because] == ["length_by_weight", "mass_presumed_settles"]


def test_a_recorded_cut_is_a_better_swatch_than_a_small_square():
    """A square decimetre of 180 g/m2 is 1.8 g, and a kitchen scale shows 2; half a m2 is 90 g."""
    square = weighed(504, by_swatch(100, 100, 2, COARSE))
    cut = weighed(504, by_cut(0.5e6, 90, COARSE))

    assert not square.useful
    assert {fact.kind for fact in square.would_help} == {"larger_swatch_helps"}
    assert cut.figure.share < 0.05
    assert cut.figure.value == pytest.approx(2000, rel=1e-3)


def test_the_stated_error_holds_the_truth_in_nineteen_of_twenty():
    """4,000 weighings drawn: rounding, the scale's own error, moisture, width and tape."""
    random = np.random.default_rng(11)
    held = 0
    for _ in range(4000):
        mass, length, width = random.uniform(80, 350), random.uniform(400, 3000), 1400
        wet = 1 + random.normal(0, moisture_share({"cotton": 100}) / 2, 2)
        def shown(grams):
            return max(1.0, round(grams + random.normal(0, 0.5)))
        swatch = shown(mass * 0.5 * wet[0])
        seen = shown(mass * length * width / 1e6 * wet[1])
        cloth = WeighedCloth(
            grams=seen, width_mm=width + random.normal(0, 3),
            mass_gsm=by_cut(0.5e6 * (1 + random.normal(0, 0.002)), swatch, COARSE),
            moisture_share=moisture_share({"cotton": 100}), scale=COARSE)
        figure = length_by_weight(cloth).figure
        held += abs(figure.value - length) <= figure.error
    assert 0.93 <= held / 4000 <= 0.995


@pytest.mark.parametrize(("fibre", "percent"), [("cotton", 2.0), ("wool", 3.5), ("polyester", 0.5)])
def test_moisture_moves_wool_more_than_cotton_and_polyester_hardly(fibre, percent):
    """Common practice, no source: about 2 % for cotton, 3.5 % for wool."""
    assert 100 * moisture_share({fibre: 100}) == pytest.approx(percent, abs=0.5)


def test_a_roll_is_its_turns_times_the_mean_girth():
    """By hand: 22 turns from 4 cm to 14 cm: 22 x pi x 9 cm = 6.22 m; a turn is 4.5 % of it."""
    found = rolled_length(140, 40, 22)

    assert found.value == pytest.approx(22 * pi * 90)
    assert 0.045 < found.share < 0.06


def test_a_roll_that_is_drawn_turn_by_turn_has_the_length_of_the_formula():
    """Each turn one thickness further out: the sum of its girths."""
    thick, core, turns = 1.6, 40.0, 31
    drawn = sum(pi * (core + 2 * thick * (n + 0.5)) for n in range(turns))

    found = rolled_length(core + 2 * thick * turns, core, turns)

    assert found.value == pytest.approx(drawn, rel=1e-6)


def test_a_board_is_its_turns_times_the_mean_of_two_girths():
    """By hand: 10 turns, 44 cm round the board and 48 cm outside: 4.6 m."""
    assert board_length(480, 440, 10).value == pytest.approx(4600)


@pytest.mark.parametrize("numbers", [(40, 140, 22), (140, 0, 22), (140, 40, 0)])
def test_what_is_no_roll_is_refused(numbers):
    """The core is inside, and there is a turn."""
    with pytest.raises(InvalidInput):
        rolled_length(*numbers)


def test_forty_counted_first_count_the_rest_better_than_ten():
    """Buttons of 0.8 g on a scale of 1 g: after ten the number is useless to 15 %, not after 40."""
    ten = count_by_weight(200, Known(amount=10, grams=8, step_g=1.0), COARSE)
    forty = count_by_weight(200, Known(amount=40, grams=32, step_g=1.0), COARSE)

    assert ten.figure.value == forty.figure.value == 250
    assert forty.figure.share < 0.05 < 0.13 < ten.figure.share
    assert ten.would_help[0].kind == "count_more_first"


def test_elastic_is_as_long_as_it_weighs_against_a_measured_piece():
    """By hand: 3 m of 20 mm elastic weigh 27 g; 63 g in a bag of 9 g are 6 m."""
    found = strip_by_weight(63, Known(amount=3000, grams=27, step_g=1.0), COARSE, 0.005, empty_g=9)

    assert found.figure.value == pytest.approx(6000)
    assert found.figure.share < 0.07


def test_thread_is_enough_or_not_or_it_cannot_be_told():
    """The answer hangs on the whole interval, never on the middle of it."""
    figure = Measured(value=1000.0, error=70.0, origin=Origin.WEIGHED)

    assert enough(figure, 900) is True
    assert enough(figure, 1100) is False
    assert enough(figure, 1000) is None


def test_a_container_that_weighs_as_much_as_all_of_it_is_refused():
    """There is nothing in it."""
    with pytest.raises(InvalidInput):
        FINE.reading(12, empty_g=12)


def test_a_presumed_figure_never_wins_and_else_the_one_with_less_error():
    """Whatever error a presumption claims."""
    presumed = Measured(value=10, error=0.1, origin=Origin.PRESUMED)
    by_weight = Measured(value=11, error=0.9, origin=Origin.WEIGHED)
    by_tape = Measured(value=10.5, error=0.2, origin=Origin.MEASURED)

    assert better(presumed, by_weight) is by_weight
    assert better(by_weight, by_tape) is by_tape is better(by_tape, by_weight)
