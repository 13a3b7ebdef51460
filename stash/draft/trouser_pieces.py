"""Cutting out trousers and shorts: legs with their allowances, waist, pockets, and needs.

Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypedDict

from stash.draft.body import Body
from stash.draft.cloth_wants import SHORTS, TROUSERS
from stash.draft.cutting_line import Edge
from stash.draft.darts import folded_line
from stash.draft.garment import allowances
from stash.draft.geometry import Path, length, line
from stash.draft.leg import Leg, LegPanel
from stash.draft.legs import Legs
from stash.draft.lining import lined_as, lining_of
from stash.draft.panel import Cutting, Panel, joined
from stash.draft.pockets import patch_pocket, pocket_mark, side_pocket_bag
from stash.draft.rectangle import Turnings, rectangle
from stash.draft.safety import cautions_for
from stash.draft.sewing import Join, seams, sewing_needs
from stash.draft.trouser_top import waist_meetings, waist_panels
from stash.draft.trouser_waist import (
    ELASTIC_MM,
    LegOptions,
)
from stash.model import Joined, Mark, MarkKind, Need, Part, Pattern, Role
from stash.notions.elastic import casing_allowance_mm, casing_mm, elastic_need
from stash.notions.fastenings import TOP, hook_need, zip_need
from stash.notions.interfacing import interfacing_need


def cut_out(garment: str, body: Body, options: LegOptions, drawn: Legs) -> Pattern:
    """The pattern: pieces, stitching and notions of these legs with these options."""
    panels = [*_leg_panels(drawn, options), *waist_panels(drawn, options)]
    panels += _pockets(drawn, options)
    if options.waist == "fitted":
        panels += _fly(drawn, options.seam)
    if options.lining == "full":
        panels += [lining_of(p, options.seam) for p in panels[:2]]
    pieces = tuple(p.piece() for p in panels)
    joins = _joins(drawn, options)
    fused = [p for p in pieces if p.role is Role.INTERFACING]
    needs = [*_waist_needs(drawn, body, options), *sewing_needs(joins, options.finish)]
    if fused:
        needs.append(interfacing_need(fused))
    return Pattern(
        garment=garment, pieces=pieces, notions=tuple(needs),
        wants=SHORTS if garment == "shorts" else TROUSERS,
        seams=seams(joins, options.finish), measurements_mm=dict(body.values),
        estimated=body.estimated, options=options.to_json(), cautions=cautions_for(body),
        joins=_meetings(drawn, panels),
    )


def _meetings(drawn: Legs, panels: Sequence[Panel]) -> tuple[Joined, ...]:
    """Which edge is sewn to which: sides, inside legs, both crotch seams, and the band."""
    by_name = {p.name: p for p in panels}
    front, back = by_name["front"], by_name["back"]
    sides = [joined((back, e), (front, e)) for e in ("side", "inside leg")]
    crotch = [joined((p, "crotch"), (p, "crotch")) for p in (front, back)]
    if "front lining" in by_name:
        crotch += lined_as((*sides, *crotch), ("front", "back"))
    return (*sides, *crotch, *waist_meetings(drawn, by_name))


def _pocket_place(drawn: Legs, options: LegOptions) -> tuple[Mark, ...]:
    """A patch on each back, 6 cm below the waist, midway from side to seat (common practice)."""
    if options.pockets != "patch":
        return ()
    hip, points = drawn.leg.hip, drawn.back.points
    middle = (points["U"][1] + points["K"][1]) / 2
    return (pocket_mark((60.0, middle - 0.075 * hip), 0.15 * hip, 0.165 * hip),)


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
            Edge("waist", folded_line(d.waist, taken), top, turned=cut_on),
        )
        crease = d.points["crease"]
        crease_line = line(crease, (d.points["hem side"][0], crease[1]))
        panels.append(
            Panel(
                name=part.value, edges=edges, cutting=Cutting(quantity=2, pair=True, part=part),
                match=crease_line[1], **_snips(drawn, d, options),
                marks=(
                    Mark(MarkKind.CREASE, crease_line), *_levels(drawn.leg, d),
                    *(Mark(MarkKind.DART, t.mark) for t in taken), *_casing(d, cut_on),
                    *(_pocket_place(drawn, options) if d is drawn.back else ()),
                ),
            )
        )
    return panels


class _Snips(TypedDict, total=False):
    notches: tuple[tuple[str, float], ...]
    doubles: tuple[tuple[str, float], ...]


def _snips(drawn: Legs, d: LegPanel, options: LegOptions) -> _Snips:
    """Balance marks at the same distance on seams that meet, doubled on the back.

    At the hip and the knee on the side, at the knee on the inside leg, and on the crotch
    seam where its curve ends; the ends of pockets and of the fly.
    """
    side, inside = length(d.side), length(d.inside_leg)
    hip = _reach_down(d.side, drawn.leg.hip_level)
    if d is drawn.back:
        hip = _reach_down(drawn.front.side, drawn.leg.hip_level)
    balance = [("side", hip), ("side", 0.6 * side), ("inside leg", 0.5 * inside),
               ("crotch", 0.5 * length(d.crotch))]
    more = []
    if options.pockets == "side":
        more += [("side", 30.0), ("side", 30.0 + 0.16 * drawn.leg.hip)]
    if options.waist == "fitted" and d is drawn.front:
        more.append(("crotch", length(d.crotch) - drawn.fly_mm))
    if d is drawn.back:
        return {"notches": tuple(more), "doubles": tuple(balance)}
    return {"notches": (*balance, *more)}


def _reach_down(path: Path, level: float) -> float:
    """How far along a path that runs down it passes a level."""
    reach = 0.0
    for a, b in zip(path, path[1:], strict=False):
        if b[0] >= level and b[0] > a[0]:
            return reach + length((a, b)) * max(0.0, level - a[0]) / (b[0] - a[0])
        reach += length((a, b))
    return reach


def _levels(leg: Leg, d: LegPanel) -> list[Mark]:
    """The hip line and the crotch line across the panel."""
    side, fork = d.points["U"][1], d.inside_leg[-1]
    seat = max(y for x, y in d.crotch if x <= leg.hip_level) if d.crotch else side
    return [
        Mark(MarkKind.HIP, ((leg.hip_level, side), (leg.hip_level, seat))),
        Mark(MarkKind.CROTCH, ((leg.rise, side), (leg.rise, min(d.points["H"][1], fork[1])))),
    ]


def _casing(d: LegPanel, cut_on: bool) -> list[Mark]:
    """The line that a cut-on casing is folded along."""
    return [Mark(MarkKind.FOLD, d.waist)] if cut_on else []


def _fly(drawn: Legs, seam: float) -> list[Panel]:
    """A facing for the lapped edge and a doubled shield behind the zip."""
    long = drawn.fly_mm + 30
    fly = Cutting(part=Part.FLY)
    facing = _fly_facing(long, seam)
    return [
        facing, rectangle("fly shield", (long, 90.0), Turnings(seam, 0.0, seam), fly),
        facing.fused("fly interfacing", 1),
    ]


def _fly_facing(long: float, seam: float) -> Panel:
    """Sewn along the centre front and at the waist; its other edges are finished flat."""
    a, b, c, d = (0.0, 0.0), (0.0, 45.0), (long, 45.0), (long, 0.0)
    edges = (
        Edge("waist", (a, b), seam), Edge("centre front", (b, c), seam), Edge("foot", (c, d)),
        Edge("free edge", (d, a)),
    )
    return Panel(name="fly facing", edges=edges, cutting=Cutting(part=Part.FLY))


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
    if options.lining == "full":
        joins.append(Join("lining", 2 * (length(front.side) + length(front.inside_leg)) + length(
            front.crotch) + length(back.crotch) + length(front.hem) + length(back.hem), 1, 0))
    if options.pockets != "none":
        joins.append(Join("pockets", 0.45 * drawn.leg.hip, 2, 2))
    return joins


def _waist_needs(drawn: Legs, body: Body, options: LegOptions) -> list[Need]:
    if options.waist == "elastic":
        tight = options.elastic == "tight"
        return [elastic_need(body["waist"], casing_mm(ELASTIC_MM), tight=tight)]
    return [
        zip_need(drawn.fly_mm, "front opening", trimmed=TOP),
        hook_need(1, "waistband" if options.top == "band" else "waist"),
    ]
