"""A dress: the fitted bodice and a skirt sewn together at the waist, a zip at the centre back.

1. Draw the bodice to the waist and its ease (``fitted_block``).
2. Draw the skirt's quarters so that their sewn waists are the bodice's, dart below dart
   (``dress_skirt``), or gather a straight length to it.
3. The zip opens from the neck to the hips, which lets the shoulders and the hips through.

Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from stash.draft.body import Body
from stash.draft.cloth_wants import DRESSES
from stash.draft.cutting_line import FOLD, Edge
from stash.draft.dress_skirt import (
    SkirtQuarter,
    bodice_dart_at,
    draw_quarter,
    sewn_waist,
)
from stash.draft.fitted_bodice import ESTIMATES as BODICE_ESTIMATES
from stash.draft.fitted_pieces import (
    FittedLines,
    FittedOptions,
    bodice_joins,
    bodice_meetings,
    bodice_panels,
    draw_fitted,
    waists_mm,
)
from stash.draft.garment import Garment, allowances, choice, hem, measure
from stash.draft.geometry import length, line
from stash.draft.lining import lining_of
from stash.draft.panel import Cutting, Panel, joined
from stash.draft.safety import cautions_for
from stash.draft.sewing import Join, seams, sewing_needs
from stash.draft.skirt_block import Quarter, Skirt
from stash.draft.skirt_pieces import back_pair, quarter_panel
from stash.errors import InvalidInput
from stash.model import Joined, Mark, MarkKind, Need, Part, Pattern, Role
from stash.notions.fastenings import hook_need, opening_least_mm, zip_need
from stash.notions.interfacing import interfacing_need

MEASUREMENTS = ("bust|chest", "waist", "hip")
ESTIMATES = (*BODICE_ESTIMATES, "waist_to_hip", "height")
# Common practice, no source.
KNEE_SHARE, VENT_SHARE, GATHERED = 0.37, 0.4, 2.0
A_LINE_MM, ZIP_FROM_NECK_MM = 70.0, 600.0
FRONT_DART_MM, BACK_DART_MM = 42.0, 25.0  # the widest that is sewn as one

SkirtBelow = Literal["a-line", "straight", "gathered"]


@dataclass(frozen=True, kw_only=True)
class DressOptions(FittedOptions):
    """Options of the dress."""

    length: float | None = measure("skirt of the dress, finished, from the waist down", 200, 1300)
    hem: float = hem(40.0)
    skirt: SkirtBelow = choice(SkirtBelow, "the skirt below the waist")
    hip_ease: float = measure("ease round the hip", 30, 300, 60.0)
    flare: float = measure(
        "let out at each side seam, front and back, at the hem of an A-line skirt", 20, 250,
        A_LINE_MM,
    )


@dataclass(frozen=True)
class DressLines:
    """The bodice, and the skirt's front and back quarters (None where it is gathered)."""

    bodice: FittedLines
    skirt: Skirt | None
    down: float
    below: float

    @property
    def opening_mm(self) -> float:
        """From the neck to the end of the zip below the waist."""
        return length(self.bodice.back.centre) + self.below


def draft(body: Body, options: DressOptions) -> Pattern:
    """Draw, then cut out."""
    options = replace(options, length=skirt_length_mm(body, options))
    drawn = draw(body, options)
    panels = _panels(drawn, options)
    pieces = tuple(p.piece() for p in panels)
    joins, finish = _joins(drawn, options), options.finish
    needs: list[Need] = [
        zip_need(drawn.opening_mm, "centre back"), hook_need(1, "neck"),
        *sewing_needs(joins, finish),
    ]
    if fused := [p for p in pieces if p.role is Role.INTERFACING]:
        needs.append(interfacing_need(fused))
    return Pattern(
        garment="dress", pieces=pieces, notions=tuple(needs), seams=seams(joins, finish),
        joins=_meetings(drawn, panels), wants=DRESSES,
        measurements_mm=dict(body.values), estimated=body.estimated,
        options=options.to_json(), cautions=cautions_for(body, slept_in=False),
    )


def skirt_length_mm(body: Body, options: DressOptions) -> float:
    """As asked for, else to the knee: 0.37 of the height (common practice, no source)."""
    down, least = options.length or KNEE_SHARE * body["height"], body["waist_to_hip"] + 60
    if down < least:
        raise InvalidInput(
            "skirt_too_short", asked_measure_mm=down, least_measure_mm=least, field="length",
        )
    return down


def draw(body: Body, options: DressOptions) -> DressLines:
    """Bodice, then the skirt to its waist."""
    waists = waists_mm(body, options)
    bodice, down = draw_fitted(body, options, waists), skirt_length_mm(body, options)
    least = opening_least_mm(body["hip"], 2 * sum(waists))
    to_hip = min(0.95 * body["waist_to_hip"], ZIP_FROM_NECK_MM - length(bodice.back.centre))
    below = min(max(to_hip, least), down - 40)
    if options.skirt == "gathered":
        return DressLines(bodice, None, down, below)
    sides: list[Quarter] = []
    for half, waist, shift, one in (
        (bodice.front, waists[0], 5.0, FRONT_DART_MM), (bodice.back, waists[1], -5.0, BACK_DART_MM)
    ):
        sides.append(draw_quarter(SkirtQuarter(
            across=(body["hip"] + options.hip_ease) / 4 - options.side + shift,
            hip_down=body["waist_to_hip"], down=down,
            flare=options.flare if options.skirt == "a-line" else 0.0, waist=waist,
            dart_at=bodice_dart_at(half) or 0.45 * waist, one_dart=one, size=bodice.block.size,
            side_mm=length(sides[0].side) if sides else None,
        )))
    skirt = Skirt(
        sides[0], sides[1], True, body["waist_to_hip"], down, least, opens_mm=below)
    return DressLines(bodice, skirt, down, below)


