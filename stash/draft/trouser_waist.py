"""The top of trousers and shorts: how wide, how high, with a casing, a band or darts.

Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from stash.draft.body import Body
from stash.draft.body_table import crotch_round, thigh_p95
from stash.draft.garment import Sewn, choice, fit, measure, seam_of
from stash.draft.geometry import length
from stash.draft.leg import Leg, back_crotch, back_inside, front_fork
from stash.draft.lining import Lining
from stash.draft.waist_facing import WaistTop
from stash.errors import InvalidInput
from stash.notions.elastic import casing_mm

# Common practice, no source, where none is named.
ELASTIC_MM = 25.0
BAND_MM = 35.0
UNDERLAP_MM = 40.0
WAIST_EASE_MM = 20.0
THIGH_EASE_MM = 40.0
BALANCE_MM = 5.0  # half the front's waist is this much over a quarter, the back's under it
FRONT_DART_MOST_MM, BACK_DARTS_MOST_MM = 20.0, 60.0
BACK_DART_SHARE = 0.65
SIDES_MM = 35.0  # what both sides of a half take in before there are darts
CROTCH_EASE_MM = 30.0  # seam over body: 2.5 to 5 cm for trousers (from memory)
BACK_OVER_FRONT = 1.33  # crotch seam, back over front: 1.25 to 1.35 (7pinedesign.com)
RAISE_LEAST, RAISE_MOST = 1 / 40, 1 / 8  # of the hip, what the centre back may stand higher
DEEPER_MOST = 1 / 12  # of the hip, what the crotch may be lowered for the seam's length
STRAY_MM = 15.0  # a measured crotch length may be missed by this much


Waist = Literal["elastic", "fitted"]
Elastic = Literal["usual", "tight"]
Waistband = Literal["cut-on", "separate", "pieced"]
TrouserPockets = Literal["none", "patch", "side"]


@dataclass(frozen=True, kw_only=True)
class LegOptions(Sewn):
    """Options of trousers and shorts."""

    length: float | None = measure("finished length down the side, waist to hem", 250, 1400)
    ease: float | None = measure(
        "ease round the hip: usually 100 mm with elastic, 40 mm fitted", 20, 400
    )
    leg_width: float | None = measure("girth of one leg at the hem", 180, 1400)
    waist: Waist = choice(Waist, "how the waist holds")
    elastic: Elastic = choice(Elastic, "how close the elastic of the waist is cut")
    waistband: Waistband = choice(Waistband, "the casing or band")
    top: WaistTop = choice(WaistTop, "how a fitted waist is finished: a band, or a facing")
    pockets: TrouserPockets = choice(TrouserPockets, "pockets")
    lining: Lining = choice(Lining, "a lining")
    centre_back: float = fit("raise the centre back, for a full seat", -20, 50)
    sway_back: float = fit("lower the centre back, for a sway back", 0, 40)
    side: float = fit("take in at each side seam, front and back", -30, 30)
    rise: float = fit("deepen the crotch, for a longer rise", -30, 50)
    seam_side: float | None = seam_of("side")
    seam_inside_leg: float | None = seam_of("inside leg")
    seam_crotch: float | None = seam_of("crotch")


@dataclass(frozen=True)
class Seat:
    """How deep the crotch line lies below the waist and how far the seat is raised, mm."""

    rise: float
    raised: float


def leg_for(
    body: Body, options: LegOptions, *, hem_down: float, hem_girth: float, with_knee: bool = True
) -> Leg:
    """The leg's measures for this body: ease shared out 2 to 3 between front and back.

    A separate casing or band is sewn on above, so with elastic the leg starts that
    much lower.
    """
    seat = seat_for(body, options)
    lowered = _lowered(options)
    return replace(
        _taken_in(_unseated(body, options), options.side),
        rise=seat.rise - lowered + options.rise,
        seat_raise=seat.raised + options.centre_back - options.sway_back,
        hem_down=hem_down - lowered, hem_girth=hem_girth, with_knee=with_knee,
        hip_up=_hip_up(body, seat.rise),
    )


def _taken_in(leg: Leg, side: float) -> Leg:
    """The leg as much narrower at its sides, front and back, from the waist to the thigh."""
    return replace(
        leg, front_fullness=leg.front_fullness - side, back_fullness=leg.back_fullness - side,
        front_waist=leg.front_waist - side, back_waist=leg.back_waist - side,
    )


def _lowered(options: LegOptions) -> float:
    fitted = options.waist == "fitted"
    return 0.0 if fitted or options.waistband == "cut-on" else casing_mm(ELASTIC_MM)


def _hip_up(body: Body, rise: float) -> float:
    """The hip's height above the crotch line, where trousers can have it."""
    least = max(0.2 * rise, body["hip"] / 16 + 5)
    return min(max(rise - body["waist_to_hip"], least), 0.5 * rise)


