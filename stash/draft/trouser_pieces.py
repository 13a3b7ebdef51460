"""Cutting out trousers and shorts: legs with their allowances, waist, pockets, and needs."""

from __future__ import annotations

from dataclasses import dataclass

from stash.draft.body import Body
from stash.draft.cautions import cautions_for
from stash.draft.cloth_wants import LEGS
from stash.draft.cutting_line import Edge
from stash.draft.darts import Dart, darts, sewn_length
from stash.draft.garment import allowances
from stash.draft.geometry import length, line
from stash.draft.leg import Drawn, Leg, draw_back, draw_front
from stash.draft.panel import Cutting, Panel, strip
from stash.draft.pockets import patch_pocket, side_pocket_bag
from stash.draft.sewing import Join, seams, sewing_needs
from stash.draft.trouser_waist import (
    BAND_MM,
    ELASTIC_MM,
    UNDERLAP_MM,
    LegOptions,
    waist_quarters,
)
from stash.model import Need, Part, Pattern, Role
from stash.notions.elastic import casing_allowance_mm, casing_mm, elastic_need
from stash.notions.fastenings import TOP, hook_need, opening_least_mm, zip_need
from stash.notions.interfacing import interfacing_need


@dataclass(frozen=True, kw_only=True)
class Legs:
    """Both panels as drawn, with the darts of a fitted waist."""

    leg: Leg
    front: Drawn
    back: Drawn
    front_darts: tuple[Dart, ...] = ()
    back_darts: tuple[Dart, ...] = ()
    opening_least_mm: float = 0.0

    @property
    def waist_mm(self) -> float:
        """The whole waist once the darts are sewn."""
        front = sewn_length(self.front.waist, self.front_darts)
        return 2 * (front + sewn_length(self.back.waist, self.back_darts))

    @property
    def fly_mm(self) -> float:
        """Opening of a fitted front: three quarters of the way to the crotch curve.

        Never less than lets the hips through.
        """
        drawn = 0.75 * (self.front.points["J"][0] - self.front.points["X"][0])
        return max(drawn, self.opening_least_mm)


def draw_legs(leg: Leg, body: Body, options: LegOptions) -> Legs:
    """Front and back, trued; with a fitted waist also its darts.

    Darts take what the waistline is longer than its share of the waist; back darts
    are 12 to 14 cm long (trousers lesson, lessonotes.com), front ones shorter.
    """
    front = draw_front(leg)
    back = draw_back(leg, front)
    if options.waist == "elastic":
        return Legs(leg=leg, front=front, back=back)
    front_waist, back_waist = waist_quarters(body)
    scale = leg.rise / 290
    return Legs(
        leg=leg, front=front, back=back,
        front_darts=darts(front.waist, front_waist, 90 * scale, most=1),
        back_darts=darts(back.waist, back_waist, 130 * scale),
        opening_least_mm=opening_least_mm(body["hip"], body["waist"]),
    )


def cut_out(garment: str, body: Body, options: LegOptions, drawn: Legs) -> Pattern:
    """The pattern: pieces, stitching and notions of these legs with these options."""
    panels = [*_leg_panels(drawn, options), *_waistband(drawn, options), *_pockets(drawn, options)]
    if options.waist == "fitted":
        panels += _fly(drawn, options.seam)
    pieces = tuple(p.piece() for p in panels)
    joins = _joins(drawn, options)
    fused = [p for p in pieces if p.role is Role.INTERFACING]
    needs = [*_waist_needs(drawn, body, options), *sewing_needs(joins, options.finish)]
    if fused:
        needs.append(interfacing_need(fused))
    return Pattern(
        garment=garment, pieces=pieces, notions=tuple(needs), wants=LEGS,
        seams=seams(joins, options.finish), measurements_mm=dict(body.values),
        estimated=body.estimated, options=options.to_json(), cautions=cautions_for(body),
    )


