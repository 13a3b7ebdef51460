"""Shorts: the trousers' legs cut off above the knee, hems straight, an elastic or fitted waist.

The leg is the trousers' (see ``trousers``), but runs straight from fork to hem.
"""

from __future__ import annotations

from stash.draft.body import Body
from stash.draft.body_table import thigh_p95
from stash.draft.garment import ELASTIC_HOLD, FINISH, SEAM, Garment, Measure, Options, hem
from stash.draft.trouser_pieces import Legs, cut_out, draw_legs
from stash.draft.trouser_waist import THIGH_EASE_MM, leg_for, roomy_ease, seat_for
from stash.draft.trousers import (
    EASE,
    ESTIMATES,
    LEG_WIDTH,
    MEASUREMENTS,
    POCKETS,
    SEAMS,
    WAIST,
    WAISTBAND,
)
from stash.errors import InvalidInput
from stash.model import Pattern
from stash.units import format_length

LEAST_LEG_MM = 40.0
LENGTH = Measure(
    name="length", about="finished length down the side, waist to hem", least_mm=200, most_mm=900
)


def draft(body: Body, options: Options) -> Pattern:
    """Draw the legs and cut them out."""
    options = {**options, "length": length_mm(body, options)}
    return cut_out("shorts", body, options, draw(body, options))


def draw(body: Body, options: Options) -> Legs:
    """The trousers' legs without a knee."""
    down, girth = length_mm(body, options), _hem_girth(body, options)
    leg = leg_for(body, options, hem_down=down, hem_girth=girth, with_knee=False)
    return draw_legs(leg, body, options)


def length_mm(body: Body, options: Options) -> float:
    """As asked for, else a quarter of the inside leg below the crotch line."""
    rise = seat_for(body, options).rise
    asked = float(options["length"] or round(rise + 0.25 * body["inside_leg"], 6))
    if asked < rise + LEAST_LEG_MM:
        raise InvalidInput(
            f"Shorts {format_length(asked)} long end above the crotch line: the option "
            f"length can be {format_length(rise + LEAST_LEG_MM)} or more.",
            field="length",
        )
    return asked


def _hem_girth(body: Body, options: Options) -> float:
    """A little narrower than the leg at the crotch line, never tighter than the thigh."""
    hip = body["hip"]
    passes = max(body["thigh"], thigh_p95(body.kind, hip)) + THIGH_EASE_MM
    at_crotch = hip / 2 + hip / 8 + hip / 18 + roomy_ease(body, options) / 2
    girth = float(options["leg_width"] or max(0.95 * at_crotch, passes))
    if girth < passes:
        raise InvalidInput(
            f"A leg {format_length(girth)} round is too tight for the thigh: the option "
            f"leg_width can be {format_length(passes)} or more.",
            field="leg_width",
        )
    return girth


GARMENT = Garment(
    name="shorts", title="Shorts", measurements=MEASUREMENTS, estimates=ESTIMATES,
    options=(LENGTH, SEAM, hem(30.0), EASE, LEG_WIDTH, WAIST, ELASTIC_HOLD, WAISTBAND,
             POCKETS, FINISH, *SEAMS),
    draft=draft,
)
