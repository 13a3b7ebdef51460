"""``lengthwise buttons``: where buttons go on a front, and whether it stays closed."""

from __future__ import annotations

import click

from stash.cli import written
from stash.cli.frame import json_option, say, told
from stash.cli.words import _
from stash.fact import fact
from stash.model import NotionKind
from stash.quantity import Quantity, read_length
from stash.units import mm_to_ligne, sold_ligne
from stash.workroom.notions import ButtonSpacing, space_buttons


@click.command()
@click.option("--front", required=True, help="The front edge from neck to hem, for example 62cm.")
@click.option("--diameter", required=True, help="The button on hand, for example 20mm or 18L.")
@click.option("--thickness", help="How thick the button is, for example 4mm.")
@click.option("--shank", is_flag=True, help="It is domed or on a shank: it wants a longer hole.")
@click.option("--count", type=int, help="How many there are [default: as many as lie well].")
@click.option("--bust", help="Bust level below the neck, for example 24cm; one button goes there.")
@click.option("--overlap", help="Centre line to edge, when the front is already cut.")
@json_option
def command(
    front: str, diameter: str, thickness: str | None, shank: bool, count: int | None,
    bust: str | None, overlap: str | None, as_json: bool,
) -> None:
    """Space buttons on a front; say which counts hold it closed."""
    found = space_buttons(
        read_length(front, Quantity.PATTERN, field="front"),
        read_length(diameter, Quantity.BUTTON, field="diameter"), count,
        bust_mm=read_length(bust, Quantity.PATTERN, field="bust") if bust else None,
        overlap_mm=read_length(overlap, Quantity.MARGIN, field="overlap") if overlap else None,
        thickness_mm=(
            read_length(thickness, Quantity.MARGIN, field="thickness") if thickness else None),
        shank=shank,
    )
    say(_value(found), _text(found), as_json=as_json)


def _value(found: ButtonSpacing) -> dict[str, object]:
    plan = found.plan
    diameter = plan.diameters_mm[0]
    return {
        "front_mm": found.closure.length_mm,
        "diameter_mm": diameter,
        "ligne": round(mm_to_ligne(diameter), 2),
        "sold_as_ligne": sold_ligne(diameter),
        "count": plan.count,
        "to_buy": found.to_buy,
        "positions_mm": [round(p, 1) for p in plan.positions_mm],
        "gap_mm": round(plan.gap_mm, 1),
        "buttonhole_mm": found.buttonhole_mm,
        "horizontal_hole_beyond_centre_mm": found.hole_beyond_centre_mm,
        "overlap_mm": found.closure.overlap_mm,
        "overlap_least_mm": found.overlap_least_mm,
        "overlap_strict_mm": found.overlap_strict_mm,
        "holds_closed": plan.holds,
        "reason": told(plan.reason), "fact": plan.reason.to_json(),
        "counts_that_hold": list(found.counts_that_hold),
    }


def _text(found: ButtonSpacing) -> str:
    plan = found.plan
    places = ", ".join(written.length(p) for p in plan.positions_mm)
    return "\n".join([
        _("{buttons} of {size}, from the neck down: {places}.",
          buttons=told(fact("count_of_button", count=plan.count)),
          size=written.size_of(NotionKind.BUTTON, plan.diameters_mm[0]), places=places),
        _("Buttonholes {length}. {because}",
          length=written.length(found.buttonhole_mm), because=told(plan.reason)),
        _("Counts that hold this front closed: {counts}.", counts=_counts(found.counts_that_hold)),
    ])


def _counts(holding: tuple[int, ...]) -> str:
    if not holding:
        return _("none")
    if len(holding) > 2:
        return _("{least} to {most}", least=holding[0], most=holding[-1])
    return _(" or ").join(map(str, dict.fromkeys(holding)))
