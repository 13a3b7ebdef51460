"""Five checks on every garment that is fitted to a body, over every row of the body tables: seams,
girths, crotch, caps and darts.

The crotch of trousers, shorts and leggings is held in ``test_draft_trouser_shape`` and
``test_draft_knits``, over the same rows.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache
from math import dist, pi

import pytest
from bodies_of_tables import every_row
from shapely import LineString, Point, Polygon
from test_draft_fit_kept import drawn_up, most_eased_mm

from stash.draft.catalogue import draft
from stash.model import MarkKind, Pattern, Piece

WAYS: dict[str, list[dict[str, object]]] = {
    "trousers": [{}, {"waist": "fitted", "top": "facing", "pockets": "side"}],
    "shorts": [{}, {"waist": "fitted"}],
    "straight-skirt": [{}, {"waist": "elastic"}, {"top": "facing", "lining": "full"}],
    "a-line-skirt": [{}, {"waist": "elastic"}],
    "circle-skirt": [{}, {"waist": "elastic", "fullness": "half"}],
    "gathered-skirt": [{}, {"panels": "4"}], "pleated-skirt": [{}, {"pleats": "box"}],
    "shirt": [{}, {"sleeve": "long"}], "tunic": [{}, {"sleeve": "long"}],
    "yoke-shirt": [{}, {"back": "pleat"}],
    "fitted-bodice": [{"sleeve": "none"}, {"sleeve": "short", "lining": "full"}],
    "dress": [{}, {"skirt": "gathered"}],
    "knit-top": [{}, {"stretch": "50", "sleeve": "long"}], "leggings": [{}, {"stretch": "80"}],
    "robe": [{}], "nightshirt": [{}],
}
CAPPED = {"shirt": 10.0, "tunic": 10.0, "yoke-shirt": 10.0, "fitted-bodice": 25.0, "dress": 25.0,
          "knit-top": 0.0}


@cache
def drawn(name: str) -> list[tuple[dict[str, float], str, Pattern]]:
    """Every row of the tables drawn in every way, once."""
    return [
        (girths, kind, draft(name, girths, chosen, kind))
        for girths, kind in every_row() for chosen in WAYS[name]
    ]


def piece(pattern: Pattern, name: str) -> Piece:
    """One piece by its name."""
    return next(p for p in pattern.pieces if p.name == name)


@pytest.mark.parametrize("name", WAYS)
def test_seams_agree(name):
    """Two edges that are sewn together are equally long but for an ease that is meant."""
    for girths, kind, pattern in drawn(name):
        for join in pattern.joins:
            gathered = name == "dress" and pattern.options["skirt"] == "gathered"
            if drawn_up(name, join) or (gathered and "waist" in join.a) or (
                    name == "knit-top" and join.b[0].endswith("band")):
                assert join.a_mm > 0 and join.b_mm > 0
                continue
            outer = replace(join, a=(join.a[0].removesuffix(" lining"), join.a[1]))
            assert abs(join.ease_mm) < most_eased_mm(name, outer), (girths, kind, join)


@pytest.mark.parametrize("name", CAPPED)
def test_a_cap_is_its_armhole_and_its_ease(name):
    """All round: 10 mm on a shirt, 25 mm set in (less on a small arm), nothing on a knit."""
    for girths, kind, pattern in drawn(name):
        caps = [j for j in pattern.joins if j.a == ("sleeve", "cap")]
        if pattern.options.get("sleeve") == "none":
            continue
        ease = sum(j.ease_mm for j in caps)
        assert caps and -0.5 <= ease <= CAPPED[name] + 0.5, (girths, kind, ease)


@pytest.mark.parametrize("name", WAYS)
def test_both_legs_of_every_dart_are_equally_long_and_end_on_the_seam(name):
    """To a tenth of a millimetre; a dart's tip lies inside its piece."""
    for girths, kind, pattern in drawn(name):
        for one in pattern.pieces:
            sewn = Polygon(one.stitch_mm)
            for mark in (m for m in one.marks if m.kind is MarkKind.DART):
                first, tip, last = mark.at_mm
                assert dist(first, tip) == pytest.approx(dist(last, tip), abs=0.1), (girths, kind)
                assert sewn.contains(Point(tip)), (girths, kind, one.name)
                for end in (first, last):
                    assert sewn.exterior.distance(Point(end)) < 0.1, (girths, kind, one.name)


def across(one: Piece, level: float) -> float:
    """How wide the stitching is at a level, from the centre line outwards, all copies together."""
    line = LineString([(level, 0.0 if one.mirrored_pair else -5000.0), (level, 5000.0)])
    return Polygon(one.stitch_mm).buffer(0).intersection(line).length * (
        2 if one.mirrored_pair else 1)


def at_bust(pattern: Pattern) -> float:
    """Round back and fronts just below the underarm."""
    return sum(across(p, underarm(p) + 0.5) for p in (
        piece(pattern, "front"), piece(pattern, "back")))


def underarm(one: Piece) -> float:
    """How far down the armhole ends."""
    return max(x for e in one.edges if e.name == "armhole" for x, _ in e.path_mm)


