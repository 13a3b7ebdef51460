"""Robe: lapped fronts with a band round the neck, straight sleeves, a tie belt.

Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from stash.draft.body import Body
from stash.draft.cloth_wants import ROBES
from stash.draft.cutting_line import Edge
from stash.draft.garment import Garment, choice, hem, measure
from stash.draft.geometry import Path, distance, length, line
from stash.draft.lining import Lining, lined_as, lining_of
from stash.draft.panel import Cutting, Panel, strip
from stash.draft.pockets import patch_pocket, pocket_mark
from stash.draft.rectangle import Turnings, rectangle
from stash.draft.safety import cautions_for
from stash.draft.sewing import Join, seams, sewing_needs
from stash.draft.straight_block import (
    ESTIMATES,
    MEASUREMENTS,
    StraightBlock,
    StraightOptions,
    block_meetings,
    half_body,
    sleeve,
    straight_block,
)
from stash.model import Joined, Mark, MarkKind, Part, Pattern, Point
from stash.notions.binding import binding_need

# Common practice, no source: fronts lap a tenth of the bust each, a band shows 5 cm, a belt
# is 4 cm wide and its ends hang half a metre each, the robe ends at two thirds of the height.
LAP_SHARE, BAND_MM, BELT_MM, BELT_END_MM, CALF_SHARE = 0.1, 50.0, 40.0, 500.0, 0.66
LOOP_MM = (90.0, 40.0)
BINDING_SHOWS_MM = 12.0


SleeveLength = Literal["long", "short"]
FrontFinish = Literal["band", "binding"]
Belt = Literal["tie", "stitched", "none"]
Pockets = Literal["patch", "none"]


@dataclass(frozen=True, kw_only=True)
class RobeOptions(StraightOptions):
    """Options of the robe."""

    length: float | None = measure("from the neck point to the hem", 300, 1700)
    sleeve: SleeveLength = choice(SleeveLength, "sleeve")
    facing: FrontFinish = choice(FrontFinish, "the front edges: a doubled band, or bias binding")
    belt: Belt = choice(Belt, "a tie belt, with two loops")
    pockets: Pockets = choice(Pockets, "pockets")
    lining: Lining = choice(Lining, "a lining")
    ease: float = measure("ease round bust or hip, whichever is wider", 120, 600, 240.0)
    hem: float = hem(40.0)


def draft(body: Body, options: RobeOptions) -> Pattern:
    """Back on the fold, fronts with their lap, and what runs along the front edges."""
    long = options.length or CALF_SHARE * body["height"]
    block = straight_block(body, options.ease, long, options.sleeve, options)
    edge = front_edge(block, body)
    outer = body_panels(block, edge, options)
    if options.pockets == "patch":
        outer[1] = outer[1].marked((_pocket_place(block, edge, _pocket_wide(body)),))
    lining = map(lining_of, outer) if options.lining == "full" else ()
    panels = [*outer, *lining, *_trims(block, edge, body, options)]
    joins, finish = _joins(block, edge, options), options.finish
    if options.lining == "full":
        joins += [replace(j, name=f"lining, {j.name}", raw_edges=0) for j in joins[:3]]
    needs = sewing_needs(joins, finish)
    if options.facing == "binding":
        around = _around(block, edge)
        needs = (binding_need(around, BINDING_SHOWS_MM, "front edges and neck"), *needs)
    return Pattern(
        garment="robe", pieces=tuple(p.piece() for p in panels), joins=_meetings(panels),
        notions=needs, wants=ROBES, seams=seams(joins, finish),
        measurements_mm=dict(body.values), estimated=body.estimated,
        options=options.to_json(),
        cautions=cautions_for(body, ties=options.belt != "none"),
    )


def front_edge(block: StraightBlock, body: Body) -> Path:
    """From the hem up to the waist, beyond the centre by the lap, then up to the neck."""
    lap = -LAP_SHARE * body["bust"]
    waist = min(body["back_waist"], 0.8 * block.hem[0])
    return line((block.hem[0], lap), (waist, lap), block.neck)


def body_panels(block: StraightBlock, edge: Path, options: RobeOptions) -> list[Panel]:
    """Back, front and sleeve."""
    seam, turn = options.seam, options.hem
    trim = seam if options.facing == "band" else 0.0
    front = Panel(
        name="front",
        edges=(
            Edge("front edge", edge, trim),
            Edge("shoulder", line(block.neck, block.shoulder), seam),
            Edge("armhole", line(block.shoulder, block.underarm), seam),
            Edge("side", block.side, seam),
            Edge("hem", line(block.hem, edge[0]), turn, turned=turn > 0),
        ),
        cutting=Cutting(quantity=2, pair=True, part=Part.FRONT),
        notches=(("side", 0.5 * distance(block.underarm, block.hem)),),
        marks=(
            Mark(MarkKind.CENTRE, line((edge[1][0], 0.0), (block.hem[0], 0.0))),
            Mark(MarkKind.PLACE, (_at(block.side, edge[1][0]),)),
        ),
    )
    back = half_body(Part.BACK, block, Edge("neck", block.back_neck, trim), seam, turn)
    return [back, front, sleeve(block, seam, turn)]


def _trims(block: StraightBlock, edge: Path, body: Body, options: RobeOptions) -> list[Panel]:
    """Band and belt in halves, joined at the centre back."""
    seam, panels = options.seam, []
    if options.facing == "band":
        shown = (_around(block, edge) / 2, 2 * BAND_MM)
        band = rectangle("band", shown, Turnings(seam, seam, seam), _two(Part.BAND))
        panels.append(band.marked(
            (Mark(MarkKind.FOLD, line((0.0, BAND_MM), (shown[0], BAND_MM))),),
            notches=(("side 2", length(block.back_neck)),),
        ))
    if options.belt != "none":
        half = belt_mm(body) / 2 + 2 * seam
        panels.append(strip("belt", half, 2 * BELT_MM + 2 * seam, _two(Part.BELT)))
        panels.append(strip("belt loop", *LOOP_MM, _two(Part.LOOP)))
    if options.pockets == "patch":
        wide = _pocket_wide(body)
        panels.append(patch_pocket("pocket", wide, 1.15 * wide, seam, quantity=2))
    return panels


def _at(side: Path, down: float) -> Point:
    """Where a side seam passes a level: there a belt loop is sewn."""
    (x0, y0), (x1, y1) = side[0], side[-1]
    return down, y0 + (y1 - y0) * (down - x0) / (x1 - x0)


def _two(part: Part) -> Cutting:
    return Cutting(quantity=2, part=part)


def _meetings(panels: Sequence[Panel]) -> tuple[Joined, ...]:
    """Which edge is sewn to which; the band runs along both front edges and the back neck."""
    by_name = {p.name: p for p in panels}
    front, back = by_name["front"], by_name["back"]
    joins = block_meetings(front, back, by_name["sleeve"])
    if "front lining" in by_name:
        joins += lined_as(joins, ("front", "back", "sleeve"))
    if "band" in by_name:
        half = front.length("front edge") + back.length("neck")
        joins.append(Joined(("band", "side"), ("front", "front edge"), half, half))
    return tuple(joins)


def belt_mm(body: Body) -> float:
    """Finished belt: once round and two ends, shorter ends for a small body."""
    return body["waist"] + 2 * min(BELT_END_MM, 0.3 * body["height"])


def _around(block: StraightBlock, edge: Path) -> float:
    """Both front edges and the back neck."""
    return 2 * (length(edge) + length(block.back_neck))


def _pocket_wide(body: Body) -> float:
    """A finished patch: common practice, no source."""
    return max(0.17 * body["hip"], 100.0)


def _pocket_place(block: StraightBlock, edge: Path, wide: float) -> Mark:
    """Midway between centre and side, 8 cm below the waist, or as low as a short robe lets it be
    (common practice, no source).
    """
    deep, waist = 1.15 * wide, edge[1][0]
    down = max(min(waist + 80.0, block.hem[0] - deep - 20.0), waist - deep)
    return pocket_mark((down, 0.5 * (block.underarm[1] - wide)), wide, deep)


def _joins(block: StraightBlock, edge: Path, options: RobeOptions) -> list[Join]:
    shoulder, side = distance(block.neck, block.shoulder), length(block.side)
    return [
        Join("shoulder", shoulder, 2), Join("armhole", 2 * block.armhole_mm, 2),
        Join("side and underarm", side + block.sleeve_mm, 2),
        Join("front edges and neck", _around(block, edge), 2, 0),
        Join("hem", 4 * block.hem[1] - 2 * edge[0][1], 1, 1),
        Join("sleeve hems", 2 * block.cuff_mm, 2, 1),
        Join("belt and pockets", 3000.0 if options.belt != "none" else 1000.0, 1, 0),
    ]


GARMENT = Garment(
    name="robe", title="Robe", measurements=MEASUREMENTS, estimates=ESTIMATES,
    takes=RobeOptions, draft=draft,
)
