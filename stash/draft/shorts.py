"""Shorts: the trousers' legs cut off above the knee, hems straight, an elastic or fitted waist.

The leg is the trousers' (see ``trousers``), but runs straight from fork to hem.

Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from stash.draft.body import Body
from stash.draft.body_table import thigh_p95
from stash.draft.garment import Garment, hem, measure
from stash.draft.legs import Legs, draw_legs
from stash.draft.trouser_pieces import cut_out
from stash.draft.trouser_waist import THIGH_EASE_MM, LegOptions, leg_for, roomy_ease, seat_for
from stash.draft.trousers import (
    ESTIMATES,
    MEASUREMENTS,
)
from stash.errors import InvalidInput
from stash.model import Pattern

# Common practice, no source, where none is named.
LEAST_LEG_MM = 40.0


@dataclass(frozen=True, kw_only=True)
class ShortsOptions(LegOptions):
    """Options of shorts."""

    length: float | None = measure("finished length down the side, waist to hem", 200, 900)
    hem: float = hem(30.0)


def draft(body: Body, options: ShortsOptions) -> Pattern:
    """Draw the legs and cut them out."""
    options = replace(options, length=length_mm(body, options))
    return cut_out("shorts", body, options, draw(body, options))


def draw(body: Body, options: ShortsOptions) -> Legs:
    """The trousers' legs without a knee."""
    down, girth = length_mm(body, options), _hem_girth(body, options)
    leg = leg_for(body, options, hem_down=down, hem_girth=girth, with_knee=False)
    return draw_legs(leg, body, options)


def length_mm(body: Body, options: ShortsOptions) -> float:
    """As asked for, else a quarter of the inside leg below the crotch line."""
    rise = seat_for(body, options).rise
    asked = options.length or round(rise + 0.25 * body["inside_leg"], 6)
    if asked < rise + LEAST_LEG_MM:
        raise InvalidInput(
            "shorts_too_short", asked_measure_mm=asked,
            least_measure_mm=rise + LEAST_LEG_MM, field="length",
        )
    return asked


def _hem_girth(body: Body, options: ShortsOptions) -> float:
    """A little narrower than the leg at the crotch line, never tighter than the thigh."""
    hip = body["hip"]
    passes = max(body["thigh"], thigh_p95(body.kind, hip)) + THIGH_EASE_MM
    at_crotch = hip / 2 + hip / 8 + hip / 18 + roomy_ease(body, options) / 2
    girth = options.leg_width or max(0.95 * at_crotch, passes)
    if girth < passes:
        raise InvalidInput(
            "leg_too_tight", girth_measure_mm=girth, least_measure_mm=passes, field="leg_width",
        )
    return girth


GARMENT = Garment(
    name="shorts", title="Shorts", measurements=MEASUREMENTS, estimates=ESTIMATES,
    takes=ShortsOptions,
    draft=draft,
)
