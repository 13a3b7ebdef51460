"""``lengthwise buttons``: where buttons go on a front, and whether it stays closed."""

from __future__ import annotations

import click

from stash.cli.frame import json_option, say
from stash.model import Closure
from stash.notions import ButtonPlan, best_count, button_plan, closure_for, counts_that_hold
from stash.notions.buttons import overlap_least_mm, overlap_strict_mm, with_spare
from stash.notions.rules import value
from stash.quantity import Quantity, read_length
from stash.units import format_button, format_length, mm_to_ligne, sold_ligne


@click.command()
@click.option("--front", required=True, help="The front edge from neck to hem, for example 62cm.")
@click.option("--diameter", required=True, help="The button on hand, for example 20mm or 18L.")
@click.option("--count", type=int, help="How many there are [default: as many as lie well].")
@click.option("--bust", help="Bust level below the neck, for example 24cm; one button goes there.")
@click.option("--overlap", help="Centre line to edge, when the front is already cut.")
@json_option
def command(
    front: str, diameter: str, count: int | None, bust: str | None, overlap: str | None,
    as_json: bool,
) -> None:
    """Space buttons on a front; say which counts hold it closed."""
    diameter_mm = read_length(diameter, Quantity.BUTTON, field="diameter")
    closure = closure_for(
        read_length(front, Quantity.PATTERN, field="front"),
        diameter_mm,
        bust_mm=read_length(bust, Quantity.PATTERN, field="bust") if bust else None,
        overlap_mm=read_length(overlap, Quantity.MARGIN, field="overlap") if overlap else None,
    )
    plan = button_plan(closure, [diameter_mm] * (best_count(closure) if count is None else count))
    holding = counts_that_hold(closure, diameter_mm)
    say(_value(closure, plan, holding), _text(plan, holding), as_json=as_json)


def _value(closure: Closure, plan: ButtonPlan, holding: tuple[int, ...]) -> dict:
    diameter = plan.diameters_mm[0]
    return {
        "front_mm": closure.length_mm,
        "diameter_mm": diameter,
        "ligne": round(mm_to_ligne(diameter), 2),
        "sold_as_ligne": sold_ligne(diameter),
        "count": plan.count,
        "to_buy": with_spare(plan.count),
        "positions_mm": [round(p, 1) for p in plan.positions_mm],
        "gap_mm": round(plan.gap_mm, 1),
        "buttonhole_mm": plan.buttonholes_mm[0],
        "horizontal_hole_beyond_centre_mm": value("horizontal_hole_beyond_centre"),
        "overlap_mm": closure.overlap_mm,
        "overlap_least_mm": overlap_least_mm(diameter),
        "overlap_strict_mm": overlap_strict_mm(diameter),
        "holds_closed": plan.holds,
        "reason": plan.reason,
        "counts_that_hold": list(holding),
    }


def _text(plan: ButtonPlan, holding: tuple[int, ...]) -> str:
    places = ", ".join(format_length(p) for p in plan.positions_mm)
    counts = " or ".join(map(str, sorted({holding[0], holding[-1]}))) if holding else "none"
    if len(holding) > 2:
        counts = f"{holding[0]} to {holding[-1]}"
    what = "button" if plan.count == 1 else "buttons"
    return (
        f"{plan.count} {what} of {format_button(plan.diameters_mm[0])}, from the neck down: "
        f"{places}.\nButtonholes {format_length(plan.buttonholes_mm[0])}. {plan.reason}\n"
        f"Counts that hold this front closed: {counts}."
    )
