"""The top of trousers and shorts: how wide, how high, with a casing, a band or darts."""

from __future__ import annotations

from stash.draft.body import Body
from stash.draft.body_table import thigh_p95
from stash.draft.darts import DART_MOST_MM
from stash.draft.garment import Options
from stash.draft.leg import Leg
from stash.notions.elastic import casing_mm

ELASTIC_MM = 25.0
BAND_MM = 35.0
UNDERLAP_MM = 40.0
WAIST_EASE_MM = 20.0
THIGH_EASE_MM = 40.0


def leg_for(
    body: Body, options: Options, *, hem_down: float, hem_girth: float, with_knee: bool = True
) -> Leg:
    """The leg's measures for this body: ease shared out 2 to 3 between front and back.

    A separate casing or band is sewn on above, so with elastic the leg starts that
    much lower.
    """
    hip, fitted = body["hip"], options["waist"] == "fitted"
    lowered = 0.0 if fitted or options["waistband"] == "cut-on" else casing_mm(ELASTIC_MM)
    ease = roomy_ease(body, options)
    front_fullness, back_fullness = 0.2 * ease, 0.3 * ease
    front_waist, back_waist = _waist_quarters(body, front_fullness, back_fullness, fitted=fitted)
    return Leg(
        hip=hip,
        rise=body["body_rise"] + seat_ease(hip) - lowered,
        hem_down=hem_down - lowered,
        hem_girth=hem_girth,
        front_fullness=front_fullness,
        back_fullness=back_fullness,
        front_waist=front_waist,
        back_waist=back_waist,
        front_fork=hip / 16,
        seat_raise=hip / 16,
        with_knee=with_knee,
    )


def seat_ease(hip_mm: float) -> float:
    """Ease under the seat: 1/2 in below 36 in of hip, 3/4 in to 38 in, 1 in above.

    NMSU Guide C-209, Measurements for fitting pants.
    """
    return 12.7 if hip_mm < 914.4 else 19.05 if hip_mm <= 965.2 else 25.4


def roomy_ease(body: Body, options: Options) -> float:
    """Ease round the hip: as asked, and enough for a bigger waist and for the thigh.

    Elastic waists have 3 to 4 in at the hip (S. Cunningham, seminar notes); less in
    proportion on small bodies.
    """
    hip, fitted = body["hip"], options["waist"] == "fitted"
    usual = 40.0 if fitted else min(100.0, 0.11 * hip)
    asked = float(options["ease"] or usual)
    for_waist = 0.0 if fitted else body["waist"] + 20 - hip
    thigh = max(body["thigh"], thigh_p95(body.kind, hip)) + THIGH_EASE_MM
    at_crotch = hip / 2 + hip / 8 + hip / 18
    return max(asked, for_waist, 2 * (thigh - at_crotch))


def _waist_quarters(
    body: Body, front_fullness: float, back_fullness: float, *, fitted: bool
) -> tuple[float, float]:
    hip, waist = body["hip"], body["waist"]
    front, back = hip / 4 + front_fullness, hip / 4 + back_fullness - hip / 32
    if not fitted:
        return front, max(back, max(hip, waist) / 2 + 5 - front)
    quarter = (waist + WAIST_EASE_MM) / 4
    front_dart = min(max(front - quarter - 20, 0.0), DART_MOST_MM)
    back_dart = min(max(back - quarter - 15, 0.0), 2 * DART_MOST_MM)
    return quarter + front_dart, quarter + back_dart
