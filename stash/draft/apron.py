"""Apron: a bib apron in one piece, or a gathered skirt on a band with a bib.

The gathered one follows the cut sizes of the Ontario Teachers' Manuals, Household Science
in Rural Schools (1918), Lesson XI: belt waist + 3 in by 2 1/2 in, cut twice; skirt its length
and 6 in; bib 9 by 12 in; straps 4 1/2 in wide; 1/4 in seams included.
Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from stash.draft.body import Body
from stash.draft.cloth_wants import APRONS
from stash.draft.cutting_line import Edge
from stash.draft.garment import Garment, Sewn, choice, hem, measure
from stash.draft.geometry import Path, curve, length, line
from stash.draft.panel import Cutting, Panel, strip
from stash.draft.pockets import patch_pocket, pocket_mark
from stash.draft.rectangle import Turnings, rectangle
from stash.draft.safety import cautions_for
from stash.draft.sewing import Join, seams, sewing_needs
from stash.model import Joined, Mark, MarkKind, Need, Part, Pattern, Point
from stash.notions.binding import binding_need
from stash.notions.fastenings import tape_need

# Common practice, no source, where none is named.
INCH = 25.4
NARROW_MM, BINDING_SHOWS_MM, TIE_CUT_MM, TIE_TAPE_MM = 10.0, 10.0, 60.0, 25.0
BELT_LONGER_MM, BELT_CUT_MM, STRAP_CUT_MM = 3 * INCH, 2.5 * INCH, 4.5 * INCH
BIB_CUT_MM = (9 * INCH, 12 * INCH)
USUAL_WAIST_MM = 26 * INCH  # waist of the school drafts of the time (Burton, 1916)


ApronStyle = Literal["bib", "gathered"]
ArmholeEdge = Literal["hem", "binding"]
Ties = Literal["cloth", "tape"]
Pockets = Literal["patch", "none"]


@dataclass(frozen=True, kw_only=True)
class ApronOptions(Sewn):
    """Options of the apron."""

    style: ApronStyle = choice(ApronStyle, "cut in one, or gathered on a band")
    length: float | None = measure("from waist to finished hem", 150, 1100)
    edge: ArmholeEdge = choice(ArmholeEdge, "how the armholes of the bib are finished")
    ties: Ties = choice(Ties, "neck loop and ties")
    pockets: Pockets = choice(Pockets, "pockets")
    hem: float = hem(40.0)


@dataclass(frozen=True)
class ApronSize:
    """Measures of the apron, mm: half widths, heights, and the length of one tie."""

    bib_half: float
    half: float
    bib: float
    skirt: float
    tie: float
    neck_loop: float


def size_for(body: Body, options: ApronOptions) -> ApronSize:
    """From waist, hip, bust and height; proportions are common practice, no source."""
    return ApronSize(
        bib_half=0.14 * body["bust"],
        half=0.38 * body["hip"],
        bib=0.3 * body["bust"],
        skirt=float(options.length or 0.33 * body["height"]),
        tie=max(0.9 * body["waist"], 450.0),
        neck_loop=max(0.6 * body["bust"], body["head"] + 40.0 - 0.28 * body["bust"]),
    )


def draft(body: Body, options: ApronOptions) -> Pattern:
    """Draft the style, and count its ties."""
    size = size_for(body, options)
    bib_style = options.style == "bib"
    panels = _bib_apron(size, options) if bib_style else _gathered(size, body, options)
    if options.pockets == "patch":
        panels.append(patch_pocket("pocket", _pocket_wide(size), _pocket_wide(size), options.seam))
    joins, finish = _joins(size, body, options), options.finish
    return Pattern(
        garment="apron", pieces=tuple(p.piece() for p in panels),
        joins=_meetings(size, body, options),
        notions=(*_needs(size, options), *sewing_needs(joins, finish)), wants=APRONS,
        seams=seams(joins, finish), measurements_mm=dict(body.values), estimated=body.estimated,
        options=options.to_json(), cautions=cautions_for(body, slept_in=False, ties=True),
    )


def _meetings(size: ApronSize, body: Body, options: ApronOptions) -> tuple[Joined, ...]:
    """Which edge is sewn to which: ties and loop by their folded ends; a skirt by its gathers."""
    cloth = options.ties == "cloth"
    folded = TIE_CUT_MM / 4
    if options.style == "bib":
        if not cloth:
            return ()
        return (
            Joined(("tie", "end"), ("apron", "side"), folded, folded),
            Joined(("neck loop", "end"), ("apron", "top"), folded, folded),
        )
    wide = BIB_CUT_MM[1] * body["waist"] / USUAL_WAIST_MM
    joins = [
        Joined(("skirt", "top"), ("belt", "long"), gathered_width(body), body["waist"]),
        Joined(("bib", "end"), ("belt", "other long"), wide, wide),
    ]
    strap = STRAP_CUT_MM / 4
    return (*joins, Joined(("strap", "end"), ("bib", "other end"), strap, strap)) if cloth else (
        tuple(joins))


def armhole(size: ApronSize) -> Path:
    """The curve from the corner of the bib down to the side at the waist."""
    top, side = (0.0, size.bib_half), (size.bib, size.half)
    return curve(
        top, (0.55 * size.bib, size.bib_half), (size.bib, size.bib_half + 0.35 * (
            size.half - size.bib_half)), side,
    )


def _bib_apron(size: ApronSize, options: ApronOptions) -> list[Panel]:
    turn, foot = options.hem, size.bib + size.skirt
    edge = NARROW_MM if options.edge == "hem" else 0.0
    body = Panel(
        name="apron",
        edges=(
            Edge("top", line((0.0, 0.0), (0.0, size.bib_half)), turn / 2 + NARROW_MM, turned=True),
            Edge("armhole", armhole(size), edge),
            Edge("side", line((size.bib, size.half), (foot, size.half)), 2 * NARROW_MM),
            Edge("hem", line((foot, size.half), (foot, 0.0)), turn, turned=turn > 0),
            Edge("fold", line((foot, 0.0), (0.0, 0.0))),
        ),
        on_fold=True,
        marks=(
            Mark(MarkKind.WAIST, line((size.bib, 0.0), (size.bib, size.half))),
            Mark(MarkKind.PLACE, ((size.bib, size.half),)),
            Mark(MarkKind.PLACE, ((0.0, size.bib_half - 2 * NARROW_MM),)),
            *_pocket_place(size, options, (size.bib, -_pocket_wide(size) / 2)),
        ),
    )
    if options.ties == "tape":
        return [body]
    return [
        body, strip("tie", size.tie, TIE_CUT_MM, Cutting(quantity=2, part=Part.BELT)),
        strip("neck loop", size.neck_loop, TIE_CUT_MM, Cutting(part=Part.STRAP)),
    ]


def _pocket_wide(size: ApronSize) -> float:
    """A finished patch, as wide as deep, smaller on a very short apron (common practice)."""
    return max(min(0.45 * size.half, size.skirt - 40.0), 90.0)


def _pocket_place(
    size: ApronSize, options: ApronOptions, waist: Point
) -> tuple[Mark, ...]:
    """One patch about the centre, 8 cm below the waist (common practice, no source).

    ``waist`` is where its side meets the waist; what lies beyond a fold is not drawn.
    """
    if options.pockets != "patch":
        return ()
    wide, (top, side) = _pocket_wide(size), waist
    down = min(80.0, size.skirt - wide - 20.0)
    left = max(side, 0.0)
    return (pocket_mark((top + down, left), side + wide - left, wide),)


def _gathered(size: ApronSize, body: Body, options: ApronOptions) -> list[Panel]:
    """The published cut sizes, the bib in proportion to the waist."""
    scale = body["waist"] / USUAL_WAIST_MM
    seam, turn = options.seam, options.hem
    bib = (BIB_CUT_MM[0] * scale, BIB_CUT_MM[1] * scale)
    skirt = (size.skirt, gathered_width(body))
    belt = Cutting(quantity=2, part=Part.WAISTBAND)
    panels = [
        strip("belt", body["waist"] + BELT_LONGER_MM, BELT_CUT_MM, belt),
        rectangle("skirt", skirt, Turnings(seam, turn, 2 * NARROW_MM)).marked(
            _pocket_place(size, options, (0.0, (gathered_width(body) - _pocket_wide(size)) / 2))),
        strip("bib", *bib),
    ]
    if options.ties == "cloth":
        long = size.bib + 0.5 * body["waist"]
        panels.append(strip("strap", long, STRAP_CUT_MM, Cutting(quantity=2, part=Part.STRAP)))
    return panels


def gathered_width(body: Body) -> float:
    """The full width of 36 in cloth for the waist it was published for, and in proportion."""
    return 36 * INCH * body["waist"] / USUAL_WAIST_MM - 4 * NARROW_MM


def _joins(size: ApronSize, body: Body, options: ApronOptions) -> list[Join]:
    joins = [
        Join("side hems", size.skirt, 2, 0), Join("hem", 2 * size.half, 1, 0),
        Join("top of the bib", 2 * size.bib_half, 1, 0),
        Join("ties", size.tie, 4 if options.ties == "cloth" else 0, 0),
    ]
    if options.style == "bib":
        return [*joins, Join("armholes", length(armhole(size)), 2, 0)]
    return [*joins, Join("belt", body["waist"], 4, 0), Join("gathers", gathered_width(body), 2, 0)]


def _needs(size: ApronSize, options: ApronOptions) -> list[Need]:
    needs = []
    if options.style == "bib" and options.edge == "binding":
        needs.append(binding_need(2 * length(armhole(size)), BINDING_SHOWS_MM, "armholes"))
    if options.ties == "tape":
        whole = 2 * size.tie + size.neck_loop
        needs.append(tape_need(whole, TIE_TAPE_MM, "ties and neck loop"))
    return needs


GARMENT = Garment(
    name="apron", title="Apron", measurements=("waist",),
    estimates=("bust", "hip", "height", "head"),
    takes=ApronOptions, draft=draft,
)
