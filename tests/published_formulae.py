"""What published formulae give on one body, and what the drafts here give in their place.

The body: a woman of hip 100, waist 76 and bust 92 cm, the rest from her table (ANSUR II medians).
Each value is mm; each row of ``golden/drafting_formulae.csv`` is in its source's words.
"""

from __future__ import annotations

from math import pi

from shapely import Polygon

from stash.draft import circle_skirt, leggings, trousers, yoke_shirt
from stash.draft.bodice import back_points as bodice_back
from stash.draft.bodice import bodice_for
from stash.draft.body import Body, complete
from stash.draft.catalogue import about, draft
from stash.draft.geometry import length
from stash.draft.leg import Leg, front_points
from stash.draft.legs import Legs
from stash.draft.skirt_block import SkirtOptions, draw_skirt

INCH = 25.4
HIP, WAIST, BUST = 1000.0, 760.0, 920.0
GIRTHS = {"hip": HIP, "waist": WAIST, "bust": BUST}


def reference(name: str, **more: float) -> Body:
    """The body as one garment asks for it."""
    return complete({**GIRTHS, **more}, about(name).estimates, "women")


def legs(waist: str) -> Legs:
    """Her trousers."""
    body = reference("trousers")
    return trousers.draw(body, trousers.TrouserOptions(waist=waist))  # type: ignore[arg-type]


def leg(waist: str = "elastic") -> Leg:
    """What her trousers' leg is drafted from."""
    return legs(waist).leg


def across_at_fork() -> float:
    """Both panels of a leg together, at the crotch line, on the stitching line."""
    drawn = legs("elastic")
    front, rear = drawn.front.points, drawn.back.points
    return (front["I"][1] - front["U"][1]) + (rear["fork"][1] - rear["U"][1])


def cloth_over_length() -> float:
    """The area of her trousers' pieces over their length and hem: so wide a cloth has it."""
    pattern = draft("trousers", GIRTHS, body="women")
    area = sum(Polygon(p.outline_mm).area * p.quantity for p in pattern.pieces)
    hem = next(o.default for o in about("trousers").options if o.name == "hem")
    return area / (float(pattern.options["length"]) + float(hem))


def not_followed() -> dict[str, tuple[float, float]]:
    """(what the published row gives, what is drafted here), by the row's key."""
    pulled, fitted = leg(), leg("fitted")
    seat = pulled.rise
    back_fork = HIP / 16 + HIP / 18
    child = complete({"hip": 570, "waist": 530, "height": 1100}, about("trousers").estimates,
                     "children")
    rise_of_five = trousers.draw(child, trousers.TrouserOptions()).leg.rise
    body = reference("yoke-shirt")
    loose = bodice_for(body, length=700, ease=200)
    across = shirt_half(body)
    circle = circle_skirt.draw(reference("circle-skirt"), circle_skirt.CircleSkirtOptions())
    gathered = draw_skirt(reference("straight-skirt"), SkirtOptions(waist="elastic"), 0.0)
    hem_half = pi * circle.hem_radius
    thigh = reference("trousers")["thigh"]
    return {
        "rosenfeld_rise": (10 * INCH, seat),
        "rosenfeld_1918_fork": (HIP / 12, pulled.front_fork),
        "rosenfeld_1918_fullness": (1.5 * INCH, pulled.front_fullness),
        "manual_fork": (HIP / 12 + 5 / 8 * INCH, back_fork),
        "course_hip": (HIP / 4 + 15, HIP / 4 + fitted.front_fullness),
        "course_depth": (HIP / 3 - 20, fitted.rise),
        "course_waist": (WAIST / 4 + 20, fitted.front_waist),
        "home_fork": (0.0375 * HIP, pulled.front_fork),
        "costing_cloth": (
            (WAIST + HIP) / 2 + (thigh + pulled.hem_girth) / 2, cloth_over_length()),
        "burton_drawers": (HIP - 4 * INCH, across_at_fork()),
        "drawers_seat": (BUST, across_at_fork()),
        "child_pyjama": (570 / 3, rise_of_five),
        "baldt_back_width": (across - 2 * INCH, across),
        "baldt_waist": (WAIST / 4 + 1.25 * INCH, across),
        "baldt_front_width": (across + 2 * INCH, across),
        "casual_block": (BUST / 2 + 120, 2 * across),
        "college_scye": (BUST / 4 - INCH / 2, bodice_back(loose)["underarm"][0]),
        "modern_neck": (body["neck_base"] / 5 - 5, bodice_back(loose)["neck"][1]),
        "baldt_circular": (HIP / 2 - hem_half / 8, circle.waist_radius),
        "elastic_skirt": (HIP / 4 + 5, length(gathered.front.waist)),
    }


def shirt_half(body: Body) -> float:
    """A quarter of the yoke shirt, back or front, at the underarm."""
    drawn = yoke_shirt.draw(body, yoke_shirt.YokeShirtOptions())
    return drawn.front.points["underarm"][1]


def followed() -> dict[str, tuple[float, float]]:
    """(what is drafted here, what the published row gives) where a draft follows the row."""
    body = reference("yoke-shirt")
    cuffed = yoke_shirt.draw(body, yoke_shirt.YokeShirtOptions(sleeve_length=600.0))
    tight = leggings.draw(
        reference("leggings", knee=370.0, ankle=270.0), leggings.LeggingsOptions(stretch="20"))
    inside_leg = 32 * INCH
    mens = Leg(
        hip=HIP, rise=260.0, hem_down=260.0 + inside_leg, hem_girth=400.0, front_fullness=0.0,
        back_fullness=0.0, front_waist=(26 / 4 + 2) * INCH, back_waist=300.0,
        front_fork=HIP / 16, seat_raise=60.0)
    points = front_points(mens)
    return {
        "rosenfeld_1911_waist": (points["X"][0], 0.5 * INCH),
        "rosenfeld_tight": (max(y for x, y in tight.front_inside if x == tight.leg.knee_down),
                            370.0 / 2),
        "manual_knee": (points["knee"][0] - 260.0, inside_leg / 2 - 2 * INCH),
        "baldt_sleeve_length": (cuffed.sleeve.hem[0][0], 600.0 - cuffed.cuff.deep),
    }


def bands() -> dict[str, tuple[float, float, float]]:
    """(what is drafted here, the least and the most that the row gives)."""
    both = leg().front_fork + HIP / 18
    body = reference("shirt")
    neck = bodice_back(bodice_for(body, length=700, ease=200))["neck"][1]
    sixth = body["neck_base"] / 6
    return {
        "common_forks": (both, HIP / 10, HIP / 8),
        "neck_sixth": (neck, sixth, sixth + 3 / 8 * INCH),
    }