def at_hip(pattern: Pattern, names=("front", "back")) -> float:
    """Round all panels at the hip line that is marked."""
    round_mm = 0.0
    for one in (piece(pattern, n) for n in names):
        level = next(m.at_mm[0][0] for m in one.marks if m.kind is MarkKind.HIP)
        line = LineString([(level, -5000.0), (level, 5000.0)])
        shape = Polygon(one.stitch_mm).buffer(0)
        round_mm += shape.intersection(line).length * one.quantity
    return round_mm


def widest(girths: dict[str, float]) -> float:
    """The wider of hip and waist."""
    return max(girths["hip"], girths["waist"])


Girth = Callable[[Pattern, dict[str, float]], tuple[float, float, float]]
"""What is measured on the paper, and the least and the most that it may be."""


def trouser_hip(pattern, girths):
    """Never less than the hip and the ease of a fitted leg."""
    return at_hip(pattern), girths["hip"] + 39, 2 * widest(girths)


def skirt_hip(pattern, girths):
    """The hip (with elastic the widest) and 5 cm (Burton 1916: 2 in); with elastic an A-line flares
    from the waist on.
    """
    fitted = pattern.options["waist"] == "fitted"
    wanted = (girths["hip"] if fitted else widest(girths)) + 50
    flared = 4 * 100.0 if pattern.garment == "a-line-skirt" and not fitted else 0.0
    return at_hip(pattern), wanted - 1, wanted + 1 + flared


def circle_waist(pattern, girths):
    """The waist on its radius; with elastic the widest and 2 cm."""
    ring = min(dist((0, 0), p) for p in piece(pattern, "skirt").stitch_mm)
    whole = 2 * pi if pattern.options["fullness"] == "full" else pi
    wanted = girths["waist"] if pattern.options["waist"] == "fitted" else widest(girths) + 20
    return ring * whole, wanted - 1, wanted + 1


def band_waist(pattern, girths):
    """Its band without the overlap is the waist and 1 cm."""
    joins = [j for j in pattern.joins if "waistband" in j.b]
    panels = piece(pattern, "panel").quantity
    return sum(j.b_mm for j in joins) * panels, girths["waist"] + 9, girths["waist"] + 11


def shirt_bust(pattern, girths):
    """The bust and 17 to 21 % of it, never more than 16 or 20 cm (common practice); the yoke
    shirt's bands lie between its fronts, and a pleat lies folded.
    """
    more = 35.0 if pattern.garment == "yoke-shirt" else 0.0
    if pattern.options.get("back") == "pleat":
        more -= 2 * 25.0 * min(1.0, girths["bust"] / 950)
    eased = at_bust(pattern) + more - girths["bust"]
    return eased, min(155.0, 0.165 * girths["bust"]), 201.0


def gown_bust(pattern, girths):
    """The wider of bust and hip and the ease asked for, at the underarm."""
    wanted = max(girths["bust"], girths["hip"]) + pattern.options["ease"]
    return at_bust(pattern), wanted - 2, wanted + 2


def fitted_bust(pattern, girths):
    """The bust and 8 cm (Sewing Lab Milano), less in proportion below 80 cm; without sleeves the
    underarm lies higher, which takes nothing off.
    """
    wanted = girths["bust"] + 80 * min(1.0, girths["bust"] / 800)
    return at_bust(pattern), wanted - 3, wanted + 3


def knit_bust(pattern, girths):
    """As small as its cloth stretches, never more than 10 % off (stitchpaperscissors.com)."""
    return at_bust(pattern), 0.9 * girths["bust"] - 2, girths["bust"] + 1


def leg_hip(pattern, girths):
    """As small as its cloth stretches, never more than 15 % off."""
    leg = piece(pattern, "leg")
    level = next(m.at_mm[0][0] for m in leg.marks if m.kind is MarkKind.CROTCH)
    line = LineString([(0.6 * level, -5000.0), (0.6 * level, 5000.0)])
    wide = 2 * Polygon(leg.stitch_mm).buffer(0).intersection(line).length
    return wide, 0.8 * girths["hip"], girths["hip"] + 1


GIRTHS: dict[str, Girth] = {
    "trousers": trouser_hip, "shorts": trouser_hip, "straight-skirt": skirt_hip,
    "a-line-skirt": skirt_hip, "circle-skirt": circle_waist, "gathered-skirt": band_waist,
    "pleated-skirt": band_waist, "shirt": shirt_bust, "tunic": shirt_bust,
    "yoke-shirt": shirt_bust, "fitted-bodice": fitted_bust, "dress": fitted_bust,
    "knit-top": knit_bust, "leggings": leg_hip, "robe": gown_bust, "nightshirt": gown_bust,
}


@pytest.mark.parametrize("name", WAYS)
def test_it_goes_round_the_body_with_its_ease(name):
    """Measured across the printed stitching lines, all pieces together."""
    for girths, kind, pattern in drawn(name):
        found, least, most = GIRTHS[name](pattern, girths)
        assert least <= found <= most, (girths, kind, pattern.options)