def _panels(drawn: DressLines, options: DressOptions) -> list[Panel]:
    allow = allowances(options)
    bodice = bodice_panels(drawn.bodice, options, allow.at("waist"))
    below = _skirt_panels(drawn, options)
    if options.lining == "full":
        below = [*below, *map(lining_of, below)]
    return [*bodice, *below]


def _skirt_panels(drawn: DressLines, options: DressOptions) -> list[Panel]:
    """Front on the fold, backs as a pair; the straight one with a vent to walk in."""
    allow = allowances(options)
    if drawn.skirt is None:
        return _gathered(drawn, options)
    vent = 0.0
    if options.skirt == "straight":
        vent = max(80.0, VENT_SHARE * (drawn.down - drawn.skirt.hip_down))
        vent = min(vent, drawn.down - drawn.below - 40)
    front = quarter_panel(Part.FRONT, drawn.skirt.front, allow, drawn.skirt)
    rear = back_pair(drawn.skirt, allow, max(vent, 0.0))
    return [replace(front, name="skirt front"), replace(rear, name="skirt back")]


def gathered_mm(drawn: DressLines) -> tuple[float, float]:
    """Half the front's and half the back's flat width: twice the waist (common practice)."""
    return (GATHERED * drawn.bodice.front.waist.sewn_mm,
            GATHERED * drawn.bodice.back.waist.sewn_mm)


def _gathered(drawn: DressLines, options: DressOptions) -> list[Panel]:
    allow, down = allowances(options), drawn.down
    panels = []
    for name, wide, part in zip(
        ("skirt front", "skirt back"), gathered_mm(drawn), (Part.FRONT, Part.BACK), strict=True
    ):
        front = part is Part.FRONT
        middle = FOLD if front else "centre back"
        edges = (
            Edge("waist", line((0.0, 0.0), (0.0, wide)), allow.seam),
            Edge("side", line((0.0, wide), (down, wide)), allow.at("side")),
            Edge("hem", line((down, wide), (down, 0.0)), allow.hem, turned=allow.hem > 0),
            Edge(middle, line((down, 0.0), (0.0, 0.0)), 0.0 if front else allow.seam),
        )
        cutting = Cutting(part=part) if front else Cutting(quantity=2, pair=True, part=part)
        panels.append(Panel(
            name=name, edges=edges, cutting=cutting, on_fold=front,
            notches=() if front else (("centre back", down - drawn.below),),
            marks=(Mark(MarkKind.GATHER, ((0.0, 0.0), (0.0, wide))),),
        ))
    return panels


def _meetings(drawn: DressLines, panels: Sequence[Panel]) -> tuple[Joined, ...]:
    """The bodice's, the skirt's, and the waist: darts sewn or gathers drawn up."""
    by_name = {p.name: p for p in panels}
    joins = bodice_meetings(drawn.bodice, panels)
    for end in ("", " lining"):
        if f"skirt front{end}" not in by_name:
            continue
        front, rear = by_name[f"skirt front{end}"], by_name[f"skirt back{end}"]
        joins += [joined((rear, "side"), (front, "side")),
                  joined((rear, "centre back"), (rear, "centre back"))]
        flat = gathered_mm(drawn)
        if drawn.skirt is not None:
            flat = sewn_waist(drawn.skirt.front), sewn_waist(drawn.skirt.back)
        halves = ("front", drawn.bodice.front), ("back", drawn.bodice.back)
        joins += [
            Joined((f"skirt {name}{end}", "waist"), (f"{name}{end}", "waist"), mm,
                   half.waist.sewn_mm)
            for (name, half), mm in zip(halves, flat, strict=True)
        ]
    return tuple(joins)


def _joins(drawn: DressLines, options: DressOptions) -> list[Join]:
    waist = 2 * (drawn.bodice.front.waist.sewn_mm + drawn.bodice.back.waist.sewn_mm)
    around = 2 * sum(gathered_mm(drawn)) if drawn.skirt is None else drawn.skirt.hem_mm
    joins = [
        *bodice_joins(drawn.bodice, options), Join("waist", waist, 2 if drawn.skirt else 3),
        Join("skirt sides", drawn.down, 2), Join("skirt centre back", drawn.down, 1),
        Join("hem", around, 1, 1),
    ]
    if options.lining == "full":
        joins.append(Join("skirt lining", 3 * drawn.down + around, 1, 0))
    return joins


GARMENT = Garment(
    name="dress", title="Dress from bodice and skirt", measurements=MEASUREMENTS,
    estimates=ESTIMATES, takes=DressOptions, draft=draft,
)
