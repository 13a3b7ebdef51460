"""Nightshirt: back and front on the fold, straight sleeves, a slit that lets the head through.

Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from stash.draft.body import Body
from stash.draft.button_marks import button_marks
from stash.draft.cloth_wants import SLEEPWEAR
from stash.draft.cutting_line import Edge
from stash.draft.garment import Garment, choice, hem, measure
from stash.draft.geometry import Path, curve, length, line, towards
from stash.draft.panel import Cutting, Panel, joined, strip
from stash.draft.pockets import patch_pocket, pocket_mark
from stash.draft.safety import cautions_for
from stash.draft.sewing import Join, seams, sewing_needs
from stash.draft.straight_block import (
    ESTIMATES,
    MEASUREMENTS,
    StraightBlock,
    StraightOptions,
    block_meetings,
    half_body,
    neck_curve,
    sleeve,
    straight_block,
)
from stash.model import Closure, Joined, Mark, MarkKind, Need, Part, Pattern, Role
from stash.notions.binding import binding_need
from stash.notions.buttons import SHIRT_BUTTON_MM, button_need, first_button_mm
from stash.notions.elastic import elastic_length_need
from stash.notions.interfacing import interfacing_need
from stash.notions.rules import value

HEAD_EASE_MM = 20.0
LEAST_SLIT_MM = 180.0  # common practice, no source
PLACKET_MM = 25.0  # finished width: a button up to 16 mm stays inside its half
BUTTON_GAP_MM = 60.0
FACING_MM = 60.0
CUFF_HEM_MM, WRIST_EASE_MM = 20.0, 15.0
BINDING_SHOWS_MM = 10.0
KNEE_SHARE = 0.6  # neck point to below the knee, of height: common practice, no source


SleeveLength = Literal["long", "short"]
Cuff = Literal["plain", "elastic"]
FrontOpening = Literal["buttons", "slit"]
NeckFinish = Literal["facing", "binding"]
Pockets = Literal["none", "patch"]


@dataclass(frozen=True, kw_only=True)
class NightshirtOptions(StraightOptions):
    """Options of the nightshirt."""

    length: float | None = measure("from the neck point to the hem", 300, 1600)
    sleeve: SleeveLength = choice(SleeveLength, "sleeve")
    cuff: Cuff = choice(Cuff, "sleeve hem")
    opening: FrontOpening = choice(FrontOpening, "the slit at the front")
    facing: NeckFinish = choice(NeckFinish, "how the neck is finished")
    pockets: Pockets = choice(Pockets, "pockets")
    ease: float = measure("ease round bust or hip, whichever is wider", 120, 500, 200.0)
    hem: float = hem(30.0)


@dataclass(frozen=True)
class Neck:
    """The two halves of the neckline and the depth of the slit below it, mm."""

    back: Path
    front: Path
    slit_mm: float

    @property
    def round_mm(self) -> float:
        """The whole neckline."""
        return 2 * (length(self.back) + length(self.front))

    @property
    def opens_mm(self) -> float:
        """What passes over the head: the neckline and both edges of the slit."""
        return self.round_mm + 2 * self.slit_mm


def neck_for(body: Body, block: StraightBlock) -> Neck:
    """A round neck, with a slit long enough for the head."""
    front = neck_curve((block.neck[1] + 15.0, 0.0), block.neck)
    round_mm = 2 * (length(block.back_neck) + length(front))
    needed = (body["head"] + HEAD_EASE_MM - round_mm) / 2
    return Neck(block.back_neck, front, max(needed, min(LEAST_SLIT_MM, 0.2 * body["bust"])))


def draft(body: Body, options: NightshirtOptions) -> Pattern:
    """Draw the block and the neck, then cut out."""
    long = options.length or KNEE_SHARE * body["height"]
    block = straight_block(body, options.ease, long, options.sleeve, options)
    neck = neck_for(body, block)
    cut = panels(block, neck, options)
    pieces = tuple(p.piece() for p in cut)
    joins, finish = _joins(block, neck), options.finish
    closure = _closure(neck) if options.opening == "buttons" else None
    needs = [
        *_needs(neck, closure, options), *_cuffs(body, options),
        *sewing_needs(joins, finish, buttonholes=_buttons(closure)),
    ]
    fused = [p for p in pieces if p.role is Role.INTERFACING]
    if fused:
        needs.append(interfacing_need(fused))
    return Pattern(
        garment="nightshirt", joins=_meetings(cut), pieces=pieces, notions=tuple(needs),
        seams=seams(joins, finish), wants=SLEEPWEAR, closure=closure,
        measurements_mm=dict(body.values), estimated=body.estimated,
        options=options.to_json(),
        cautions=cautions_for(body, buttons=closure is not None),
    )


def panels(block: StraightBlock, neck: Neck, options: NightshirtOptions) -> list[Panel]:
    """Every panel of the nightshirt, interfacing included."""
    seam, turn = options.seam, options.hem
    around = seam if options.facing == "facing" else 0.0
    top = neck.front[0]
    slit = line(top, (top[0] + neck.slit_mm, 0.0))
    front = half_body(Part.FRONT, block, Edge("neck", neck.front, around), seam, turn)
    cut = [
        half_body(Part.BACK, block, Edge("neck", neck.back, around), seam, turn),
        front.marked((Mark(MarkKind.SLIT, slit),)),
        sleeve(block, seam, CUFF_HEM_MM if options.cuff == "elastic" else turn),
    ]
    if options.facing == "facing":
        faced_slit = neck.slit_mm if options.opening == "slit" else 0.0
        for name, path, below in (("back", neck.back, 0.0), ("front", neck.front, faced_slit)):
            facing = neck_facing(f"{name} facing", block, path, below, seam)
            if name == "front" and options.opening == "buttons":
                through = line(top, (top[0] + FACING_MM, 0.0))
                facing = facing.marked((Mark(MarkKind.SLIT, through),))
            cut += [facing, facing.fused(f"{name} facing interfacing", 1)]
    if options.opening == "buttons":
        wide = 2 * PLACKET_MM + 2 * seam
        two = Cutting(quantity=2, part=Part.PLACKET)
        band = strip("placket", neck.slit_mm + 2 * seam, wide, two).marked(_placket(neck, seam))
        cut += [band, band.fused("placket interfacing", 2)]
    if options.pockets == "patch":
        wide = max(0.3 * block.underarm[1], 90.0)
        cut.append(patch_pocket("pocket", wide, 1.15 * wide, seam))
        at = (block.underarm[0] - 20.0, 0.5 * block.underarm[1] - wide / 2)
        cut[1] = replace(cut[1], one_side=(pocket_mark(at, wide, 1.15 * wide),))
    return cut


def _placket(neck: Neck, seam: float) -> tuple[Mark, ...]:
    """The fold of a placket, and the buttons along the middle of the half that shows."""
    closure, wide = _closure(neck), 2 * PLACKET_MM + 2 * seam
    fold = Mark(MarkKind.FOLD, line((0.0, wide / 2), (neck.slit_mm + 2 * seam, wide / 2)))
    top = (seam, seam + PLACKET_MM / 2)
    return (
        fold, *button_marks(closure, _buttons(closure), SHIRT_BUTTON_MM, top, across=False)
    )


def _meetings(cut: Sequence[Panel]) -> tuple[Joined, ...]:
    """Which edge is sewn to which."""
    by_name = {p.name: p for p in cut}
    front, back = by_name["front"], by_name["back"]
    joins = block_meetings(front, back, by_name["sleeve"])
    for panel in (front, back):
        if facing := by_name.get(f"{panel.name} facing"):
            joins.append(joined((facing, "neck"), (panel, "neck")))
    return tuple(joins)


def neck_facing(
    name: str, block: StraightBlock, neck: Path, below_mm: float, seam: float
) -> Panel:
    """A shaped facing 6 cm wide, on the fold, reaching 3 cm below a slit."""
    shoulder = towards(block.neck, block.shoulder, FACING_MM)
    foot = (neck[0][0] + (below_mm + 30.0 if below_mm else FACING_MM), 0.0)
    if below_mm:
        turn = (neck[0][0] + FACING_MM, FACING_MM)
        outer = (
            *curve(shoulder, (0.6 * turn[0], shoulder[1]), (turn[0], 1.3 * FACING_MM), turn),
            (foot[0], FACING_MM), foot,
        )
    else:
        outer = neck_curve(foot, shoulder)[::-1]
    edges = (
        Edge("neck", neck, seam), Edge("shoulder", line(block.neck, shoulder), seam),
        Edge("outer", outer), Edge("fold", line(foot, neck[0])),
    )
    return Panel(name=name, edges=edges, cutting=Cutting(part=Part.FACING), on_fold=True)


def _closure(neck: Neck) -> Closure:
    first = first_button_mm(SHIRT_BUTTON_MM)
    return Closure(
        length_mm=neck.slit_mm, bust_mm=0.0, overlap_mm=PLACKET_MM / 2,
        first_mm=first, last_mm=max(first + 1, neck.slit_mm - 40),
    )


def _buttons(closure: Closure | None) -> int:
    """Two at least, about 6 cm apart: common practice, no source."""
    if closure is None:
        return 0
    return max(2, round((closure.last_mm - closure.first_mm) / BUTTON_GAP_MM) + 1)


def _joins(block: StraightBlock, neck: Neck) -> list[Join]:
    shoulder, side = line(block.neck, block.shoulder), length(block.side)
    return [
        Join("shoulder", length(shoulder), 2), Join("armhole", 2 * block.armhole_mm, 2),
        Join("side and underarm", side + block.sleeve_mm, 2), Join("neck", neck.round_mm, 2, 0),
        Join("slit", neck.slit_mm, 4, 0), Join("hem", 4 * block.hem[1], 1, 1),
        Join("sleeve hems", 2 * block.cuff_mm, 2, 1),
    ]


def _needs(neck: Neck, closure: Closure | None, options: NightshirtOptions) -> list[Need]:
    needs = []
    if closure is not None:
        needs.append(button_need(closure, count=_buttons(closure), why="front slit"))
    if options.facing == "binding":
        edges_mm = neck.round_mm if closure else neck.opens_mm
        needs.append(binding_need(edges_mm, BINDING_SHOWS_MM, "neck"))
    return needs


def _cuffs(body: Body, options: NightshirtOptions) -> list[Need]:
    """Elastic in the hem of both sleeves, a little wider than the wrist."""
    if options.cuff == "plain":
        return []
    around, casing = 2 * (body["wrist"] + WRIST_EASE_MM), CUFF_HEM_MM - value("casing_turn")
    return [elastic_length_need(around, casing, "both cuffs")]


GARMENT = Garment(
    name="nightshirt", title="Nightshirt", measurements=MEASUREMENTS, estimates=ESTIMATES,
    takes=NightshirtOptions,
    draft=draft,
)
