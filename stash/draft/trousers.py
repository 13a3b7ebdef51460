"""Trousers: two fronts, two backs; an elastic waist, or a fitted one with darts, band and zip.

1. Draw the front leg (``leg.draw_front``): crotch line at the rise, a quarter of the
   hip across, the fork a sixteenth beyond, crease in the middle, knee and hem about it.
2. Draw the back on it (``leg.draw_back``), and true side and inside leg to the front.
3. Elastic: the sides run straight up, so the waist passes the hips. Fitted: what is
   over a quarter of the waist goes into darts.
4. Allow seams, hem and casing (``trouser_pieces``); cut pockets, band, fly.
"""

from __future__ import annotations

from stash.draft.body import Body
from stash.draft.garment import (
    ELASTIC_HOLD,
    FINISH,
    SEAM,
    Choice,
    Garment,
    Measure,
    Options,
    hem,
    seam_of,
)
from stash.draft.trouser_pieces import Legs, cut_out, draw_legs
from stash.draft.trouser_waist import leg_for
from stash.errors import InvalidInput
from stash.model import Pattern
from stash.units import format_length

MEASUREMENTS = ("hip", "waist")
ESTIMATES = ("body_rise", "inside_leg", "thigh", "foot_entry", "waist_to_hip")
EASE = Measure(
    name="ease", about="room round the hip: usually 100 mm with elastic, 40 mm fitted",
    least_mm=20, most_mm=400,
)
WAIST = Choice(name="waist", about="how the waist holds", words=("elastic", "fitted"))
WAISTBAND = Choice(
    name="waistband", about="the casing or band", words=("cut-on", "separate", "pieced")
)
POCKETS = Choice(name="pockets", about="pockets", words=("none", "patch", "side"))
SEAMS = tuple(map(seam_of, ("side", "inside leg", "crotch")))
LENGTH = Measure(
    name="length", about="finished length down the side, waist to hem", least_mm=250, most_mm=1400
)
LEG_WIDTH = Measure(
    name="leg_width", about="girth of one leg at the hem", least_mm=180, most_mm=1400
)


def draft(body: Body, options: Options) -> Pattern:
    """Draw the legs and cut them out."""
    options = {**options, "length": length_mm(body, options)}
    return cut_out("trousers", body, options, draw(body, options))


def length_mm(body: Body, options: Options) -> float:
    """As asked for, else down to 2 cm above the floor."""
    return float(options["length"] or body["body_rise"] + body["inside_leg"] - 20)


def draw(body: Body, options: Options) -> Legs:
    """Long legs: the hem just clears the floor and passes the heel."""
    passes = body["foot_entry"] + 10
    girth = float(options["leg_width"] or max(0.42 * body["hip"] + 20, passes + 20))
    if girth < passes:
        raise InvalidInput(
            f"A hem of {format_length(girth)} does not pass the heel: the option leg_width "
            f"can be {format_length(passes)} or more.",
            field="leg_width",
        )
    leg = leg_for(body, options, hem_down=length_mm(body, options), hem_girth=girth)
    return draw_legs(leg, body, options)


GARMENT = Garment(
    name="trousers", title="Trousers", measurements=MEASUREMENTS, estimates=ESTIMATES,
    options=(LENGTH, SEAM, hem(40.0), EASE, LEG_WIDTH, WAIST, ELASTIC_HOLD, WAISTBAND,
             POCKETS, FINISH, *SEAMS),
    draft=draft,
)
