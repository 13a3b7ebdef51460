"""Pillowcase: one length folded round the pillow with a flap, a bordered one, or a plain one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from stash.draft.body import Body
from stash.draft.cloth_wants import BEDDING
from stash.draft.garment import Garment, Sewn, choice, hem, measure
from stash.draft.panel import Panel
from stash.draft.rectangle import Turnings, rectangle
from stash.draft.sewing import Join, seams, sewing_needs
from stash.errors import InvalidInput
from stash.model import Joined, Mark, MarkKind, Pattern

PillowOpening = Literal["flap", "border", "plain"]


@dataclass(frozen=True, kw_only=True)
class PillowcaseOptions(Sewn):
    """Options of the pillowcase."""

    length: float = measure("finished length", 200, 1500, 750.0)
    width: float = measure("finished width", 200, 1200, 500.0)
    opening: PillowOpening = choice(PillowOpening, "how it holds the pillow")
    flap: float = measure("depth of the inside flap, or of the border", 50, 400, 150.0)
    hem: float = hem(20.0)


def draft(body: Body, options: PillowcaseOptions) -> Pattern:
    """Cut it round the end of the pillow: the fold at the closed end is no seam."""
    panels = _panels(options)
    joins = _joins(options)
    finish = options.finish
    return Pattern(
        joins=_meetings(options), garment="pillowcase", pieces=tuple(p.piece() for p in panels),
        notions=sewing_needs(joins, finish), wants=BEDDING, seams=seams(joins, finish),
        measurements_mm=dict(body.values), options=options.to_json(),
    )


def _panels(options: PillowcaseOptions) -> list[Panel]:
    long, wide, flap = options.length, options.width, options.flap
    seam, turn = options.seam, options.hem
    if options.opening == "border":
        if flap > long / 2:
            raise InvalidInput(
                "border_too_deep", most_measure_mm=long / 2, field="flap",
            )
        return [
            rectangle("body", (long - flap, 2 * wide), Turnings(seam, seam, seam)),
            rectangle("border", (2 * flap, 2 * wide), Turnings(seam, seam, seam)),
        ]
    inside = flap if options.opening == "flap" else 0.0
    return [
        rectangle("pillowcase", (2 * long + inside, wide), Turnings(turn, turn, seam)).marked(
            [Mark(MarkKind.FOLD, ((x, 0.0), (x, wide)))
             for x in (long, 2 * long) if x < 2 * long + inside]
        ),
    ]


def _meetings(options: PillowcaseOptions) -> tuple[Joined, ...]:
    """Which edge is sewn to which; a folded edge is sewn to its other half."""
    long, wide = options.length, options.width
    if options.opening == "border":
        down = long - options.flap
        return (
            Joined(("border", "top"), ("body", "bottom"), 2 * wide, 2 * wide),
            Joined(("body", "side"), ("body", "side 2"), down, down),
            Joined(("body", "top"), ("body", "top"), wide, wide),
        )
    sides = ("side", "side 2")
    return tuple(Joined(("pillowcase", e), ("pillowcase", e), long, long) for e in sides)


def _joins(options: PillowcaseOptions) -> list[Join]:
    long, wide = options.length, options.width
    if options.opening == "border":
        return [Join("border", 2 * wide), Join("end", wide), Join("side", long)]
    return [Join("sides", long, 2), Join("hems", wide, 2, 0)]


GARMENT = Garment(
    name="pillowcase", title="Pillowcase", measurements=(), estimates=(),
    takes=PillowcaseOptions, draft=draft,
)
