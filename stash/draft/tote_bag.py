"""Tote bag: two sides, two handles; flat or boxed, lined or not, open or drawn up by a cord."""

from __future__ import annotations

from stash.draft.body import Body
from stash.draft.cloth_wants import BAGS
from stash.draft.garment import FINISH, Choice, Garment, Measure, Options
from stash.draft.panel import Cutting, Panel, strip
from stash.draft.rectangle import Allowances, rectangle
from stash.draft.sewing import Join, seams, sewing_needs
from stash.model import Part, Pattern, Role
from stash.notions.elastic import cord_need
from stash.notions.fastenings import tape_need

LENGTH = Measure(name="length", about="finished height", least_mm=120, most_mm=800, default=400.0)
WIDTH = Measure(name="width", about="finished width", least_mm=120, most_mm=800, default=360.0)
DEPTH = Measure(name="depth", about="depth of a boxed base", least_mm=0, most_mm=300, default=0.0)
HANDLE = Measure(
    name="handle_length", about="cut length of one handle",
    least_mm=200, most_mm=1500, default=600.0,
)
HANDLES = Choice(name="handles", about="what they are made of", words=("cloth", "tape"))
LINING = Choice(name="lining", about="lining", words=("none", "full"))
TOP = Choice(name="top", about="left open, or drawn up by a cord", words=("open", "cord"))
SEAM = Measure(name="seam", about="seam allowance", least_mm=0, most_mm=30, default=10.0)
HEM = Measure(name="hem", about="hem allowance", least_mm=20, most_mm=120, default=50.0)
HANDLE_CUT_MM = 80.0  # folded in four, 20 mm finished: common practice, no source
TURN_MM = 10.0


def draft(body: Body, options: Options) -> Pattern:
    """Half the depth goes below each side and half beyond each of its seams."""
    joins, finish = _joins(options), str(options["finish"])
    needs = sewing_needs(joins, finish)
    if options["handles"] == "tape":
        handles = 2 * float(options["handle_length"])
        needs = (tape_need(handles, HANDLE_CUT_MM / 4, "handles"), *needs)
    if options["top"] == "cord":
        around = 2 * (float(options["width"]) + float(options["depth"]))
        needs = (cord_need(around, float(options["hem"]) - TURN_MM, "top"), *needs)
    return Pattern(
        garment="tote-bag", pieces=tuple(p.piece() for p in _panels(options)), notions=needs,
        wants=BAGS, seams=seams(joins, finish), measurements_mm=dict(body.values),
        options=dict(options),
    )


def _panels(options: Options) -> list[Panel]:
    seam, turn, depth = (float(options[k]) for k in ("seam", "hem", "depth"))
    size = (float(options["length"]) + depth / 2, float(options["width"]) + depth)
    lined = options["lining"] == "full"
    panels = [
        rectangle("side", size, Allowances(turn, seam, seam), Cutting(quantity=2)),
    ]
    if lined:
        facing = Allowances(seam, seam, seam)
        below = (size[0] - turn + seam, size[1])
        panels.append(
            rectangle("lining", below, facing, Cutting(quantity=2, role=Role.LINING))
        )
    if options["handles"] == "cloth":
        long = float(options["handle_length"])
        panels.append(strip("handle", long, HANDLE_CUT_MM, Cutting(quantity=2, part=Part.STRAP)))
    return panels


def _joins(options: Options) -> list[Join]:
    depth, wide = float(options["depth"]), float(options["width"]) + float(options["depth"])
    around = 2 * (float(options["length"]) + depth / 2) + wide
    raw = 0 if options["lining"] == "full" else 2
    joins = [Join("sides and base", around, 1, raw), Join("top hem", 2 * wide, 1, 0)]
    joins.append(Join("handles", float(options["handle_length"]), 4, 0))
    if depth:
        joins.append(Join("corners of the base", depth, 2, raw))
    if raw == 0:
        joins.append(Join("lining", around + 2 * wide, 1, 0))
    return joins


GARMENT = Garment(
    name="tote-bag", title="Tote bag", measurements=(), estimates=(),
    options=(LENGTH, WIDTH, DEPTH, HANDLE, HANDLES, LINING, TOP, SEAM, HEM, FINISH), draft=draft,
)
