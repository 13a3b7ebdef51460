"""Trousers: two fronts, two backs; an elastic waist, or a fitted one with darts, band and zip.

1. Draw the front leg (``leg.draw_front``): crotch line at the rise, a quarter of the
   hip across, the fork a sixteenth beyond, crease in the middle, knee and hem about it.
2. Draw the back on it (``leg.draw_back``), and true side and inside leg to the front.
3. Elastic: the sides run straight up, so the waist passes the hips. Fitted: what is
   over a quarter of the waist goes into darts.
4. Allow seams, hem and casing (``trouser_pieces``); cut pockets, band, fly.

Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from stash.draft.body import Body
from stash.draft.garment import Garment, hem, measure
from stash.draft.legs import Legs, draw_legs
from stash.draft.trouser_pieces import cut_out
from stash.draft.trouser_waist import LegOptions, leg_for
from stash.errors import InvalidInput
from stash.model import Pattern

MEASUREMENTS = ("hip", "waist")
ESTIMATES = ("body_rise", "inside_leg", "thigh", "foot_entry", "waist_to_hip")


@dataclass(frozen=True, kw_only=True)
class TrouserOptions(LegOptions):
    """Options of trousers."""

    length: float | None = measure("finished length down the side, waist to hem", 250, 1400)
    hem: float = hem(40.0)


def draft(body: Body, options: TrouserOptions) -> Pattern:
    """Draw the legs and cut them out."""
    options = replace(options, length=length_mm(body, options))
    return cut_out("trousers", body, options, draw(body, options))


def length_mm(body: Body, options: TrouserOptions) -> float:
    """As asked for, else down to 2 cm above the floor."""
    return options.length or body["body_rise"] + body["inside_leg"] - 20


def draw(body: Body, options: TrouserOptions) -> Legs:
    """Long legs: the hem just clears the floor and passes the heel."""
    passes = body["foot_entry"] + 10
    girth = options.leg_width or max(0.42 * body["hip"] + 20, passes + 20)
    if girth < passes:
        raise InvalidInput(
            "hem_misses_heel", girth_measure_mm=girth, least_measure_mm=passes, field="leg_width",
        )
    leg = leg_for(body, options, hem_down=length_mm(body, options), hem_girth=girth)
    return draw_legs(leg, body, options)


GARMENT = Garment(
    name="trousers", title="Trousers", measurements=MEASUREMENTS, estimates=ESTIMATES,
    takes=TrouserOptions,
    draft=draft,
)
