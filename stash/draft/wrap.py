"""A worn length of cloth: wrapper, scarf or square, as it came or with hemmed edges."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from stash.draft.body import Body
from stash.draft.cloth_wants import WRAPS
from stash.draft.garment import Garment, Options, choice, hem, measure
from stash.draft.rectangle import Turnings, rectangle
from stash.draft.sewing import Join, seams, sewing_needs
from stash.model import Pattern

STYLES = {"wrapper": (1830.0, 1100.0), "scarf": (1800.0, 350.0), "square": (900.0, 900.0)}
"""Length and width of each: common practice, no source; a wrapper length is often two yards."""


WrapStyle = Literal["wrapper", "scarf", "square"]
WrapEdge = Literal["uncut", "ends", "all round"]


@dataclass(frozen=True, kw_only=True)
class WrapOptions(Options):
    """Options of the wrap."""

    style: WrapStyle = choice(WrapStyle, "how it is worn")
    length: float | None = measure("finished length", 200, 9000)
    width: float | None = measure("finished width", 100, 3000)
    edge: WrapEdge = choice(WrapEdge, "its edges: as cut, hemmed at both ends, or hemmed all round")
    hem: float = hem(15.0)


def draft(body: Body, options: WrapOptions) -> Pattern:
    """One rectangle; between selvedges only the ends need a hem."""
    usual = STYLES[options.style]
    long, wide = options.length or usual[0], options.width or usual[1]
    turn = options.hem
    ends = 0.0 if options.edge == "uncut" else turn
    sides = turn if options.edge == "all round" else 0.0
    piece = rectangle("length", (long, wide), Turnings(ends, ends, sides)).piece()
    joins = [Join("end hems", wide, 2, 0)] if ends else []
    joins += [Join("side hems", long, 2, 0)] if sides else []
    return Pattern(
        garment="wrap", pieces=(piece,), wants=WRAPS, seams=seams(joins, "overlock"),
        notions=sewing_needs(joins, "overlock") if joins else (),
        measurements_mm=dict(body.values), options=options.to_json(),
    )


GARMENT = Garment(
    name="wrap", title="Wrap or scarf length", measurements=(), estimates=(),
    takes=WrapOptions, draft=draft,
)
