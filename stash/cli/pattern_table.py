"""``lengthwise pattern table``: a printed table of widths and lengths, asked of the stash."""

from __future__ import annotations

import click

from stash.cli import written
from stash.cli.frame import Desk, json_option, pass_desk, say, told
from stash.cli.open_record import open_record
from stash.cli.pattern_said import estimate_line, estimate_value
from stash.cli.words import _
from stash.quantity import Quantity, read_length
from stash.workroom import patterns


@click.command("table")
@click.argument("rows", nargs=-1, required=True, metavar="WIDTH=LENGTH...")
@click.option("--width", help="Only say the length needed at this width.")
@json_option
@pass_desk
def command(desk: Desk, rows: tuple[str, ...], width: str | None, as_json: bool) -> None:
    """Estimate by a printed table of cloth widths and lengths: which cuts are long enough?

    For example 114cm=2.5m 150cm=1.9m.
    """
    if width:
        found = patterns.need_by_table(rows, read_length(width, Quantity.WIDTH, field="width"))
        value = {"length_mm": found.length_mm, "reason": told(found.reason),
                 "fact": found.reason.to_json(), "estimate": True}
        say(value, f"{written.cut_length(found.length_mm)}. {told(found.reason)}", as_json=as_json)
        return
    with open_record(desk) as stash:
        estimate = patterns.estimate_by_table(stash, rows)
    lines = [estimate_line(one) for one in estimate.found if one.spare_mm >= 0]
    text = "\n".join([_("By the printed table, an estimate:"), *lines]) if lines else (
        _("By the printed table, no cut is long enough.")
    )
    aside = [
        {"cut": cut.code, "reason": told(error), "fact": error.fact.to_json()}
        for cut, error in estimate.set_aside
    ]
    candidates = [estimate_value(one) for one in estimate.found]
    say({"estimate": True, "candidates": candidates, "set_aside": aside}, text, as_json=as_json)