def _unseated(body: Body, options: LegOptions) -> Leg:
    """The leg by its widths, its crotch line at the body rise and its ease under the seat."""
    hip, ease = body["hip"], roomy_ease(body, options)
    front_fullness, back_fullness = 0.2 * ease, 0.3 * ease
    front_waist, back_waist = _waist_quarters(body, front_fullness, back_fullness, options)
    rise = body["body_rise"] + seat_ease(hip)
    return Leg(
        hip=hip,
        rise=rise,
        hem_down=body["body_rise"] + body["inside_leg"],
        hem_girth=0.42 * hip + 20,
        front_fullness=front_fullness,
        back_fullness=back_fullness,
        front_waist=front_waist,
        back_waist=back_waist,
        front_fork=hip / 16,
        seat_raise=hip / 16,
        hip_up=_hip_up(body, rise),
    )


def seat_for(body: Body, options: LegOptions) -> Seat:
    """The crotch line and the raise of the seat that give the crotch seam its length.

    It is the body's, front waist to back waist, and its ease. What it lacks is lowered at
    the crotch until the front has its share, the rest is raised at the centre back (fork,
    then length, then depth: winmichele.com, 2020). InvalidInput when a crotch length that
    was measured is not this body's.
    """
    leg = _unseated(body, options)
    measured = body.values.get("crotch_length") if "crotch_length" in body.given else None
    wanted = CROTCH_EASE_MM + (
        measured or crotch_round(body.kind, body["hip"], body["body_rise"])
    )
    short_mm = wanted / (1 + BACK_OVER_FRONT) - length(front_fork(leg)[1])
    leg = replace(leg, rise=leg.rise + min(max(short_mm, 0.0), DEEPER_MOST * body["hip"]))
    leg, seam_mm = _raised(leg, wanted)
    if measured and abs(seam_mm - wanted) > STRAY_MM:
        raise InvalidInput(
            "crotch_length_of_another_body", crotch_measure_mm=measured, hip_measure_mm=body["hip"],
            rise_measure_mm=body["body_rise"], field="crotch_length",
        )
    return Seat(leg.rise, leg.seat_raise)


def _raised(leg: Leg, wanted_mm: float) -> tuple[Leg, float]:
    """The seat raised until front and back together are as long as wanted; their length."""
    front_inside, front = front_fork(leg)
    inside = back_inside(leg, length(front_inside))
    seam_mm = length(front) + length(back_crotch(leg, inside))
    for _ in range(3):  # each step is nearly exact: the seam grows as the seat rises
        more = leg.seat_raise + wanted_mm - seam_mm
        bound = min(max(more, RAISE_LEAST * leg.hip), RAISE_MOST * leg.hip)
        leg = replace(leg, seat_raise=bound)
        seam_mm = length(front) + length(back_crotch(leg, inside))
    return leg, seam_mm


def seat_ease(hip_mm: float) -> float:
    """Ease under the seat: 1/2 in below 36 in of hip, 3/4 in to 38 in, 1 in above.

    NMSU Guide C-209, Measurements for fitting pants.
    """
    return 12.7 if hip_mm < 914.4 else 19.05 if hip_mm <= 965.2 else 25.4


def roomy_ease(body: Body, options: LegOptions) -> float:
    """Ease round the hip: as asked, and enough for a bigger waist and for the thigh.

    Elastic waists have 3 to 4 in at the hip (S. Cunningham, seminar notes); less in
    proportion on small bodies.
    """
    hip, fitted = body["hip"], options.waist == "fitted"
    usual = 40.0 if fitted else min(100.0, 0.11 * hip)
    asked = options.ease or usual
    for_waist = 0.0 if fitted else body["waist"] + 20 - hip
    thigh = max(body["thigh"], thigh_p95(body.kind, hip)) + THIGH_EASE_MM
    at_crotch = hip / 2 + hip / 8 + hip / 18
    return max(asked, for_waist, 2 * (thigh - at_crotch))


def waist_quarters(body: Body) -> tuple[float, float]:
    """Half the front's and half the back's waist as sewn, with its ease."""
    quarter = (body["waist"] + WAIST_EASE_MM) / 4
    return quarter + BALANCE_MM, quarter - BALANCE_MM


def _waist_quarters(
    body: Body, front_fullness: float, back_fullness: float, options: LegOptions
) -> tuple[float, float]:
    """Widths across at the waist, darts still in them: the back takes in before the front."""
    hip, waist = body["hip"], body["waist"]
    front, back = hip / 4 + front_fullness, hip / 4 + back_fullness - hip / 32
    if options.waist == "elastic":
        return front, max(back, max(hip, waist) / 2 + 5 - front)
    front_sewn, back_sewn = waist_quarters(body)
    over = max(0.0, front + back - front_sewn - back_sewn - SIDES_MM)
    back_darts = min(BACK_DART_SHARE * over, BACK_DARTS_MOST_MM)
    return front_sewn + min(over - back_darts, FRONT_DART_MOST_MM), back_sewn + back_darts
