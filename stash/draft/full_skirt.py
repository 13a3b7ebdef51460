"""What gathered and pleated skirts share: straight panels drawn up to a band, with a zip.

Rectangles as in the school drafts of the time: the Ontario Teachers' Manuals, Household Science in
Rural Schools (1918), Lesson XI, gather a straight length onto a belt. Sizes and proportions are
common practice, no source, where none is named.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from stash.draft.body import Body
from stash.draft.garment import Sewn, choice, fit, hem, measure
from stash.draft.lining import LINED, Lining, lined_as, lining_of
from stash.draft.panel import Cutting, Panel, joined
from stash.draft.rectangle import Turnings, rectangle
from stash.draft.safety import cautions_for
from stash.draft.sewing import Join, seams, sewing_needs
from stash.draft.waistband import Station, waistband
from stash.errors import InvalidInput
from stash.model import ClothWants, Joined, Mark, MarkKind, Part, Pattern, Role
from stash.notions.fastenings import TOP, hook_need, opening_least_mm, zip_need
from stash.notions.interfacing import interfacing_need

MEASUREMENTS = ("hip", "waist")
ESTIMATES = ("waist_to_hip", "height")
# Common practice, no source.
WAIST_EASE_MM, BAND_MM, UNDERLAP_MM, HIP_EASE_MM, KNEE_SHARE = 10.0, 30.0, 30.0, 60.0, 0.37

SkirtPanels = Literal["2", "4"]


@dataclass(frozen=True, kw_only=True)
class FullSkirtOptions(Sewn):
    """Options of gathered and pleated skirts."""

    length: float | None = measure("finished length from the waist down", 200, 1200)
    hem: float = hem(40.0)
    panels: SkirtPanels = choice(SkirtPanels, "cut in so many panels, for narrow cloth")
    lining: Lining = choice(Lining, "a lining")
    side: float = fit("take in at each side seam, front and back", -30, 30)


@dataclass(frozen=True, kw_only=True)
class FullSkirt:
    """A skirt of straight panels: the waist, how wide all panels are together, how long; what is
    marked on one panel.
    """

    garment: str
    waist: float
    flat: float
    down: float
    count: int
    marks: tuple[Mark, ...]
    wants: ClothWants

    @property
    def each(self) -> float:
        """How wide one panel is."""
        return self.flat / self.count


def waist_mm(body: Body, options: FullSkirtOptions) -> float:
    """The waist as sewn; each side of front and back may be taken in."""
    return body["waist"] + WAIST_EASE_MM - 4 * options.side


def length_mm(body: Body, options: FullSkirtOptions) -> float:
    """As asked for, else to the knee: 0.37 of the height (common practice, no source)."""
    down, least = options.length or KNEE_SHARE * body["height"], body["waist_to_hip"] + 60
    if down < least:
        raise InvalidInput(
            "skirt_too_short", asked_measure_mm=down, least_measure_mm=least, field="length",
        )
    return down


def full_skirt_pattern(body: Body, options: FullSkirtOptions, skirt: FullSkirt) -> Pattern:
    """The panels, their band and lining, and what they need; a seam opens for the zip."""
    options = replace(options, length=skirt.down)
    opening = _opening(body, skirt)
    panels = _panels(skirt, options, opening)
    pieces = tuple(p.piece() for p in panels)
    joins, finish = _joins(skirt, options), options.finish
    return Pattern(
        garment=skirt.garment, pieces=pieces, seams=seams(joins, finish), wants=skirt.wants,
        joins=_meetings(skirt, panels), notions=(
            zip_need(opening, "seam", trimmed=TOP), hook_need(1, "waistband"),
            *sewing_needs(joins, finish),
            interfacing_need([p for p in pieces if p.role is Role.INTERFACING])),
        measurements_mm=dict(body.values), estimated=body.estimated,
        options=options.to_json(), cautions=cautions_for(body, slept_in=False),
    )


def _opening(body: Body, skirt: FullSkirt) -> float:
    least = opening_least_mm(body["hip"], skirt.waist)
    return min(max(0.95 * body["waist_to_hip"], least), skirt.down - 40)


def _panels(skirt: FullSkirt, options: FullSkirtOptions, opening: float) -> list[Panel]:
    """All panels are alike; the zip lies in one of their seams."""
    seam = options.seam
    panel = rectangle(
        "panel", (skirt.down, skirt.each), Turnings(seam, options.hem, seam),
        Cutting(quantity=skirt.count, part=Part.BODY),
    ).marked(skirt.marks, notches=(("side", opening), ("side 2", skirt.down - opening)))
    edges = tuple(
        replace(e, name="waist") if e.name == "top"
        else replace(e, name="hem", turned=options.hem > 0) if e.name == "bottom" else e
        for e in panel.edges
    )
    # The middle of its waist meets a centre of the band, or a quarter of it.
    panel = replace(
        panel, edges=edges, match=(0.0, skirt.each / 2),
        notches=(*panel.notches, ("waist", skirt.each / 2)))
    band = waistband((skirt.waist + UNDERLAP_MM, BAND_MM), seam, _stations(skirt))
    lining = [lining_of(panel)] if options.lining == "full" else []
    return [panel, *lining, band, band.fused("waistband interfacing", 1)]


def _stations(skirt: FullSkirt) -> list[Station]:
    """A band that opens at one side: centre front, the other side, centre back, the overlap."""
    quarter = skirt.waist / 4
    return [
        (MarkKind.CENTRE, quarter), (MarkKind.SIDE_SEAM, 2 * quarter),
        (MarkKind.CENTRE, 3 * quarter), (MarkKind.OVERLAP, skirt.waist),
    ]


def _meetings(skirt: FullSkirt, panels: Sequence[Panel]) -> tuple[Joined, ...]:
    """Panel to panel; and their waist, drawn up, to its share of the band."""
    panel, share = panels[0], skirt.waist / skirt.count
    drawn_up = share if skirt.marks and skirt.marks[0].kind is not MarkKind.GATHER else skirt.each
    joins = [
        joined((panel, "side"), (panel, "side 2")),
        Joined((panel.name, "waist"), ("waistband", "side 2"), drawn_up, share),
    ]
    if any(p.name.endswith(LINED) for p in panels):
        joins += lined_as(joins[:1], [panel.name])
    return tuple(joins)


def _joins(skirt: FullSkirt, options: FullSkirtOptions) -> list[Join]:
    joins = [
        Join("panel seams", skirt.down, skirt.count), Join("drawing up", skirt.flat, 2, 0),
        Join("waist", skirt.waist, 2, 0), Join("hem", skirt.flat, 1, 1),
    ]
    if options.lining == "full":
        joins.append(Join("lining", skirt.count * skirt.down + skirt.flat, 1, 0))
    return joins
