"""Cutting out straight and A-line skirts: panels, lining, band, and what they need.

Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from stash.draft.body import Body
from stash.draft.cloth_wants import SKIRTS
from stash.draft.cutting_line import Edge
from stash.draft.darts import folded_line, sewn_length
from stash.draft.edge_facing import FacingCut
from stash.draft.garment import Allowances, allowances
from stash.draft.geometry import along, join, length, line, move
from stash.draft.panel import Cutting, Panel, joined
from stash.draft.safety import cautions_for
from stash.draft.sewing import Join, seams, sewing_needs
from stash.draft.skirt_block import Quarter, Skirt, SkirtOptions, draw_skirt, length_mm
from stash.draft.waist_facing import WAIST_FACING_MM, PanelTop, waist_facing
from stash.draft.waistband import from_centre_back, waistband
from stash.model import Joined, Mark, MarkKind, Need, Part, Pattern, Role
from stash.notions.elastic import casing_allowance_mm, casing_mm, elastic_need
from stash.notions.fastenings import TOP, hook_need, zip_need
from stash.notions.interfacing import interfacing_need

# Common practice, no source, where none is named.
ELASTIC_MM = 25.0
BAND_MM = 30.0
UNDERLAP_MM = 30.0
VENT_MM = 40.0


@dataclass(frozen=True, kw_only=True)
class SkirtShape:
    """What makes one skirt differ from another: mm added at each side at the hem, a vent."""

    garment: str
    flare: float
    vent: float = 0.0


def skirt_pattern(body: Body, options: SkirtOptions, shape: SkirtShape) -> Pattern:
    """Draw the block, cut it out, list what it needs."""
    options = replace(options, length=length_mm(body, options))
    skirt = draw_skirt(body, options, shape.flare)
    panels = [*_main_panels(skirt, options, shape), *_top(skirt, options)]
    if options.lining == "full":
        panels += _lining(skirt, options)
    pieces = tuple(p.piece() for p in panels)
    joins, finish = _joins(skirt, options), options.finish
    needs = [*_waist_needs(skirt, body, options), *sewing_needs(joins, finish)]
    fused = [p for p in pieces if p.role is Role.INTERFACING]
    if fused:
        needs.append(interfacing_need(fused))
    return Pattern(
        garment=shape.garment, pieces=pieces, notions=tuple(needs), seams=seams(joins, finish),
        joins=_meetings(skirt, panels), wants=SKIRTS,
        measurements_mm=dict(body.values), estimated=body.estimated,
        options=options.to_json(), cautions=cautions_for(body, slept_in=False),
    )


def _meetings(skirt: Skirt, panels: Sequence[Panel]) -> tuple[Joined, ...]:
    """Which edge is sewn to which."""
    by_name = {p.name: p for p in panels}
    front, back = by_name["front"], by_name["back"]
    joins = [joined((back, "side"), (front, "side"))]
    if any(e.name == "centre back" for e in back.edges):
        joins.append(joined((back, "centre back"), (back, "centre back")))
    if "waistband" in by_name:
        for name, q in (("front", skirt.front), ("back", skirt.back)):
            half = sewn_length(q.waist, q.darts)
            joins.append(Joined((name, "waist"), ("waistband", "side 2"), half, half))
    for name, q in (("front", skirt.front), ("back", skirt.back)):
        if faced := by_name.get(f"{name} waist facing"):
            joins.append(Joined(
                (faced.name, "waist"), (name, "waist"), faced.length("waist"),
                sewn_length(q.waist, q.darts)))
    if "front lining" in by_name:
        joins.append(joined((by_name["back lining"], "side"), (by_name["front lining"], "side")))
    return tuple(joins)


def _main_panels(skirt: Skirt, options: SkirtOptions, shape: SkirtShape) -> list[Panel]:
    """The front on the fold; the back on the fold too with elastic and no vent, else a pair."""
    allow = allowances(options)
    whole_back = not skirt.fitted and not shape.vent
    front = quarter_panel(Part.FRONT, skirt.front, allow, skirt)
    if whole_back:
        return [front, quarter_panel(Part.BACK, skirt.back, allow, skirt)]
    return [front, back_pair(skirt, allow, shape.vent)]


def quarter_panel(part: Part, q: Quarter, allow: Allowances, skirt: Skirt) -> Panel:
    """A quarter on the fold."""
    edges = (
        _waist_edge(q, skirt, allow), Edge("side", q.side, allow.at("side")),
        Edge("hem", q.hem, allow.hem, turned=allow.hem > 0),
        Edge("fold", line(q.hem[-1], q.waist[0])),
    )
    return Panel(
        name=part.value, edges=edges, cutting=Cutting(part=part), on_fold=True,
        notches=() if part is Part.BACK else (("side", q.hip_at),),
        doubles=(("side", q.hip_at),) if part is Part.BACK else (),
        marks=_marks(q, skirt), match=(skirt.hip_down, 0.0),
    )


def back_pair(skirt: Skirt, allow: Allowances, vent: float) -> Panel:
    """The back in two, a vent cut on below its centre seam."""
    q = skirt.back
    foot, waist = q.hem[-1], q.waist[0]
    centre, hem_path, marks = line(foot, waist), q.hem, _marks(q, skirt)
    if vent:
        out = move(foot, across=-VENT_MM)
        upper = move(foot, down=-vent)
        centre = line(out, move(upper, down=VENT_MM / 2, across=-VENT_MM), upper, waist)
        hem_path = join(q.hem, line(foot, out))
        marks = (*marks, Mark(MarkKind.CENTRE, line(upper, foot)))
    edges = (
        _waist_edge(q, skirt, allow), Edge("side", q.side, allow.at("side")),
        Edge("hem", hem_path, allow.hem, turned=allow.hem > 0),
        Edge("centre back", centre, allow.at("centre back")),
    )
    opening = [("centre back", length(centre) - opening_mm(skirt))] if skirt.fitted else []
    return Panel(
        name="back", edges=edges, cutting=Cutting(quantity=2, pair=True, part=Part.BACK),
        notches=tuple(opening), doubles=(("side", q.hip_at),),
        marks=marks, match=(skirt.hip_down, 0.0),
    )


def _marks(q: Quarter, skirt: Skirt) -> tuple[Mark, ...]:
    """The hip line, the darts, and the fold of a casing."""
    hip = Mark(MarkKind.HIP, ((skirt.hip_down, 0.0), (skirt.hip_down, along(q.side, q.hip_at)[1])))
    casing = () if skirt.fitted else (Mark(MarkKind.FOLD, q.waist),)
    return (hip, *(Mark(MarkKind.DART, d.mark) for d in q.darts), *casing)


def _waist_edge(q: Quarter, skirt: Skirt, allow: Allowances) -> Edge:
    if skirt.fitted:
        return Edge("waist", folded_line(q.waist, q.darts), allow.seam)
    return Edge("waist", q.waist, casing_allowance_mm(ELASTIC_MM), turned=True)


def opening_mm(skirt: Skirt) -> float:
    """How far down the centre back the skirt opens: to the hips, and as far as they want it."""
    if skirt.opens_mm is not None:
        return skirt.opens_mm
    return max(0.95 * skirt.hip_down, skirt.opening_least_mm)


def _lining(skirt: Skirt, options: SkirtOptions) -> list[Panel]:
    """The same quarters, 3 cm shorter by their hem allowance and without vent."""
    allow = replace(allowances(options), hem=0.0)
    front = quarter_panel(Part.FRONT, skirt.front, allow, skirt)
    back = quarter_panel(Part.BACK, skirt.back, allow, skirt)
    parts = (front, back) if not skirt.fitted else (front, back_pair(skirt, allow, 0.0))
    return [
        Panel(
            name=f"{p.name} lining", edges=p.edges, on_fold=p.on_fold,
            cutting=replace(p.cutting, role=Role.LINING),
        )
        for p in parts
    ]


def _top(skirt: Skirt, options: SkirtOptions) -> list[Panel]:
    """A band, or facings in its place, for a fitted waist."""
    if not skirt.fitted or options.top == "band":
        return _band(skirt, options.seam)
    allow, panels = allowances(options), []
    pair = Cutting(quantity=2, pair=True, part=Part.FACING)
    for name, q, cut in (
        ("front", skirt.front, FacingCut(
            name="front waist facing", deep_mm=WAIST_FACING_MM, on_fold=True)),
        ("back", skirt.back, FacingCut(
            name="back waist facing", deep_mm=WAIST_FACING_MM, cutting=pair)),
    ):
        marks = 0.0 if name == "front" else allow.at("centre back")
        facing = waist_facing(PanelTop(
            waist=q.waist, side=q.side, darts=q.darts,
            centre=line(q.waist[0], (skirt.hip_down, 0.0)),
            allow=(allow.seam, allow.at("side"), marks),
        ), cut)
        panels += [facing, facing.fused(
            f"{cut.name} interfacing", facing.cutting.quantity, pair=facing.cutting.pair)]
    return panels


def _band(skirt: Skirt, seam: float) -> list[Panel]:
    if not skirt.fitted:
        return []
    waist, back = skirt.waist_mm, sewn_length(skirt.back.waist, skirt.back.darts)
    band = waistband(
        (waist + UNDERLAP_MM, BAND_MM), seam, from_centre_back(back, waist, underlap=True)
    )
    return [band, band.fused("waistband interfacing", 1)]


def _waist_needs(skirt: Skirt, body: Body, options: SkirtOptions) -> list[Need]:
    if skirt.fitted:
        return [
            zip_need(opening_mm(skirt), "centre back", trimmed=TOP),
            hook_need(1, "waistband" if options.top == "band" else "waist"),
        ]
    tight = options.elastic == "tight"
    return [elastic_need(body["waist"], casing_mm(ELASTIC_MM), tight=tight)]


def _joins(skirt: Skirt, options: SkirtOptions) -> list[Join]:
    joins = [
        Join("side", length(skirt.front.side), 2), Join("centre back", skirt.length, 1),
        Join("waist", skirt.waist_mm, 2, 0), Join("hem", skirt.hem_mm, 1, 1),
    ]
    if options.lining == "full":
        joins += [Join("lining seams", 2 * length(skirt.front.side) + skirt.length, 1),
                  Join("lining hem", skirt.hem_mm, 1, 0)]
    return joins
