"""A worn length of cloth: wrapper, scarf or square, as it came or with hemmed edges."""

from __future__ import annotations

from stash.draft.body import Body
from stash.draft.cloth_wants import WRAPS
from stash.draft.garment import Choice, Garment, Measure, Options, hem
from stash.draft.rectangle import Allowances, rectangle
from stash.draft.sewing import Join, seams, sewing_needs
from stash.model import Pattern

STYLES = {"wrapper": (1830.0, 1100.0), "scarf": (1800.0, 350.0), "square": (900.0, 900.0)}
"""Length and width of each: common practice, no source; a wrapper length is often two yards."""
STYLE = Choice(name="style", about="how it is worn", words=tuple(STYLES))
LENGTH = Measure(name="length", about="finished length", least_mm=200, most_mm=9000)
WIDTH = Measure(name="width", about="finished width", least_mm=100, most_mm=3000)
EDGE = Choice(
    name="edge", about="its edges: as cut, hemmed at both ends, or hemmed all round",
    words=("uncut", "ends", "all round"),
)


def draft(body: Body, options: Options) -> Pattern:
    """One rectangle; between selvedges only the ends need a hem."""
    usual = STYLES[str(options["style"])]
    long, wide = options["length"] or usual[0], options["width"] or usual[1]
    turn = float(options["hem"])
    ends = 0.0 if options["edge"] == "uncut" else turn
    sides = turn if options["edge"] == "all round" else 0.0
    piece = rectangle("length", (long, wide), Allowances(ends, ends, sides)).piece()
    joins = [Join("end hems", wide, 2, 0)] if ends else []
    joins += [Join("side hems", long, 2, 0)] if sides else []
    return Pattern(
        garment="wrap", pieces=(piece,), wants=WRAPS, seams=seams(joins, "overlock"),
        notions=sewing_needs(joins, "overlock") if joins else (),
        measurements_mm=dict(body.values), options=dict(options),
    )


GARMENT = Garment(
    name="wrap", title="Wrap or scarf length", measurements=(), estimates=(),
    options=(STYLE, LENGTH, WIDTH, EDGE, hem(15.0)), draft=draft,
)
