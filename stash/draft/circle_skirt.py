"""A circle skirt, full or half: two arcs about one point.

A full circle's waist lies on a radius of waist/(2 pi), a half circle's on waist/pi
(arithmetic; numberjacqui.com, 2016). With elastic the waistline is as long as the hip.
The arcs are centred on x = 0; x runs down the middle of each panel.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import pi
from typing import Literal

from stash.draft.body import Body
from stash.draft.cloth_wants import FLOWING
from stash.draft.cutting_line import Edge
from stash.draft.garment import Garment, Sewn, choice, fit, hem, measure
from stash.draft.geometry import arc, back, line
from stash.draft.panel import Cutting, Panel, joined
from stash.draft.safety import cautions_for
from stash.draft.sewing import Join, seams, sewing_needs
from stash.draft.waistband import from_centre_back, waistband
from stash.model import Joined, Need, Pattern, Role
from stash.notions.elastic import casing_mm, elastic_need
from stash.notions.fastenings import TOP, hook_need, opening_least_mm, zip_need
from stash.notions.interfacing import interfacing_need

# Common practice, no source, where none is named.
HEM_STRAY_MM = 0.4
HIP_EASE_MM = 20.0
BAND_MM, UNDERLAP_MM, ELASTIC_MM = 30.0, 30.0, 25.0


CircleFullness = Literal["full", "half"]
CirclePanels = Literal["halves", "quarters"]
Waist = Literal["fitted", "elastic"]
Elastic = Literal["usual", "tight"]


@dataclass(frozen=True, kw_only=True)
class CircleSkirtOptions(Sewn):
    """Options of the circle skirt."""

    length: float | None = measure("finished length from the waist down", 150, 1200)
    hem: float = hem(10.0)
    fullness: CircleFullness = choice(
        CircleFullness, "how much of a circle"
    )
    panels: CirclePanels = choice(
        CirclePanels, "cut in half circles, or in quarters for narrow cloth"
    )
    waist: Waist = choice(Waist, "how the waist holds")
    elastic: Elastic = choice(Elastic, "how close the elastic of the waist is cut")
    side: float = fit("take in at each side seam, front and back", -30, 30)


@dataclass(frozen=True)
class Circle:
    """Radii of waist and hem, and the angle of the whole skirt and of one panel, radians."""

    waist_radius: float
    hem_radius: float
    whole: float
    panel: float

    @property
    def panels(self) -> int:
        """How many panels make the skirt."""
        return round(self.whole / self.panel)


def draw(body: Body, options: CircleSkirtOptions) -> Circle:
    """Both radii; with elastic the waistline passes the hips."""
    whole = 2 * pi if options.fullness == "full" else pi
    around = body["waist"]
    if options.waist == "elastic":
        around = max(body["hip"], body["waist"]) + HIP_EASE_MM
    radius = (around - 4 * options.side) / whole
    panel = pi if options.panels == "halves" else pi / 2
    return Circle(radius, radius + _length(body, options), whole, panel)


def _length(body: Body, options: CircleSkirtOptions) -> float:
    """As asked for, else to the knee: 0.37 of the height (common practice, no source)."""
    return options.length or 0.37 * body["height"]


def draft(body: Body, options: CircleSkirtOptions) -> Pattern:
    """The panels, their band, and what they need."""
    options = replace(options, length=_length(body, options))
    circle, seam = draw(body, options), options.seam
    fitted = options.waist == "fitted"
    panels = [_panel(circle, seam, options.hem), *_band(circle, seam, fitted)]
    pieces = tuple(p.piece() for p in panels)
    joins, finish = _joins(circle), options.finish
    needs = [*_waist_needs(body, options), *sewing_needs(joins, finish)]
    fused = [p for p in pieces if p.role is Role.INTERFACING]
    if fused:
        needs.append(interfacing_need(fused))
    return Pattern(
        garment="circle-skirt", pieces=pieces, notions=tuple(needs), seams=seams(joins, finish),
        joins=_meetings(circle, panels), wants=FLOWING,
        measurements_mm=dict(body.values), estimated=body.estimated,
        options=options.to_json(), cautions=cautions_for(body, slept_in=False),
    )


def _panel(circle: Circle, seam: float, hem_mm: float) -> Panel:
    """Half of one panel from its middle line to its seam, opened out about the fold."""
    turn = circle.panel / 2
    waist = arc((0.0, 0.0), circle.waist_radius, 0.0, turn)
    hem_line = back(arc((0.0, 0.0), circle.hem_radius, 0.0, turn, HEM_STRAY_MM))
    edges = (
        Edge("waist", waist, seam), Edge("seam", line(waist[-1], hem_line[0]), seam),
        Edge("hem", hem_line, hem_mm), Edge("fold", line(hem_line[-1], waist[0])),
    )
    return Panel(
        name="skirt", edges=edges, on_fold=True, cutting=Cutting(quantity=circle.panels),
        notches=(("waist", 0.0),), match=(circle.waist_radius, 0.0),
    )


def _band(circle: Circle, seam: float, fitted: bool) -> list[Panel]:
    around = circle.waist_radius * circle.whole
    stations = from_centre_back(around / 4, around, underlap=fitted)
    if not fitted:
        return [waistband((around, casing_mm(ELASTIC_MM)), seam, stations)]
    band = waistband((around + UNDERLAP_MM, BAND_MM), seam, stations)
    return [band, band.fused("waistband interfacing", 1)]


def _meetings(circle: Circle, panels: Sequence[Panel]) -> tuple[Joined, ...]:
    """The panels to each other, and their waist to the band."""
    skirt, band, *_ = panels
    around = circle.waist_radius * circle.whole
    return (
        joined((skirt, "seam"), (skirt, "seam")),
        Joined((skirt.name, "waist"), (band.name, "side 2"), around, around),
    )


def _waist_needs(body: Body, options: CircleSkirtOptions) -> list[Need]:
    if options.waist == "fitted":
        least = opening_least_mm(body["hip"], body["waist"])
        opening = zip_need(max(0.95 * body["waist_to_hip"], least), "seam", trimmed=TOP)
        return [opening, hook_need(1, "waistband")]
    tight = options.elastic == "tight"
    return [elastic_need(body["waist"], casing_mm(ELASTIC_MM), tight=tight)]


def _joins(circle: Circle) -> list[Join]:
    down = circle.hem_radius - circle.waist_radius
    return [
        Join("panel seams", down, circle.panels),
        Join("waist", circle.waist_radius * circle.whole, 2, 0),
        Join("hem", circle.hem_radius * circle.whole, 2, 0),
    ]


GARMENT = Garment(
    name="circle-skirt", title="Circle skirt", measurements=("hip", "waist"),
    estimates=("waist_to_hip", "height"),
    takes=CircleSkirtOptions, draft=draft,
)
