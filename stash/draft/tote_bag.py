"""Tote bag: two sides, two handles; flat or boxed, lined or not, open or drawn up by a cord.

Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from stash.draft.body import Body
from stash.draft.cloth_wants import BAGS
from stash.draft.garment import Garment, Sewn, choice, measure
from stash.draft.panel import Cutting, Panel, strip
from stash.draft.rectangle import Turnings, rectangle
from stash.draft.sewing import Join, seams, sewing_needs
from stash.model import Joined, Mark, MarkKind, Part, Pattern, Role
from stash.notions.elastic import cord_need
from stash.notions.fastenings import tape_need

HANDLE_CUT_MM = 80.0  # folded in four, 20 mm finished: common practice, no source
TURN_MM = 10.0


Handles = Literal["cloth", "tape"]
Lining = Literal["none", "full"]
Top = Literal["open", "cord"]


@dataclass(frozen=True, kw_only=True)
class ToteBagOptions(Sewn):
    """Options of the tote bag."""

    length: float = measure("finished height", 120, 800, 400.0)
    width: float = measure("finished width", 120, 800, 360.0)
    depth: float = measure("depth of a boxed base", 0, 300, 0.0)
    handle_length: float = measure("cut length of one handle", 200, 1500, 600.0)
    handles: Handles = choice(Handles, "what they are made of")
    lining: Lining = choice(Lining, "lining")
    top: Top = choice(Top, "left open, or drawn up by a cord")
    seam: float = measure("seam allowance", 0, 30, 10.0)
    hem: float = measure("hem allowance", 20, 120, 50.0)


def draft(body: Body, options: ToteBagOptions) -> Pattern:
    """Half the depth goes below each side and half beyond each of its seams."""
    joins, finish = _joins(options), options.finish
    needs = sewing_needs(joins, finish)
    if options.handles == "tape":
        handles = 2 * options.handle_length
        needs = (tape_need(handles, HANDLE_CUT_MM / 4, "handles"), *needs)
    if options.top == "cord":
        around = 2 * (options.width + options.depth)
        needs = (cord_need(around, options.hem - TURN_MM, "top"), *needs)
    return Pattern(
        garment="tote-bag", pieces=tuple(p.piece() for p in _panels(options)), notions=needs,
        joins=_meetings(options), wants=BAGS, seams=seams(joins, finish),
        measurements_mm=dict(body.values), options=options.to_json(),
    )


def _panels(options: ToteBagOptions) -> list[Panel]:
    seam, turn, depth = options.seam, options.hem, options.depth
    size = (options.length + depth / 2, options.width + depth)
    lined = options.lining == "full"
    panels = [
        rectangle("side", size, Turnings(turn, seam, seam), Cutting(quantity=2)).marked(
            _places(options)
        ),
    ]
    if lined:
        facing = Turnings(seam, seam, seam)
        below = (size[0] - turn + seam, size[1])
        panels.append(
            rectangle("lining", below, facing, Cutting(quantity=2, role=Role.LINING))
        )
    if options.handles == "cloth":
        long = options.handle_length
        panels.append(strip("handle", long, HANDLE_CUT_MM, Cutting(quantity=2, part=Part.STRAP)))
    return panels


def _meetings(options: ToteBagOptions) -> tuple[Joined, ...]:
    """Which edge is sewn to which: both sides to each other, a boxed base across its corners."""
    down, wide = options.length, options.width + options.depth
    joins = [
        Joined(("side", "side"), ("side", "side 2"), down, down),
        Joined(("side", "bottom"), ("side", "bottom"), options.width, options.width),
    ]
    if options.lining == "full":
        joins += [
            Joined(("lining", "top"), ("side", "top"), wide, wide),
            Joined(("lining", "side"), ("lining", "side 2"), down - options.hem + options.seam,
                   down - options.hem + options.seam),
        ]
    if options.handles == "cloth":
        quarter = HANDLE_CUT_MM / 4
        joins.append(Joined(("handle", "end"), ("side", "top"), quarter, quarter))
    return tuple(joins)


def _places(options: ToteBagOptions) -> tuple[Mark, ...]:
    """Where the handles' ends are sewn, a quarter in from each side, and a boxed base's fold."""
    wide, depth = options.width + options.depth, options.depth
    handles = [Mark(MarkKind.PLACE, ((0.0, share * wide),)) for share in (0.3, 0.7)]
    if not depth:
        return tuple(handles)
    base = Mark(MarkKind.FOLD, ((options.length, 0.0), (options.length, wide)))
    return (*handles, base)


def _joins(options: ToteBagOptions) -> list[Join]:
    depth, wide = options.depth, options.width + options.depth
    around = 2 * (options.length + depth / 2) + wide
    raw = 0 if options.lining == "full" else 2
    joins = [Join("sides and base", around, 1, raw), Join("top hem", 2 * wide, 1, 0)]
    joins.append(Join("handles", options.handle_length, 4, 0))
    if depth:
        joins.append(Join("corners of the base", depth, 2, raw))
    if raw == 0:
        joins.append(Join("lining", around + 2 * wide, 1, 0))
    return joins


GARMENT = Garment(
    name="tote-bag", title="Tote bag", measurements=(), estimates=(),
    takes=ToteBagOptions, draft=draft,
)
