"""Pillowcase: one length folded round the pillow with a flap, a bordered one, or a plain one."""

from __future__ import annotations

from stash.draft.body import Body
from stash.draft.cloth_wants import BEDDING
from stash.draft.garment import FINISH, SEAM, Choice, Garment, Measure, Options, hem
from stash.draft.panel import Panel
from stash.draft.rectangle import Allowances, rectangle
from stash.draft.sewing import Join, seams, sewing_needs
from stash.errors import InvalidInput
from stash.model import Pattern
from stash.units import format_length

LENGTH = Measure(name="length", about="finished length", least_mm=200, most_mm=1500, default=750.0)
WIDTH = Measure(name="width", about="finished width", least_mm=200, most_mm=1200, default=500.0)
OPENING = Choice(name="opening", about="how it holds the pillow", words=("flap", "border", "plain"))
FLAP = Measure(
    name="flap", about="depth of the inside flap, or of the border",
    least_mm=50, most_mm=400, default=150.0,
)


def draft(body: Body, options: Options) -> Pattern:
    """Cut it round the end of the pillow: the fold at the closed end is no seam."""
    panels = _panels(options)
    joins = _joins(options)
    finish = str(options["finish"])
    return Pattern(
        garment="pillowcase", pieces=tuple(p.piece() for p in panels),
        notions=sewing_needs(joins, finish), wants=BEDDING, seams=seams(joins, finish),
        measurements_mm=dict(body.values), options=dict(options),
    )


def _panels(options: Options) -> list[Panel]:
    long, wide, flap = (float(options[k]) for k in ("length", "width", "flap"))
    seam, turn = float(options["seam"]), float(options["hem"])
    if options["opening"] == "border":
        if flap > long / 2:
            raise InvalidInput(
                f"The border can be at most half the length, {format_length(long / 2)}.",
                field="flap",
            )
        return [
            rectangle("body", (long - flap, 2 * wide), Allowances(seam, seam, seam)),
            rectangle("border", (2 * flap, 2 * wide), Allowances(seam, seam, seam)),
        ]
    inside = flap if options["opening"] == "flap" else 0.0
    return [
        rectangle("pillowcase", (2 * long + inside, wide), Allowances(turn, turn, seam)),
    ]


def _joins(options: Options) -> list[Join]:
    long, wide = float(options["length"]), float(options["width"])
    if options["opening"] == "border":
        return [Join("border", 2 * wide), Join("end", wide), Join("side", long)]
    return [Join("sides", long, 2), Join("hems", wide, 2, 0)]


GARMENT = Garment(
    name="pillowcase", title="Pillowcase", measurements=(), estimates=(),
    options=(LENGTH, WIDTH, OPENING, FLAP, SEAM, hem(20.0), FINISH), draft=draft,
)