def _leg_panels(drawn: Legs, options: LegOptions) -> list[Panel]:
    allow = allowances(options)
    cut_on = options.waist == "elastic" and options.waistband == "cut-on"
    top = casing_allowance_mm(ELASTIC_MM) if cut_on else allow.seam
    panels = []
    for part, d, taken in (
        (Part.FRONT, drawn.front, drawn.front_darts), (Part.BACK, drawn.back, drawn.back_darts),
    ):
        edges = (
            Edge("side", d.side, allow.at("side")),
            Edge("hem", d.hem, allow.hem, turned=allow.hem > 0),
            Edge("inside leg", d.inside_leg, allow.at("inside leg")),
            Edge("crotch", d.crotch, allow.at("crotch")),
            Edge("waist", d.waist, top, turned=cut_on),
        )
        crease = d.points["crease"]
        crease_line = line(crease, (d.points["hem side"][0], crease[1]))
        panels.append(
            Panel(
                name=part.value, edges=edges, cutting=Cutting(quantity=2, pair=True, part=part),
                notches=_notches(drawn, d, options), match=crease_line[1],
                marks=(crease_line, *(t.mark for t in taken)),
            )
        )
    return panels


def _notches(drawn: Legs, d: Drawn, options: LegOptions) -> tuple[tuple[str, float], ...]:
    """Balance marks at the same distance on seams that meet; a second one marks the back."""
    side, inside = length(d.side), length(d.inside_leg)
    marks = [("side", 0.6 * side), ("inside leg", 0.5 * inside)]
    if d is drawn.back:
        marks += [("side", 0.6 * side + 8), ("inside leg", 0.5 * inside + 8)]
    if options.pockets == "side":
        marks += [("side", 30.0), ("side", 30.0 + 0.16 * drawn.leg.hip)]
    if options.waist == "fitted" and d is drawn.front:
        marks.append(("crotch", length(d.crotch) - drawn.fly_mm))
    return tuple(marks)


def _waistband(drawn: Legs, options: LegOptions) -> list[Panel]:
    """A band doubled over: in one piece, or pieced at the side seams."""
    seam, fitted = options.seam, options.waist == "fitted"
    if not fitted and options.waistband == "cut-on":
        return []
    depth = BAND_MM if fitted else casing_mm(ELASTIC_MM)
    around = drawn.waist_mm + (UNDERLAP_MM if fitted else 0.0)
    parts = 2 if options.waistband == "pieced" else 1
    band = strip(
        "waistband", around / parts + 2 * seam, 2 * depth + 2 * seam,
        Cutting(quantity=parts, part=Part.WAISTBAND),
    )
    return [band, band.fused("waistband interfacing", parts)] if fitted else [band]


def _fly(drawn: Legs, seam: float) -> list[Panel]:
    """A facing for the lapped edge and a doubled shield behind the zip."""
    long = drawn.fly_mm + 30 + seam
    facing = strip("fly facing", long, 45 + seam, Cutting(part=Part.FLY))
    return [
        facing, strip("fly shield", long, 90 + 2 * seam, Cutting(part=Part.FLY)),
        facing.fused("fly interfacing", 1),
    ]


def _pockets(drawn: Legs, options: LegOptions) -> list[Panel]:
    seam, hip = options.seam, drawn.leg.hip
    if options.pockets == "patch":
        return [patch_pocket("pocket", 0.15 * hip, 0.165 * hip, seam, quantity=2)]
    if options.pockets == "side":
        return [side_pocket_bag("pocket bag", 0.16 * hip, seam)]
    return []


def _joins(drawn: Legs, options: LegOptions) -> list[Join]:
    front, back = drawn.front, drawn.back
    joins = [
        Join("side", length(front.side), 2), Join("inside leg", length(front.inside_leg), 2),
        Join("crotch, sewn twice", length(front.crotch) + length(back.crotch), 2, 1),
        Join("waist", drawn.waist_mm, 2, 0),
        Join("hem", length(front.hem) + length(back.hem), 2, 0),
    ]
    if options.pockets != "none":
        joins.append(Join("pockets", 0.45 * drawn.leg.hip, 2, 2))
    return joins


def _waist_needs(drawn: Legs, body: Body, options: LegOptions) -> list[Need]:
    if options.waist == "elastic":
        tight = options.elastic == "tight"
        return [elastic_need(body["waist"], casing_mm(ELASTIC_MM), tight=tight)]
    return [
        zip_need(drawn.fly_mm, "front opening", trimmed=TOP), hook_need(1, "waistband"),
    ]
